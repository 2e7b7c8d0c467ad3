#pragma once
// The smeared ring around a finished pile: ground that installation has made less permeable.

#include "solver/momentum.h"

#include <Eigen/Core>

#include <vector>

namespace interpile::solver {

/// A disc and where it was planned.
struct PlacedDisc {
    const PileDisc* disc;
    mesh::Vec2 planned_center_m;
};

/// Of the ground of each cell (without the piles), the share that lies in the rings around these discs as they lie now:
/// between the pile and a circle of `diameter_ratio` times its diameter; 0 .. 1. Rings that overlap count once.
/// \param diameter_ratio  d_s/d_w >= 1; 1: no ring
/// \throws std::invalid_argument  below 1
Eigen::ArrayXd smear_share(const Momentum& momentum, const std::vector<PlacedDisc>& discs,
                           double diameter_ratio);

} // namespace interpile::solver
