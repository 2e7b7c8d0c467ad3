#include "mesh/pattern_cell.h"

#include <numbers>
#include <stdexcept>

namespace interpile::mesh {
namespace {

/// From the first pile to the next lines of symmetry along and across the rows.
Vec2 half_cell(const LayoutSettings& layout) {
    const double s = layout.spacing_m;
    switch (layout.pattern) {
    case Pattern::Triangular:
        return {s / 2, s * std::numbers::sqrt3 / 2};
    case Pattern::Rectangular:
        return {s / 2, layout.row_spacing_m / 2};
    default:
        return {s / 2, s / 2};
    }
}

} // namespace

std::vector<CellObstacle> cell_obstacles(const LayoutSettings& layout) {
    using Setting = CellObstacle::Setting;
    std::vector<CellObstacle> obstacles;
    const bool one_pile = layout.rows == 1 && layout.columns == 1;
    if (layout.pattern == Pattern::Listed)
        obstacles.push_back({Setting::Pattern, "listed piles do not repeat"});
    else if (layout.pattern == Pattern::Triangular && !one_pile)
        obstacles.push_back({Setting::Count,
                             "lines of symmetry of a triangular pattern run through piles; its "
                             "cell is that of one pile and its neighbors"});
    else if (layout.cell == CellPart::Quarter && !one_pile)
        obstacles.push_back({Setting::Part, "lines of symmetry quarter a single pile only"});
    if (layout.pattern != Pattern::Listed && layout.angle_deg != 0)
        obstacles.push_back({Setting::Angle, "the sides run along x and y, and so must the rows"});
    return obstacles;
}

Domain pattern_cell(const LayoutSettings& layout) {
    if (const auto obstacles = cell_obstacles(layout); !obstacles.empty())
        throw std::invalid_argument("pattern_cell: " + obstacles.front().why);
    const Vec2 half = half_cell(layout);
    if (!(half.minCoeff() > 0))
        throw std::invalid_argument("pattern_cell: a spacing is not positive");
    const Vec2 last_pile = layout.origin_m + 2 * half.cwiseProduct(Vec2(layout.columns - 1, layout.rows - 1));
    Domain domain;
    domain.side.fill(BoundaryKind::Symmetry);
    domain.low = layout.cell == CellPart::Quarter ? layout.origin_m : Vec2(layout.origin_m - half);
    domain.high = last_pile + half;
    return domain;
}

std::vector<Vec2> triangular_cell_centers(const LayoutSettings& layout) {
    const Domain cell = pattern_cell(layout);
    if (layout.cell == CellPart::Quarter)
        return {layout.origin_m, cell.high};
    const Vec2 south_east(cell.high.x(), cell.low.y()), north_west(cell.low.x(), cell.high.y());
    return {layout.origin_m, cell.low, south_east, north_west, cell.high};
}

} // namespace interpile::mesh
