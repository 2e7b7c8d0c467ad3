// Pore pressure of a layer drained at one end against Terzaghi's solution.

#include "support/consolidation.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace interpile;
using namespace interpile::test;
using std::numbers::pi;

namespace {

const ElasticGround soil{.vertical_stress_kPa = 100};

mesh::Domain strip(double length, double width) {
    mesh::Domain domain;
    domain.high = {length, width};
    domain.side = {mesh::BoundaryKind::Symmetry, mesh::BoundaryKind::ConstantStress,
                   mesh::BoundaryKind::Symmetry, mesh::BoundaryKind::Symmetry};
    return domain;
}

/// u/u0 at distance x from the closed end of a layer of length L, T = c_v t/L^2.
/// Source: from memory of Terzaghi (1923), Fourier series.
double terzaghi(double x, double T) {
    double sum = 0;
    for (int m = 0; m < 200; ++m) {
        const double root = (2 * m + 1) * pi / 2;
        sum += (m % 2 == 0 ? 2 : -2) / root * std::cos(root * x) * std::exp(-root * root * T);
    }
    return sum;
}

double terzaghi_error(int cells, int steps) {
    constexpr double L = 1, T = 0.2;
    const auto domain = strip(L, L / cells);
    const auto grid = mesh::make_grid(domain, {}, {L / cells, 2 * L, 1.2});
    REQUIRE(grid.cells_x == cells);
    Consolidation ground(soil, domain, grid, soil.water());
    for (int n = 0; n < steps; ++n)
        ground.step(T * L * L / soil.c_v() / steps);
    double worst = 0;
    for (int i = 0; i < cells; ++i)
        worst = std::max(worst, std::abs(ground.pressure()(i) / soil.load - terzaghi((i + 0.5) / cells, T)));
    CHECK(std::abs(ground.momentum.pore_water().balance().closing_error()) <
          1e-10 * ground.momentum.pore_water().balance().squeezed);
    return worst;
}

} // namespace

TEST_CASE("a layer drained at one end consolidates as Terzaghi 1923", "[verification][water]") {
    const double fine = terzaghi_error(40, 1600);
    const double time_10 = terzaghi_error(80, 40), time_20 = terzaghi_error(80, 80);
    const double coarse = terzaghi_error(20, 1600);
    fmt::print("Terzaghi at T 0.2, error of u/u0: 20 cells {:.2e}, 40 cells {:.2e} (1600 steps, order "
               "{:.2f}); 80 cells: "
               "40 steps {:.2e}, 80 steps {:.2e} (order {:.2f} in time)\n",
               coarse, fine, std::log2(coarse / fine), time_10, time_20, std::log2(time_10 / time_20));
    CHECK(fine < 1e-3);
    CHECK(std::log2(time_10 / time_20) > 0.9); // backward Euler
}
