#pragma once
// How much ground each cell holds of a region, as weights for means over it.

#include "mesh/grid.h"
#include "mesh/treated_area.h"

#include <Eigen/Core>

namespace interpile::mesh {

/// A cell with this much pile in it is left out as a whole: its stress and density are a mixture.
constexpr double largest_pile_share = 0.01;

/// Area of each cell [m2].
Eigen::ArrayXd cell_areas(const Grid& grid);

/// Middle of each cell, the mean of its corners [m].
Eigen::Matrix2Xd cell_middles(const Grid& grid);

/// Area of ground per cell [m2], 0 outside the region: cells whose middle lies in the treated area, as a whole.
/// \param pile_share  per cell, as in the field of that name
Eigen::ArrayXd ground_area_m2(const Grid& grid, const Eigen::ArrayXd& pile_share, const TreatedArea& region);
/// The same of a circle: the exact part of each cell that lies in it.
Eigen::ArrayXd ground_area_m2(const Grid& grid, const Eigen::ArrayXd& pile_share, const Vec2& center,
                              double radius_m);

/// Mean of a field weighted by area; not a number where there is no area.
double area_mean(const Eigen::ArrayXd& area_m2, const Eigen::ArrayXd& value);

/// Lateral stress ratio K of a region: mean horizontal over mean vertical effective stress. A mean of single ratios
/// would follow the few cells that a withdrawal leaves almost without vertical stress. 0 without vertical stress, as in
/// the field of that name.
double lateral_stress_ratio(const Eigen::ArrayXd& area_m2, const Eigen::ArrayXd& lateral_stress_kPa,
                            const Eigen::ArrayXd& vertical_stress_kPa);

} // namespace interpile::mesh
