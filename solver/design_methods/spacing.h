#pragma once
// Area replacement ratio and spacing of an endless pattern of equal piles.

#include "mesh/pile_layout.h"

namespace interpile::solver {

/// Shape of the cell that one pile serves.
struct CellShape {
    mesh::Pattern pattern = mesh::Pattern::Square; ///< Listed has no cell and is refused
    double row_spacing_ratio = 1; ///< Rectangular only: distance of rows over spacing within a row, > 0
};

/// a_s = (pi d^2/4) / cell area [-]; cell area s^2, s^2 sqrt(3)/2, ratio s^2.
/// \throws std::invalid_argument  piles that overlap; a number out of range; pattern Listed
double replacement_ratio(const CellShape& shape, double spacing_m, double diameter_m);

/// Spacing within a row [m], the inverse of replacement_ratio.
/// \param replacement_ratio  a_s, 0 < a_s < 1
/// \throws std::invalid_argument  piles that would overlap; a number out of range; pattern Listed
double spacing_m(const CellShape& shape, double replacement_ratio, double diameter_m);

/// Largest multiple of `step_m` not above the spacing [m]: down, so that the replacement ratio never falls short.
/// \throws std::invalid_argument  spacing below one step; a number out of range
double practical_spacing_m(double spacing_m, double step_m = 0.05);

} // namespace interpile::solver
