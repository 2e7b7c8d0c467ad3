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
    return disc.planned_fraction < 1 ? planned : mesh::Vec2(sum / area);
}

double disc_radius(const Momentum& momentum, const PileDisc& disc) {
    return std::sqrt(momentum.disc_area(disc) / disc.planned_fraction / std::numbers::pi);
}

double wall_pressure(const Momentum& momentum, const PileDisc& disc, const mesh::Vec2& planned_center) {
    const auto& grid = momentum.current();
    const auto& stress = momentum.soil_state().stress;
    const mesh::Vec2 center = disc_center(momentum, disc, planned_center);
    const double a = disc_radius(momentum, disc);
    // Weighted straight line ln(sigma_r) = c0 + c1 ln(r/a).
    double w = 0, x = 0, y = 0, xx = 0, xy = 0;
    int count = 0;
    // The ring spans a limited number of cells around the disc; rows and columns of the structured grid bound
    // it.
    int low_i = grid.cells_x, high_i = 0, low_j = grid.cells_y, high_j = 0;
    for (const auto& part : disc.parts) {
        low_i = std::min(low_i, part.cell % grid.cells_x),
        high_i = std::max(high_i, part.cell % grid.cells_x);
        low_j = std::min(low_j, part.cell / grid.cells_x),
        high_j = std::max(high_j, part.cell / grid.cells_x);
    }
    const int reach = 2 + 4 * std::max(high_i - low_i, high_j - low_j);
    for (int j = std::max(0, low_j - reach); j < std::min(grid.cells_y, high_j + reach); ++j)
        for (int i = std::max(0, low_i - reach); i < std::min(grid.cells_x, high_i + reach); ++i) {
            const int cell = j * grid.cells_x + i;
            const mesh::Vec2 from_center = middle(grid, cell) - center;
            const double r = from_center.norm();
            if (r < 1.15 * a || r > 2.5 * a)
                continue;
            const double c = from_center.x() / r, s = from_center.y() / r;
            const double radial =
                c * c * stress(cell, 0) + s * s * stress(cell, 1) + 2 * c * s * stress(cell, 3);
            if (radial <= 0)
                return momentum.disc_pressure(disc);
            const double weight = momentum.cell_area(cell) / (r * r), lx = std::log(r / a),
                         ly = std::log(radial);
            w += weight, x += weight * lx, y += weight * ly, xx += weight * lx * lx, xy += weight * lx * ly;
            ++count;
        }
    if (count < 8)
        return momentum.disc_pressure(disc);
    const double slope = (w * xy - x * y) / (w * xx - x * x);
    return std::exp((y - slope * x) / w);
}

} // namespace interpile::solver
