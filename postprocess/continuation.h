#pragma once
// Values of the ground carried on under the piles, for drawing.

#include "mesh/grid.h"

#include <vector>

namespace interpile::postprocess {

/// The field with the values of all cells that are not ground replaced, so that pile material does not color
/// the ground beside it. Cells next to ground continue the trend of the two nearest ground cells, the mean
/// over the directions in which there are any; further in they take the mean of their neighbors, ring by
/// ring. All of this lies under the pile's disc in a figure, but for the outer part of cells that the disc
/// cuts: there, within one cell of the disc, the picture is extrapolated.
/// \throws std::invalid_argument if no
/// cell is ground
Eigen::ArrayXd continued_under_piles(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                                     const std::vector<bool>& is_ground);

} // namespace interpile::postprocess
