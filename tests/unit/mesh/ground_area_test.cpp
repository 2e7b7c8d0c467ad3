// Means over circles and polygons of ground against closed forms.

#include "mesh/ground_area.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile::mesh;

namespace {

/// Cells of `h` over [-1, 1]^2, shaken so that they are no squares.
Grid shaken_grid(double h) {
    const int n = static_cast<int>(std::lround(2 / h));
    Grid grid{n, n, {}};
    grid.node_m.resize(2, grid.node_count());
    for (int j = 0; j <= n; ++j)
        for (int i = 0; i <= n; ++i) {
            const Vec2 p(-1 + h * i, -1 + h * j);
            const double shake = i > 0 && j > 0 && i < n && j < n ? 0.2 * h : 0;
            grid.node_m.col(grid.node_index(i, j)) =
                p + shake * Vec2(std::sin(7 * p.x() + 5 * p.y()), std::cos(9 * p.y() - p.x()));
        }
    return grid;
}

} // namespace

TEST_CASE("the area of a circle is exact on any grid, also cut by the side of the ground") {
    const auto grid = shaken_grid(0.1);
    const Eigen::ArrayXd none = Eigen::ArrayXd::Zero(grid.cell_count());
    CHECK(ground_area_m2(grid, none, Vec2(0.13, -0.2), 0.37).sum() == Approx(std::numbers::pi * 0.37 * 0.37));
    CHECK(ground_area_m2(grid, none, Vec2(1, 0.1), 0.3).sum() == Approx(std::numbers::pi * 0.09 / 2));
    CHECK(ground_area_m2(grid, none, Vec2(1, 1), 0.3).sum() == Approx(std::numbers::pi * 0.09 / 4));
    CHECK(ground_area_m2(grid, none, Vec2(0.21, 0.32), 0.001).sum() == Approx(std::numbers::pi * 1e-6));
}

TEST_CASE("the mean of x^2 over a circle converges to its closed form") {
    // Mean of (x - x0)^2 over a disc of radius r about x0 is r^2/4; of x^2: x0^2 + r^2/4.
    const Vec2 center(0.2, -0.1);
    const double r = 0.4, exact = center.x() * center.x() + r * r / 4;
    double last = 1;
    for (const double h : {0.1, 0.05, 0.025}) {
        const auto grid = shaken_grid(h);
        const Eigen::ArrayXd x = cell_middles(grid).row(0).transpose().array();
        const auto area = ground_area_m2(grid, Eigen::ArrayXd::Zero(grid.cell_count()), center, r);
        const double error = std::abs(area_mean(area, x.square()) - exact);
        CHECK(error < last);
        last = error;
    }
    CHECK(last < 2e-4);
}

TEST_CASE("pile material is left out") {
    const auto grid = shaken_grid(0.1);
    const auto middle = cell_middles(grid);
    Eigen::ArrayXd share(grid.cell_count()), value(grid.cell_count());
    for (Eigen::Index cell = 0; cell < share.size(); ++cell) {
        share[cell] = middle(0, cell) > 0 ? 0.02 : 0.005; // above and below the limit
        value[cell] = middle(0, cell) > 0 ? 1e6 : 3;
    }
    CHECK(area_mean(ground_area_m2(grid, share, Vec2(0, 0), 0.5), value) == Approx(3));
    const TreatedArea square({{-0.8, -0.8}, {0.8, -0.8}, {0.8, 0.8}, {-0.8, 0.8}});
    CHECK(area_mean(ground_area_m2(grid, share, square), value) == Approx(3));
    CHECK(std::isnan(area_mean(ground_area_m2(grid, share, Vec2(0.6, 0), 0.2), value)));
    CHECK(std::isnan(area_mean(ground_area_m2(grid, share, TreatedArea()), value)));
}

TEST_CASE("K of a region is the ratio of mean stresses") {
    const Eigen::Array2d area(1, 3), lateral(40, 80), vertical(20, 100);
    CHECK(lateral_stress_ratio(area, lateral, vertical) == Approx((40 + 240.0) / (20 + 300)));
    CHECK(lateral_stress_ratio(area, lateral, Eigen::Array2d(0, 0)) == 0);
}
