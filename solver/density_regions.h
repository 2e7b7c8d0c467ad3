#pragma once
// Density of the slice before treatment, cell by cell.

#include "mesh/grid.h"
#include "solver/slice.h"

#include <Eigen/Core>

#include <vector>

namespace interpile::solver {

/// Number of the region that holds in each cell, the last one with the middle of the cell inside; -1 for none.
std::vector<int> region_of_cells(const mesh::Grid& grid, const std::vector<DensityRegion>& regions);

/// Void ratio of each cell before treatment, n [-].
Eigen::ArrayXd initial_void_ratio(const mesh::Grid& grid, const Slice& slice);

} // namespace interpile::solver
