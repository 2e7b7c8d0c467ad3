#pragma once
// From values in cells to values at nodes.

#include "mesh/grid.h"

#include <vector>

namespace interpile::postprocess {

/// Average at each node of the cells around it that count; not a number where none does. One stress point per cell
/// leaves a pattern that alternates from cell to cell; it averages out at the nodes.
/// \param counts  per cell
Eigen::ArrayXd node_averages(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                             const std::vector<bool>& counts);

/// The mean of its four nodes for each cell that counts, else not a number: what contours show in its middle.
Eigen::ArrayXd means_of_nodes(const mesh::Grid& grid, const Eigen::ArrayXd& node_value,
                              const std::vector<bool>& counts);

} // namespace interpile::postprocess
