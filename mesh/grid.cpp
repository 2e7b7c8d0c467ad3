#include "mesh/grid.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace interpile::mesh {
namespace {

/// Cells of sizes fine r, fine r^2, ... over a length; r <= ratio is lowered until the end is met exactly.
std::vector<double> growing_steps(double length, double fine, double ratio) {
    if (length <= 0)
        return {};
    int count = 0;
    for (double sum = 0, step = fine; sum < length * (1 - 1e-12); ++count)
        sum += step *= ratio;
    const auto sum_for = [&](double r) {
        double sum = 0, step = fine;
        for (int k = 0; k < count; ++k)
            sum += step *= r;
        return sum;
    };
    double low = 0, high = ratio;
    for (int k = 0; k < 100; ++k) {
        const double middle = 0.5 * (low + high);
        (sum_for(middle) < length ? low : high) = middle;
    }
    std::vector<double> steps;
    double step = fine;
    for (int k = 0; k < count; ++k)
        steps.push_back(step *= high);
    return steps;
}

Grid rectangle(const std::vector<double>& x, const std::vector<double>& y) {
    Grid grid;
    grid.cells_x = static_cast<int>(x.size()) - 1;
    grid.cells_y = static_cast<int>(y.size()) - 1;
    grid.node_m.resize(2, grid.node_count());
    for (int j = 0; j <= grid.cells_y; ++j)
        for (int i = 0; i <= grid.cells_x; ++i)
            grid.node_m.col(grid.node_index(i, j)) = Vec2(x[i], y[j]);
    return grid;
}

/// Square |x|, |y| <= radius to disc: the square ring through a point keeps its distance m on the axes; its
/// corners are drawn in the more, the nearer it is to the rim (own construction).
Vec2 square_to_disc(const Vec2& p, double radius) {
    const double m = p.cwiseAbs().maxCoeff();
    if (m == 0)
        return p;
    const Vec2 q = p.cwiseAbs() / m;
    const double quarter = std::numbers::pi / 4;
    const double angle = q.x() >= q.y() ? quarter * q.y() : 2 * quarter - quarter * q.x();
    const double blend = m / radius;
    const Vec2 inner = p.cwiseAbs();
    const Vec2 outer = m * Vec2(std::cos(angle), std::sin(angle));
    const Vec2 moved = (1 - blend) * inner + blend * outer;
    return {std::copysign(moved.x(), p.x()), std::copysign(moved.y(), p.y())};
}

} // namespace

std::array<Vec2, 4> Grid::corners(int cell) const {
    const auto n = cell_nodes(cell);
    return {node_m.col(n[0]), node_m.col(n[1]), node_m.col(n[2]), node_m.col(n[3])};
}

std::vector<int> Grid::side_nodes(Side side) const {
    std::vector<int> nodes;
    const bool along_x = side == South || side == North;
    const int count = along_x ? cells_x : cells_y;
    for (int k = 0; k <= count; ++k)
        nodes.push_back(along_x ? node_index(k, side == South ? 0 : cells_y)
                                : node_index(side == West ? 0 : cells_x, k));
    return nodes;
}

std::vector<double> graded_axis(double low, double high, double fine_low, double fine_high, double fine,
                                double ratio) {
    if (!(high > low) || !(fine > 0) || !(ratio >= 1))
        throw std::invalid_argument("graded_axis: empty extent, cell size not positive or ratio below 1");
    // A rest thinner than half a cell joins the fine zone.
    fine_low = fine_low - low < fine / 2 ? low : fine_low;
    fine_high = high - fine_high < fine / 2 ? high : fine_high;
    auto before = growing_steps(fine_low - low, fine, ratio);
    const auto after = growing_steps(high - fine_high, fine, ratio);
    std::reverse(before.begin(), before.end());

    std::vector<double> axis = {low};
    for (double step : before)
        axis.push_back(axis.back() + step);
    axis.back() = fine_low;
    const int count = std::max(1, static_cast<int>(std::ceil((fine_high - fine_low) / fine - 1e-9)));
    for (int k = 1; k <= count; ++k)
        axis.push_back(fine_low + (fine_high - fine_low) * k / count);
    for (double step : after)
        axis.push_back(axis.back() + step);
    axis.back() = high;
    return axis;
}

Grid make_grid(const Domain& domain, const std::vector<Vec2>& pile_centers, const GridSettings& settings) {
    const double fine = settings.fine_cell_m, margin = settings.fine_margin_m, ratio = settings.growth_ratio;
    if (!(fine > 0) || !(margin > 0))
        throw std::invalid_argument("make_grid: fine_cell_m and fine_margin_m must be positive");
    Vec2 first = pile_centers.empty() ? Vec2(0.5 * (domain.low + domain.high)) : pile_centers.front();
    Vec2 last = first;
    for (const auto& p : pile_centers) {
        first = first.cwiseMin(p);
        last = last.cwiseMax(p);
    }
    std::array<std::vector<double>, 2> axis;
    for (int a = 0; a < 2; ++a)
        axis[a] = graded_axis(domain.low[a], domain.high[a], std::max(domain.low[a], first[a] - margin),
                              std::min(domain.high[a], last[a] + margin), fine, ratio);
    Grid grid = rectangle(axis[0], axis[1]);
    if (domain.shape == DomainShape::Round)
        for (int n = 0; n < grid.node_count(); ++n)
            grid.node_m.col(n) = square_to_disc(grid.node_m.col(n), domain.high.x());
    return grid;
}

GridQuality grid_quality(const Grid& grid) {
    GridQuality quality;
    quality.smallest_cell_m = std::numeric_limits<double>::infinity();
    quality.smallest_corner_sine = 1;
    const auto edge = [&](int a, int b) { return (grid.node_m.col(b) - grid.node_m.col(a)).norm(); };
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corner = grid.corners(cell);
        double shortest = std::numeric_limits<double>::infinity(), longest = 0;
        for (int k = 0; k < 4; ++k) {
            const Vec2 ahead = corner[(k + 1) % 4] - corner[k];
            const Vec2 behind = corner[(k + 3) % 4] - corner[k];
            shortest = std::min(shortest, ahead.norm());
            longest = std::max(longest, ahead.norm());
            const double sine =
                (ahead.x() * behind.y() - ahead.y() * behind.x()) / (ahead.norm() * behind.norm());
            quality.smallest_corner_sine = std::min(quality.smallest_corner_sine, sine);
        }
        quality.smallest_cell_m = std::min(quality.smallest_cell_m, shortest);
        quality.largest_cell_m = std::max(quality.largest_cell_m, longest);
        quality.largest_aspect = std::max(quality.largest_aspect, longest / shortest);
        const auto n = grid.cell_nodes(cell);
        for (const int step : {1, grid.cells_x + 1}) {
            const bool at_end =
                step == 1 ? cell % grid.cells_x == grid.cells_x - 1 : cell / grid.cells_x == grid.cells_y - 1;
            if (at_end)
                continue;
            const double here = edge(n[0], n[0] + step), next = edge(n[0] + step, n[0] + 2 * step);
            quality.largest_neighbor_ratio =
                std::max(quality.largest_neighbor_ratio, std::max(here / next, next / here));
        }
    }
    return quality;
}

} // namespace interpile::mesh
