#include "postprocess/interpolation.h"

#include "mesh/ground_area.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace interpile::postprocess {

using mesh::Vec2;

namespace {

/// Local coordinates (0..1 inside) of a point in the bilinear patch a, b, c, d (counterclockwise from the low
/// corner), by Newton's method; four to five steps for any convex patch.
Vec2 local_coordinates(const std::array<Vec2, 4>& corner, const Vec2& point) {
    const auto& [a, b, c, d] = corner;
    Vec2 s(0.5, 0.5);
    for (int step = 0; step < 20; ++step) {
        const Vec2 twist = a - b + c - d;
        const Vec2 miss = a + s.x() * (b - a) + s.y() * (d - a) + s.x() * s.y() * twist - point;
        Eigen::Matrix2d slope;
        slope << (b - a) + s.y() * twist, (d - a) + s.x() * twist;
        const Vec2 change = slope.inverse() * miss;
        s -= change;
        if (change.norm() < 1e-14)
            break;
    }
    return s;
}

} // namespace

CellInterpolation::CellInterpolation(const mesh::Grid& grid) : grid_(grid), middle_m_(cell_middles(grid)) {}

double CellInterpolation::Weights::apply(const Eigen::ArrayXd& values) const {
    double sum = 0;
    for (int k = 0; k < 4; ++k)
        sum += weight[k] * values[cell[k]];
    return sum;
}

bool CellInterpolation::contains(int cell, const Vec2& point) const {
    const auto node = grid_.cell_nodes(cell);
    for (int k = 0; k < 4; ++k) {
        const Vec2 a = grid_.node_m.col(node[k]), edge = grid_.node_m.col(node[(k + 1) % 4]) - a;
        const Vec2 to_point = point - a;
        // A point on the rim counts as inside in spite of rounding.
        if (edge.x() * to_point.y() - edge.y() * to_point.x() < -1e-12 * edge.squaredNorm())
            return false;
    }
    return true;
}

std::optional<int> CellInterpolation::cell_with(const Vec2& point) const {
    const int i0 = last_cell_ % grid_.cells_x, j0 = last_cell_ / grid_.cells_x;
    for (int j = std::max(0, j0 - 1); j <= std::min(grid_.cells_y - 1, j0 + 1); ++j)
        for (int i = std::max(0, i0 - 1); i <= std::min(grid_.cells_x - 1, i0 + 1); ++i)
            if (contains(j * grid_.cells_x + i, point))
                return j * grid_.cells_x + i;
    for (int cell = 0; cell < grid_.cell_count(); ++cell)
        if (contains(cell, point))
            return cell;
    return {};
}

std::optional<CellInterpolation::Weights> CellInterpolation::at(const Vec2& point) const {
    const auto found = cell_with(point);
    if (!found)
        return {};
    last_cell_ = *found;
    const int nx = grid_.cells_x, ny = grid_.cells_y;
    const int i = *found % nx, j = *found / nx;

    // Of the (up to four) patches of middles around this cell, the one the point lies in, or lies nearest to.
    Weights best;
    double least_outside = HUGE_VAL;
    for (int pj = std::max(0, j - 1); pj <= std::max(0, std::min(j, ny - 2)); ++pj)
        for (int pi = std::max(0, i - 1); pi <= std::max(0, std::min(i, nx - 2)); ++pi) {
            // A grid of one cell in a direction has one middle there: the value is constant across it.
            const int right = std::min(pi + 1, nx - 1), up = std::min(pj + 1, ny - 1);
            const std::array<int, 4> cell = {pj * nx + pi, pj * nx + right, up * nx + right, up * nx + pi};
            const Vec2 a = middle_m_.col(cell[0]);
            Vec2 b = middle_m_.col(cell[1]), c = middle_m_.col(cell[2]), d = middle_m_.col(cell[3]);
            if (right == pi || up == pj) {
                const Vec2 across_x = right == pi ? Vec2(1, 0) : Vec2(b - a);
                const Vec2 across_y = up == pj ? Vec2(0, 1) : Vec2(d - a);
                b = a + across_x, d = a + across_y, c = b + across_y;
            }
            const Vec2 s = local_coordinates({a, b, c, d}, point);
            const double outside = (s.array() - 0.5).abs().maxCoeff();
            if (outside < least_outside) {
                least_outside = outside;
                best = {cell,
                        {(1 - s.x()) * (1 - s.y()), s.x() * (1 - s.y()), s.x() * s.y(), (1 - s.x()) * s.y()}};
            }
        }
    return best;
}

} // namespace interpile::postprocess
