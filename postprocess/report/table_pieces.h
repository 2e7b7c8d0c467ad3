#pragma once
// A table of the report as rows on the page.

#include "postprocess/report/document.h"
#include "postprocess/report/page_flow.h"

namespace interpile::postprocess::report {

/// Caption, head, rows, notes. Columns take the width of what stands in them; where that is more than the page has, text
/// is broken into lines, then letters get smaller (not below 6.5 pt), then words are broken. The head comes again on
/// every page.
/// \param number  of the table
std::vector<Piece> table_pieces(Canvas& canvas, const Table& table, const std::string& number, double left_pt,
                                double width_pt);

} // namespace interpile::postprocess::report
