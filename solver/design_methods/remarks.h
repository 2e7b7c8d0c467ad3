#pragma once
// Where a design method is used outside the range it is said to hold in.

#include "solver/design_methods/design_result.h"

namespace interpile::solver {

/// Remarks on the content of fines: A to 20 %, B clean sand, C 2 .. 40 %, caps of beta and R_c at 1,
/// Hirama's limits to 40 %.
/// Source: from memory of the trade.
std::vector<std::string> fines_remarks(DesignMethod method, double fines_pct, bool limits_by_hirama);

/// Adds a remark where a_s is outside 0.05 .. 0.20, usual in sand by common practice. NaN and 0 get none.
void add_ratio_remark(DesignResult& result);

} // namespace interpile::solver
