#pragma once
// What a drawing puts on its page, read back from the files it makes.

#include "postprocess/canvas.h"

#include <string>
#include <vector>

namespace interpile::tests {

/// Words in a PDF of the drawing, by pdftotext of poppler-utils, one of the packages of a development machine; every
/// gap and line break is one space.
std::string words_of(const postprocess::Drawing& drawing);

/// Words of the PDF that do not lie on its page as a whole, by pdftotext; each followed by a space.
std::string words_off_page(const postprocess::Drawing& drawing);

std::string svg_of(const postprocess::Drawing& drawing);

/// Lines stroked, or areas filled, with a color, letters left out: corners on the page [pt], y down (of circles also
/// the control points of their arcs).
std::vector<postprocess::Polyline> lines_of(const postprocess::Drawing& drawing,
                                            const postprocess::Color& color);
std::vector<postprocess::Polyline> areas_of(const postprocess::Drawing& drawing,
                                            const postprocess::Color& color);

/// Dashed ones among the lines of a color.
std::size_t dashed_lines(const postprocess::Drawing& drawing, const postprocess::Color& color);

/// Middle of the bounding box.
postprocess::Vec2 middle_of(const postprocess::Polyline& corners);

bool has(const std::string& text, const std::string& part);

} // namespace interpile::tests
