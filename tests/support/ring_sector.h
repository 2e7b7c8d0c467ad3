#pragma once
// A sector of a ring of ground between two radii, its cells fitted to both: plan ground around a drain or a pile.

#include "mesh/domain.h"
#include "mesh/grid.h"
#include "mesh/ground_area.h"
#include "solver/pore_water.h"

#include <Eigen/Core>

#include <cmath>
#include <utility>
#include <vector>

namespace interpile::test {

/// Cells run outward (x) and around (y); nearly square, so the angle of the sector follows from them. Water alone: the
/// supports of the skeleton know no slanting sides.
struct RingSector {
    static constexpr int cells_around = 2;
    mesh::Domain domain;
    mesh::Grid grid;

    /// \param radius  of the rings' edges, rising [m]
    RingSector(const std::vector<double>& radius, double angle_step, bool open_inside, bool open_outside) {
        using enum mesh::BoundaryKind;
        domain.side = {open_inside ? ConstantStress : Symmetry, open_outside ? ConstantStress : Symmetry,
                       Symmetry, Symmetry};
        grid.cells_x = static_cast<int>(radius.size()) - 1;
        grid.cells_y = cells_around;
        grid.node_m.resize(2, grid.node_count());
        for (int j = 0; j <= grid.cells_y; ++j)
            for (int i = 0; i <= grid.cells_x; ++i)
                grid.node_m.col(grid.node_index(i, j)) =
                    radius[static_cast<std::size_t>(i)] *
                    mesh::Vec2(std::cos(j * angle_step), std::sin(j * angle_step));
    }
    Eigen::ArrayXd middle_radius() const {
        return mesh::cell_middles(grid).colwise().norm().transpose().array();
    }
    /// Soil of one void ratio, no stabilization, no piles.
    solver::FlowState state(double void_ratio) const {
        const Eigen::Index count = grid.cell_count();
        return {grid, mesh::cell_areas(grid), Eigen::ArrayXd::Constant(count, void_ratio),
                Eigen::ArrayXd::Constant(count, 1e12), Eigen::ArrayXd::Zero(count)};
    }
};

/// Radii in a geometric series, the last one met exactly.
inline std::vector<double> geometric(double from, double to, int cells) {
    std::vector<double> radius;
    for (int n = 0; n <= cells; ++n)
        radius.push_back(from * std::pow(to / from, static_cast<double>(n) / cells));
    return radius;
}

} // namespace interpile::test
