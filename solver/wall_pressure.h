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

/// Radial effective stress at the circle of the disc [kPa], compression positive: the mean radial stress of
/// the soil between 1.2 and 1.8 radii, taken to the wall by radial equilibrium d(sigma_r)/d(ln r) = -(sigma_r
/// - sigma_t) with the ring's own ratio (sigma_r - sigma_t)/sigma_r, which is constant where Mohr-Coulomb
/// soil flows. A mean over a ring, because single cells of a perfectly plastic soil scatter; soil outside,
/// because cells cut by the circle yield half a cell inside it and make the disc's own mean too high on a
/// coarse grid (own measurement, DEVELOPERS.md). Falls back on the disc's mean where the ring has fewer than
/// 4 cells or its radial stress is not positive.
double wall_pressure(const Momentum& momentum, const PileDisc& disc, const mesh::Vec2& planned_center);

} // namespace interpile::solver
