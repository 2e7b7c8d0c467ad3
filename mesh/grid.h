#pragma once
// Structured quadrilaterals: node positions, connectivity, generation with a fine treated area.

#include "mesh/domain.h"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace interpile::mesh {

/// nx x ny cells; node (i, j) has index j (nx+1) + i, cell (i, j) has index j nx + i. The corners of a cell
/// run counterclockwise from its low corner.
struct Grid {
    int cells_x = 0;
    int cells_y = 0;
    Eigen::Matrix2Xd node_m; ///< 2 x nodes, positions [m]

    int cell_count() const { return cells_x * cells_y; }
    int node_count() const { return (cells_x + 1) * (cells_y + 1); }
    int node_index(int i, int j) const { return j * (cells_x + 1) + i; }
    std::array<int, 4> cell_nodes(int cell) const {
        const int n = node_index(cell % cells_x, cell / cells_x);
        return {n, n + 1, n + cells_x + 2, n + cells_x + 1};
    }
    std::array<Vec2, 4> corners(int cell) const;
    /// Nodes along a side of the domain, in order of increasing index.
    std::vector<int> side_nodes(Side side) const;
};

/// How fine and how graded.
struct GridSettings {
    double fine_cell_m = 0;    ///< cell size in the treated area [m]
    double fine_margin_m = 0;  ///< treated area ends this far outside the outermost pile centers [m]
    double growth_ratio = 1.2; ///< each cell outside is larger than its inner neighbor by this ratio [-]
};

/// Grid of the domain: squares of fine_cell_m around the piles, growing geometrically to the sides. A Round
/// domain is mapped from a square: concentric squares in the middle turn smoothly into circles at the arc,
/// its fine_cell_m holds at the center.
/// \throws std::invalid_argument if the extent is empty or a setting is
/// not positive
Grid make_grid(const Domain& domain, const std::vector<Vec2>& pile_centers, const GridSettings& settings);

/// Cell boundaries along one axis from low to high: steps of `fine` between fine_low and fine_high, growing
/// by `ratio` outside; the last step is adjusted so that both ends are met exactly.
std::vector<double> graded_axis(double low, double high, double fine_low, double fine_high, double fine,
                                double ratio);

/// Worst values over all cells, printed before a run and stored with the result.
struct GridQuality {
    double smallest_cell_m = 0;        ///< shortest edge
    double largest_cell_m = 0;         ///< longest edge
    double largest_aspect = 0;         ///< longest over shortest edge of one cell [-]
    double largest_neighbor_ratio = 0; ///< edge length across a shared node line [-]
    double smallest_corner_sine = 0;   ///< sine of the sharpest (or flattest) corner; 1 for rectangles
};
GridQuality grid_quality(const Grid& grid);

} // namespace interpile::mesh
