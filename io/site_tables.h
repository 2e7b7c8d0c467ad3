#pragma once
// The design of a site as CSV tables. Every table has a row per boring and what its first columns name.

#include "io/site_file.h"

#include <string>
#include <vector>

namespace interpile::io {

/// One file to be written.
struct NamedTable {
    std::string file; ///< "ground.csv"
    std::string text;
};

/// ground.csv      stresses and the chosen value of every quantity by depth, spread of the relative density
/// estimates.csv   every estimate with relation, source and remarks
/// safety.csv      F_L by every procedure, before and with the spacing of every method; where procedures disagree
/// safety-steps.csv  every intermediate of every procedure, before treatment
/// severity.csv    P_L and settlement by procedure, before and with the spacing of every method
/// needs.csv       target N, replacement ratio and state that every method asks for by depth
/// spacings.csv    governing depth, replacement ratio, spacing, practical spacing and heave by method
/// after.csv       N predicted by every method with the practical spacing of that method
/// ratios.csv      N after by every method against the replacement ratio, at the governing depth of each
std::vector<NamedTable> site_tables(const SiteFile& site, const std::vector<solver::BoringDesign>& designs);

/// Word for a table: "reached before treatment", "replacement ratio", "out of reach".
const char* need_name(solver::NeedKind kind);

} // namespace interpile::io
