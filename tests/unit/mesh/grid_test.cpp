#include "mesh/disc_fraction.h"
#include "mesh/grid.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile::mesh;

TEST_CASE("a graded axis meets its ends, keeps the fine zone and never grows faster than asked") {
    const auto x = graded_axis(-20, 31, -1, 2, 0.07, 1.2);
    CHECK(x.front() == -20);
    CHECK(x.back() == 31);
    double before = 0;
    for (std::size_t k = 1; k < x.size(); ++k) {
        const double step = x[k] - x[k - 1];
        REQUIRE(step > 0);
        if (x[k - 1] > -1 - 1e-9 && x[k] < 2 + 1e-9)
            CHECK(step <= 0.07 * (1 + 1e-9));
        if (before > 0)
            CHECK(std::max(step / before, before / step) < 1.2 + 1e-6);
        before = step;
    }
}

TEST_CASE("a grid about symmetric piles is symmetric") {
    Domain domain;
    domain.low = {-10, -10};
    domain.high = {10, 10};
    const Grid grid = make_grid(domain, {{-0.85, -0.85}, {0.85, 0.85}}, {0.07, 1.0, 1.2});
    const int last = grid.node_count() - 1;
    for (int n = 0; n <= last; ++n)
        REQUIRE((grid.node_m.col(n) + grid.node_m.col(last - n)).norm() < 1e-12);
    const GridQuality q = grid_quality(grid);
    CHECK(q.smallest_corner_sine == Approx(1));
    CHECK(q.largest_neighbor_ratio < 1.2 + 1e-6);
}

TEST_CASE("a round grid ends on its circle and its area converges with order two") {
    Domain domain;
    domain.shape = DomainShape::Round;
    domain.high = {1, 1};
    double last_error = 0;
    for (int cells : {10, 20, 40}) {
        const Grid grid = make_grid(domain, {{0, 0}}, {1.0 / cells, 2.0, 1.2});
        for (int node : grid.side_nodes(East))
            REQUIRE(grid.node_m.col(node).norm() == Approx(1).epsilon(1e-12));
        double area = 0;
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            const double a = quadrilateral_area(grid.corners(cell));
            REQUIRE(a > 0);
            area += a;
        }
        const double error = std::numbers::pi / 4 - area; // inscribed polygon
        if (last_error > 0) {
            const double order = std::log2(last_error / error);
            INFO("cells " << cells << ", error " << error << ", observed order " << order);
            CHECK(order == Approx(2).margin(0.05));
        }
        last_error = error;
    }
}

TEST_CASE("grid settings that make no sense are refused") {
    CHECK_THROWS_AS(make_grid(Domain{}, {}, {0.1, 1, 1.2}), std::invalid_argument);
    CHECK_THROWS_AS(graded_axis(0, 1, 0, 1, 0, 1.2), std::invalid_argument);
}
