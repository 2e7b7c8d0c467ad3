#pragma once
// The chapters of a report as pieces of a text column.

#include "postprocess/report/document.h"
#include "postprocess/report/page_flow.h"

namespace interpile::postprocess::report {

/// Column of text on an A4 page [pt].
inline constexpr double sheet_width_pt = 210 * pt_per_mm, sheet_height_pt = 297 * pt_per_mm;
inline constexpr double column_left_pt = 22 * pt_per_mm, column_width_pt = 168 * pt_per_mm;
inline constexpr double column_top_pt = 25 * pt_per_mm, column_height_pt = 247 * pt_per_mm;
inline constexpr double body_size_pt = 9.5, line_pt = 13.5;

/// Lines of a text; two at least stay together at either end.
std::vector<Piece> text_pieces(Canvas& canvas, const std::string& text, const TextStyle& style,
                               double leading_pt, double indent_pt = 0);

/// A framed text that is not cut.
Piece caution_piece(Canvas& canvas, const std::string& text);

std::vector<Piece> chapter_pieces(Canvas& canvas, const Document& document);

} // namespace interpile::postprocess::report
