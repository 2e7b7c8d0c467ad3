#include "solver/wall_pressure.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::solver {
namespace {

mesh::Vec2 middle(const mesh::Grid& grid, int cell) {
    const auto c = grid.corners(cell);
    return 0.25 * (c[0] + c[1] + c[2] + c[3]);
}

/// Rows and columns of the grid that hold every cell within a distance of a point, with some to spare.
struct Block {
    int low_i, high_i, low_j, high_j;
};

Block block_around(const mesh::Grid& grid, int cell, const mesh::Vec2& center, double distance) {
    const int i0 = cell % grid.cells_x, j0 = cell / grid.cells_x;
    const auto far = [&](int i, int j) {
        return (middle(grid, j * grid.cells_x + i) - center).norm() > distance;
    };
    Block b = {i0, i0 + 1, j0, j0 + 1};
    while (b.low_i > 0 && !far(b.low_i, j0))
        --b.low_i;
    while (b.high_i < grid.cells_x && !far(b.high_i - 1, j0))
        ++b.high_i;
    while (b.low_j > 0 && !far(i0, b.low_j))
        --b.low_j;
    while (b.high_j < grid.cells_y && !far(i0, b.high_j - 1))
        ++b.high_j;
    return b;
}

} // namespace

mesh::Vec2 disc_center(const Momentum& momentum, const PileDisc& disc, const mesh::Vec2& planned) {
    mesh::Vec2 sum = mesh::Vec2::Zero();
    double area = 0;
    for (const auto& part : disc.parts) {
        const double a = momentum.cell_area(part.cell) * PileDisc::pile_share(part.share, disc.log_growth);
        sum += a * middle(momentum.current(), part.cell);
        area += a;
    }
    // A disc cut by symmetry lines is seen in part only: its center stays on them.
    return disc.planned_fraction < 1 ? planned : mesh::Vec2(planned + sum / area - disc.seed_middle);
}

double disc_radius(const Momentum& momentum, const PileDisc& disc) {
    return std::sqrt(momentum.disc_area(disc) / disc.planned_fraction / std::numbers::pi);
}

double wall_pressure(const Momentum& momentum, const PileDisc& disc, const mesh::Vec2& planned_center) {
    const auto& grid = momentum.current();
    const auto& stress = momentum.soil_state().stress;
    const mesh::Vec2 center = disc_center(momentum, disc, planned_center);
    const double a = disc_radius(momentum, disc);
    double weights = 0, log_r = 0, radial = 0, difference = 0; // of the ring, uniform in ln(r)
    int count = 0;
    const Block block = block_around(grid, disc.parts.front().cell, center, 2 * a);
    for (int j = block.low_j; j < block.high_j; ++j)
        for (int i = block.low_i; i < block.high_i; ++i) {
            const int cell = j * grid.cells_x + i;
            const mesh::Vec2 from_center = middle(grid, cell) - center;
            const double r = from_center.norm();
            if (r < 1.2 * a || r >= 1.8 * a)
                continue;
            const double c = from_center.x() / r, s = from_center.y() / r;
            const double xx = stress(cell, 0), yy = stress(cell, 1), xy = stress(cell, 3);
            const double weight = momentum.cell_area(cell) / (r * r);
            weights += weight;
            log_r += weight * std::log(r / a);
            radial += weight * (c * c * xx + s * s * yy + 2 * c * s * xy);
            difference += weight * ((c * c - s * s) * (xx - yy) + 4 * c * s * xy);
            ++count;
        }
    if (count < 4 || radial <= 0)
        return momentum.disc_pressure(disc);
    return radial / weights * std::exp(difference / radial * log_r / weights);
}

} // namespace interpile::solver
