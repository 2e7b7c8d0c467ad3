#pragma once
// What was built against what was ordered, as CSV tables.

#include "io/as_built_site.h"

#include <string>

namespace interpile::io {

/// A row per recorded pile and meter: sand, diameter, replacement ratio and passes built and ordered, resistance.
std::string slices_table(const WorksFile& works, const AsBuiltSite& site);

/// A row per ordered pile: verdict, what is left open, length, sand, position, tilt, time, order, rest.
std::string piles_table(const WorksFile& works, const AsBuiltSite& site);

/// A row per limit not kept, the worst first.
std::string weak_spots_table(const AsBuiltSite& site);

/// pile,x_m,y_m of every ordered pile as surveyed, else as ordered; a table of positions for works and case files.
std::string positions_table(const AsBuiltSite& site);

/// Plan at a depth: place, diameter and place in the order built, as a table of positions for a case file. A pile without
/// sand there has no row. Diameter and place are empty where they were not recorded; a case takes the diameter of [pile]
/// for the one, and asks for the other.
/// \param depth_m  within the ordered piles, both ends allowed
std::string layout_table(const AsBuiltSite& site, double depth_m);

/// Of a finding, without its unit: "sand volume over ordered volume".
std::string quantity_of(solver::AsBuiltCheck check);
/// "m", "-".
std::string unit_of(solver::AsBuiltCheck check);

} // namespace interpile::io
