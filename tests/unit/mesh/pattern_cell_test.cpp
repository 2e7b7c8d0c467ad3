// Cells of endless patterns against the lines of symmetry of the pattern itself.

#include "mesh/pattern_cell.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

using namespace interpile::mesh;

namespace {

constexpr double s = 1.7, t = 2.1, d = 0.7;

LayoutSettings cell(Pattern kind, CellPart part, int rows = 1, int columns = 1) {
    LayoutSettings layout;
    layout.pattern = kind;
    layout.spacing_m = s;
    layout.row_spacing_m = t;
    layout.rows = rows;
    layout.columns = columns;
    layout.origin_m = {3, -4};
    layout.cell = part;
    return layout;
}

/// The pattern as far as 20 spacings around its first pile, laid out without any cell.
std::vector<Vec2> endless(LayoutSettings layout) {
    layout.cell.reset();
    layout.rows = layout.columns = 41;
    const Vec2 first = layout.origin_m;
    layout.origin_m = {0, 0};
    auto piles = pile_centers(layout);
    const Vec2 shift = first - piles[20 * 41 + 20];
    for (auto& p : piles)
        p += shift;
    return piles;
}

/// Distance from a point to the nearest pile.
double to_nearest(const std::vector<Vec2>& piles, const Vec2& p) {
    double nearest = INFINITY;
    for (const auto& pile : piles)
        nearest = std::min(nearest, (pile - p).norm());
    return nearest;
}

std::vector<LayoutSettings> all_cells() {
    std::vector<LayoutSettings> cells;
    for (const auto kind : {Pattern::Square, Pattern::Rectangular, Pattern::Triangular})
        for (const auto part : {CellPart::Whole, CellPart::Quarter})
            cells.push_back(cell(kind, part));
    for (const int rows : {1, 2, 3})
        for (const int columns : {2, 3})
            for (const auto kind : {Pattern::Square, Pattern::Rectangular})
                cells.push_back(cell(kind, CellPart::Whole, rows, columns));
    return cells;
}

} // namespace

TEST_CASE("a cell has the area replacement ratio of its pattern") {
    for (const auto& layout : all_cells()) {
        INFO(static_cast<int>(layout.pattern) << " " << layout.rows << " x " << layout.columns);
        CHECK(std::abs(area_replacement_ratio_in(pattern_cell(layout), pile_centers(layout), d) -
                       *area_replacement_ratio(layout, d)) < 1e-14);
    }
}

TEST_CASE("the sides of a cell mirror the endless pattern, and its piles are all those inside") {
    for (const auto& layout : all_cells()) {
        INFO(static_cast<int>(layout.pattern) << " " << layout.rows << " x " << layout.columns);
        const Domain domain = pattern_cell(layout);
        const auto piles = endless(layout);
        for (int side = 0; side < 4; ++side) {
            CHECK(domain.side[side] == BoundaryKind::Symmetry);
            const int axis = side / 2;
            const double line = side % 2 == 0 ? domain.low[axis] : domain.high[axis];
            for (const auto& pile : piles) {
                if ((pile - layout.origin_m).norm() > 8 * s) // its image must lie in what was laid out
                    continue;
                Vec2 image = pile;
                image[axis] = 2 * line - pile[axis];
                CHECK(to_nearest(piles, image) < 1e-9);
            }
        }
        const auto own = pile_centers(layout);
        std::size_t inside = 0;
        for (const auto& pile : piles)
            inside += domain.inside_share(pile) > 0;
        CHECK(own.size() == inside);
        for (const auto& center : own)
            CHECK(to_nearest(piles, center) < 1e-9);
    }
}

TEST_CASE("sides of the cells by hand") {
    const auto square = pattern_cell(cell(Pattern::Square, CellPart::Whole, 2, 3));
    CHECK((square.low - Vec2(3 - 0.85, -4 - 0.85)).norm() < 1e-12);
    CHECK((square.high - square.low - Vec2(3 * s, 2 * s)).norm() < 1e-12);
    const auto quarter = pattern_cell(cell(Pattern::Rectangular, CellPart::Quarter));
    CHECK(quarter.low == Vec2(3, -4));
    CHECK((quarter.high - quarter.low - Vec2(s / 2, t / 2)).norm() < 1e-12);
    const auto triangle = pattern_cell(cell(Pattern::Triangular, CellPart::Whole));
    CHECK((triangle.high - triangle.low - Vec2(s, s * std::sqrt(3.0))).norm() < 1e-12);
    const auto smallest = pattern_cell(cell(Pattern::Triangular, CellPart::Quarter));
    CHECK((smallest.high - smallest.low - Vec2(s / 2, s * std::sqrt(3.0) / 2)).norm() < 1e-12);
}

TEST_CASE("a triangular cell is driven together, or first one row and then those beside it") {
    const auto order_of = [](CellPart part, OrderKind kind) {
        const auto layout = cell(Pattern::Triangular, part);
        OrderSettings order;
        order.kind = kind;
        return installation_order(pile_centers(layout), layout, order);
    };
    using Groups = std::vector<std::vector<int>>;
    CHECK(order_of(CellPart::Whole, OrderKind::Together) == Groups{{0, 1, 2, 3, 4}});
    CHECK(order_of(CellPart::Whole, OrderKind::RowByRow) == Groups{{0}, {1, 2, 3, 4}});
    CHECK(order_of(CellPart::Quarter, OrderKind::RowByRow) == Groups{{0}, {1}});
    CHECK_THROWS_AS(order_of(CellPart::Quarter, OrderKind::FromMiddle), std::invalid_argument);
}

TEST_CASE("layouts without a cell tell why") {
    using Setting = CellObstacle::Setting;
    const auto only = [](const LayoutSettings& layout) {
        const auto obstacles = cell_obstacles(layout);
        REQUIRE(obstacles.size() == 1);
        CHECK_FALSE(obstacles.front().why.empty());
        CHECK_THROWS_AS(pattern_cell(layout), std::invalid_argument);
        return obstacles.front().setting;
    };
    CHECK(only(cell(Pattern::Listed, CellPart::Whole)) == Setting::Pattern);
    CHECK(only(cell(Pattern::Triangular, CellPart::Whole, 2, 1)) == Setting::Count);
    CHECK(only(cell(Pattern::Square, CellPart::Quarter, 1, 2)) == Setting::Part);
    auto turned = cell(Pattern::Square, CellPart::Whole);
    turned.angle_deg = 30;
    CHECK(only(turned) == Setting::Angle);
    turned.pattern = Pattern::Triangular;
    turned.rows = 3;
    CHECK(cell_obstacles(turned).size() == 2);
    auto without_spacing = cell(Pattern::Square, CellPart::Whole);
    without_spacing.spacing_m = 0;
    CHECK_THROWS_AS(pattern_cell(without_spacing), std::invalid_argument);
}
