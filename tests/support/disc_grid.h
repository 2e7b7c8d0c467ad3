#pragma once
// A quarter disc whose grid lines are circles from the wall of a pile outward: no staircase there.

#include "mesh/grid.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace interpile::test {

/// For a Round domain. Lines run around the origin as max(i, j) = 0, 1 ..; squares in the middle turn into circles at the
/// wall, `pile_cells` lines out.
/// \param radius  of the circles, the first that of the pile, rising [m]
inline mesh::Grid disc_grid(const std::vector<double>& radius, int pile_cells) {
    mesh::Grid grid;
    grid.cells_x = grid.cells_y = pile_cells + static_cast<int>(radius.size()) - 1;
    grid.node_m.setZero(2, grid.node_count());
    for (int j = 0; j <= grid.cells_y; ++j)
        for (int i = 0; i <= grid.cells_x; ++i) {
            const int line = std::max(i, j);
            if (line == 0)
                continue; // the origin
            const double part = std::min(1.0, static_cast<double>(line) / pile_cells);
            const mesh::Vec2 square = mesh::Vec2(i, j) / line;
            const double angle = std::numbers::pi / 4 * (j <= i ? square.y() : 2 - square.x());
            const mesh::Vec2 circle(std::cos(angle), std::sin(angle));
            grid.node_m.col(grid.node_index(i, j)) =
                radius[static_cast<std::size_t>(std::max(0, line - pile_cells))] * part *
                ((1 - part) * square / std::numbers::sqrt2 + part * circle);
        }
    return grid;
}

} // namespace interpile::test
