#pragma once
// Radial stress at the wall of a pile, from the soil outside.

#include "mesh/domain.h"
#include "solver/momentum.h"
#include "solver/pile_growth.h"

namespace interpile::solver {

/// Center of a disc now: area-weighted mean of its cells [m]. On a symmetry line the planned center is on the
/// line.
mesh::Vec2 disc_center(const Momentum& momentum, const PileDisc& disc, const mesh::Vec2& planned);

/// Radius of a circle with the area of the full disc [m].
double disc_radius(const Momentum& momentum, const PileDisc& disc);

/// Radial effective stress at the circle of the disc [kPa], compression positive: a power law in r, fitted to
/// the radial stress of the cells between 1.15 and 2.5 radii, taken to the wall. The mean stress of the disc
/// itself is too high on a coarse grid, because cells cut by the circle yield half a cell inside it (own
/// measurement). Falls back on the disc's mean where fewer than 8 cells lie in the ring or the stress is not
/// positive there.
double wall_pressure(const Momentum& momentum, const PileDisc& disc, const mesh::Vec2& planned_center);

} // namespace interpile::solver
