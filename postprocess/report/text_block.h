#pragma once
// Text broken into lines of a width on the page.

#include "postprocess/canvas.h"

namespace interpile::postprocess::report {

/// Broken at blanks, behind hyphens of words, at line ends of the text, and inside a word only where it alone is wider than the line. Symbols are
/// set as postprocess/label.h sentence does. At least one line.
/// \param width_pt  > 0
std::vector<Label> lines_of(Canvas& canvas, const std::string& text, const TextStyle& style, double width_pt);

/// Width of the widest word, and of the whole text in one line [pt].
double widest_word_pt(Canvas& canvas, const std::string& text, const TextStyle& style);
double text_width_pt(Canvas& canvas, const std::string& text, const TextStyle& style);

} // namespace interpile::postprocess::report
