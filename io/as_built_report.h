#pragma once
// What was built against what was ordered, in words for the terminal and the map.

#include "io/as_built_site.h"

#include <string>
#include <vector>

namespace interpile::io {

/// Counts, sand, the ten weakest spots, order and rest, and what is left open.
std::string as_built_report(const WorksFile& works, const AsBuiltSite& site);

/// What the plan at a depth leaves out, one line: "Plan at 9.8 m: 22 of 24 piles; without sand there: P9".
std::string plan_report(const AsBuiltSite& site, double depth_m);

/// "24 piles ordered, 23 recorded: 19 as ordered, 4 deviate, 1 not recorded".
std::string as_built_counts(const AsBuiltSite& site);

/// What cannot be judged, a sentence each: piles without log, quantities not recorded. Empty if there is nothing.
std::vector<std::string> left_open(const AsBuiltSite& site);

/// The kinds of findings of a pile with the worst value of each, worst kind first: "short 0.60 m, sand 72 % at 9-10 m".
std::string spot_remark(const SitePile& pile);

/// One sentence on what the comparison does not hold.
std::string as_built_caution();

} // namespace interpile::io
