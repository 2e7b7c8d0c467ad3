#include "mesh/pile_layout.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <stdexcept>

using namespace interpile::mesh;
using std::numbers::pi;

namespace {

LayoutSettings pattern(Pattern kind, int rows, int columns) {
    LayoutSettings layout;
    layout.pattern = kind;
    layout.spacing_m = 1.7;
    layout.row_spacing_m = 2.0;
    layout.rows = rows;
    layout.columns = columns;
    return layout;
}

std::vector<int> numbers(const std::vector<std::vector<int>>& order) {
    std::vector<int> flat;
    for (const auto& group : order)
        for (int pile : group)
            flat.push_back(pile + 1);
    return flat;
}

} // namespace

// Area replacement ratio: square pi d^2/(4 s^2), triangle pi d^2/(2 sqrt(3) s^2); common practice, no source.
TEST_CASE("area replacement ratio of the patterns") {
    CHECK(*area_replacement_ratio(pattern(Pattern::Square, 3, 3), 0.7) ==
          Approx(pi * 0.49 / (4 * 1.7 * 1.7)));
    CHECK(*area_replacement_ratio(pattern(Pattern::Triangular, 3, 3), 0.7) ==
          Approx(pi * 0.49 / (2 * std::sqrt(3.0) * 1.7 * 1.7)));
    CHECK(*area_replacement_ratio(pattern(Pattern::Rectangular, 3, 3), 0.7) ==
          Approx(pi * 0.49 / (4 * 1.7 * 2.0)));
    CHECK_FALSE(area_replacement_ratio(pattern(Pattern::Listed, 1, 1), 0.7).has_value());
}

TEST_CASE("every neighbor in a triangular pattern is one spacing away") {
    const auto p = pile_centers(pattern(Pattern::Triangular, 2, 2));
    REQUIRE(p.size() == 4);
    CHECK((p[2] - p[0]).norm() == Approx(1.7));
    CHECK((p[2] - p[1]).norm() == Approx(1.7));
    CHECK(smallest_distance_m(p) == Approx(1.7));
}

TEST_CASE("a pattern turns about its origin") {
    auto layout = pattern(Pattern::Rectangular, 2, 2);
    layout.origin_m = {5, 6};
    layout.angle_deg = 90;
    const auto p = pile_centers(layout);
    CHECK((p[0] - Vec2(5, 6)).norm() < 1e-12);
    CHECK((p[1] - Vec2(5, 7.7)).norm() < 1e-12);
    CHECK((p[2] - Vec2(3, 6)).norm() < 1e-12);
}

TEST_CASE("orders of work") {
    const auto layout = pattern(Pattern::Square, 3, 3);
    const auto p = pile_centers(layout);
    OrderSettings order;
    CHECK(numbers(installation_order(p, layout, order)) == std::vector<int>{1, 2, 3, 4, 5, 6, 7, 8, 9});
    order.kind = OrderKind::Alternating;
    CHECK(numbers(installation_order(p, layout, order)) == std::vector<int>{1, 2, 3, 6, 5, 4, 7, 8, 9});
    order.kind = OrderKind::FromSide;
    order.from = East;
    CHECK(numbers(installation_order(p, layout, order)) == std::vector<int>{3, 6, 9, 2, 5, 8, 1, 4, 7});
    order.from = North;
    CHECK(numbers(installation_order(p, layout, order)) == std::vector<int>{7, 8, 9, 4, 5, 6, 1, 2, 3});
    order.kind = OrderKind::FromMiddle;
    CHECK(numbers(installation_order(p, layout, order)) == std::vector<int>{5, 2, 4, 6, 8, 1, 3, 7, 9});
    order.kind = OrderKind::Together;
    CHECK(installation_order(p, layout, order).size() == 1);
    order.kind = OrderKind::Listed;
    order.listed = {9, 8, 7, 6, 5, 4, 3, 2, 1};
    CHECK(numbers(installation_order(p, layout, order)) == order.listed);
    order.listed = {9, 8, 7, 6, 5, 4, 3, 2, 2};
    CHECK_THROWS_AS(installation_order(p, layout, order), std::invalid_argument);
}

TEST_CASE("a disc on a symmetry line lies half inside") {
    Domain domain;
    domain.high = {4, 3};
    CHECK(domain.inside_share({1, 1}) == 1);
    CHECK(domain.inside_share({0, 1}) == 0.5);
    CHECK(domain.inside_share({4, 3}) == 0.25);
    CHECK(domain.inside_share({-0.1, 1}) == 0);
}
