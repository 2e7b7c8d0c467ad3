// Pore pressure against exact solutions of consolidation: layer drained at one end, cylinder under a load at its rim.

#include "mesh/grid.h"
#include "solver/equilibrium.h"
#include "solver/soil_models/elastic.h"
#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <vector>

using namespace interpile;
using namespace interpile::solver;
using std::numbers::pi;

namespace {

constexpr double G = 5000, nu = 0.25; // kPa, -
constexpr double M = 2 * G * (1 - nu) / (1 - 2 * nu);
constexpr double k = 1e-6, load = 0.05;                 // m/s, kPa: small, so that large strains do not show
constexpr double storage = 0.8 / 1.8 / 2.2e6;           // n/K_w, 1/kPa
constexpr double c_v = k / gamma_w / (1 / M + storage); // m2/s

Slice slice_of(VerticalCondition vertical) {
    Slice slice;
    slice.vertical_stress_kPa = 100;
    slice.void_ratio = 0.8;
    slice.vertical = vertical;
    return slice;
}

Water water_under_load() {
    Water water;
    water.drainage = Drainage::Coupled;
    water.permeability_m_s = k;
    water.open_sides = true;
    water.initial_excess_kPa = load;
    return water;
}

/// Ground under a load that the water carries at first.
struct Consolidation {
    mesh::Domain domain;
    mesh::Grid grid;
    Slice slice;
    Elastic soil{G, nu};
    Momentum momentum;
    Equilibrium equilibrium;
    int iterations = 0;

    Consolidation(const mesh::Domain& d, const mesh::Grid& g, VerticalCondition vertical, const Water& water)
        : domain(d), grid(g), slice(slice_of(vertical)), momentum(grid, domain, slice, soil, water),
          equilibrium(momentum, settings()) {
        momentum.set_hourglass(1e-6);
    }
    static StepSettings settings() {
        StepSettings s;
        s.tolerance = 1e-9;
        s.carry_over_tolerance = 1e-9;
        return s;
    }
    void step(double duration_s) {
        momentum.set_duration(duration_s);
        equilibrium.refresh();
        const auto result = equilibrium.solve(Eigen::VectorXd(), duration_s, 1);
        REQUIRE(result.converged);
        iterations += result.iterations;
    }
    double pressure(int cell) const { return momentum.pore_water().pressure_kPa()(cell); }
};

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
    Consolidation ground(domain, grid, VerticalCondition::Fixed, water_under_load());
    for (int n = 0; n < steps; ++n)
        ground.step(T * L * L / c_v / steps);
    double worst = 0;
    for (int i = 0; i < cells; ++i)
        worst = std::max(worst, std::abs(ground.pressure(i) / load - terzaghi((i + 0.5) / cells, T)));
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
