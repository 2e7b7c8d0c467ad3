#pragma once
// From values in cells to areas of equal color and to isolines.

#include "mesh/grid.h"
#include "postprocess/scale.h"

#include <vector>

namespace interpile::postprocess {

using Ring = std::vector<mesh::Vec2>; ///< [m]

/// All ground of one band as one path: outer borders counterclockwise, holes clockwise.
struct BandArea {
    int band = 0;
    std::vector<Ring> rings;
    double area_m2() const;
};

/// Bands of a continuous field. A node takes the average of the cells around it, the middle of a cell the mean
/// of its nodes, linear between. Every point of the grid belongs to exactly one band; bands without area are left
/// out.
/// \param cell_value  one finite value per cell
std::vector<BandArea> smooth_bands(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                                   const BandScale& scale);

/// Bands of a field that must not be averaged (states, directions): every cell has the band of its own value.
std::vector<BandArea> cell_bands(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value,
                                 const BandScale& scale);

/// Borders of the bands inside the grid, as lines of equal value.
std::vector<Ring> isolines(const mesh::Grid& grid, const Eigen::ArrayXd& cell_value, const BandScale& scale);

} // namespace interpile::postprocess
