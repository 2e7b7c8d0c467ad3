#pragma once
// Case files made from the design of a site, ready for `interpile check` and `interpile run`.

#include "io/site_tables.h"

namespace interpile::io {

/// For every boring of the choice `design_by` and every method that asks for piles and reaches its target: the cell of an
/// endless pattern at the governing depth with the practical spacing ("case-NAME-C-cell.toml"), and of square and
/// rectangular patterns a group of nine driven in turn inside a treated field ("case-NAME-C-group.toml").
/// The ground is that of the boring at that depth. What the site file does not say is a default of the program or a
/// choice of its own, and its comment says so.
/// \param designs  by boring, in the order of the site; with DesignBy::Mean the mean boring is the last one
std::vector<NamedTable> site_cases(const SiteFile& site, const std::vector<solver::BoringDesign>& designs);

/// Borings the cases of one method are made for: all, the mean, or the one that asks for most; fewer where nothing is
/// asked for, the target is out of reach, or piles or rows are more than 20 m apart.
std::vector<const solver::BoringDesign*>
borings_for_cases(const SiteFile& site, const std::vector<solver::BoringDesign>& designs, std::size_t method);

/// The cell of an endless pattern at one sample, as text of a case file, with the spacing of a replacement ratio.
/// \throws std::invalid_argument  a clay or silt sample has no state; piles that would overlap
std::string cell_case(const SiteFile& site, const solver::BoringDesign& design, std::size_t sample,
                      double replacement_ratio);

} // namespace interpile::io
