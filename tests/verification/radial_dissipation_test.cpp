// A logarithmic pressure field around an expanded cavity dissipates: Randolph & Wroth (1979), diffusion in plan.

#include "solver/slice.h"
#include "support/radial_decay.h"
#include "support/ring_sector.h"
#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

using namespace interpile;
using namespace interpile::test;
using Wall = RadialDecay::Wall;

namespace {

/// u/u0 = ln(R/r)/ln(R/r0) up to R, none beyond; r0 = 1 m, so that T = c_h t/r0^2 = c_h t.
struct Field {
    std::string table;
    double R, end;
    Wall inner, outer;
    RadialDecay exact() const {
        std::vector<double> radius{1, R}, start{1, 0};
        if (end > R) {
            radius.push_back(end);
            start.push_back(0);
        }
        return {radius, start, inner, outer, 12};
    }
    double start(double r) const { return std::max(0.0, std::log(R / r) / std::log(R)); }
};

const Field impermeable{"bm4_field_I-R05", 5, 50, Wall::Closed, Wall::Open};
const Field draining{"bm4_field_P-R10", 10, 100, Wall::Open, Wall::Open};
const Field cell{"bm4_field_C-n03", 3, 3, Wall::Open, Wall::Closed};

/// Worst error of u/u0 at the given T, reached in steps_each equal steps from one to the next.
double error_of(const Field& field, const RadialDecay& exact, double cell_m, const std::vector<double>& times,
                int steps_each) {
    constexpr double e = 0.8, saturation = 0.9; // gas is the only storage: plain diffusion
    // Nearly square cells, one edge on R.
    const auto cells = [&](double from, double to) {
        return static_cast<int>(std::lround(std::log(to / from) / std::log1p(cell_m)));
    };
    std::vector<double> radius = geometric(1, field.R, cells(1, field.R));
    if (field.end > field.R) {
        const auto outside = geometric(field.R, field.end, cells(field.R, field.end));
        radius.insert(radius.end(), outside.begin() + 1, outside.end());
    }
    const RingSector ring(radius, std::log1p(cell_m), field.inner == Wall::Open, field.outer == Wall::Open);
    const Eigen::ArrayXd r = ring.middle_radius();
    solver::Water water;
    water.drainage = solver::Drainage::Coupled;
    water.saturation = saturation;
    water.open_sides = true;
    solver::PoreWater pores(ring.domain, water, Eigen::ArrayXd::Constant(r.size(), e));
    const Eigen::ArrayXd start = r.unaryExpr([&](double at) { return field.start(at); });
    pores.restore({start, 0, {}});
    const double c_h = water.permeability_m_s / solver::gamma_w /
                       (e / (1 + e) * solver::water_compressibility_1_kPa(saturation, 0));
    double worst = 0, T = 0;
    for (const double until : times) {
        pores.set_step(ring.state(e), (until - T) / c_h / steps_each);
        for (int n = 0; n < steps_each; ++n) {
            pores.evaluate(Eigen::ArrayXd::Zero(r.size()));
            pores.keep();
        }
        T = until;
        for (int n = 0; n < ring.grid.cells_x; ++n)
            worst = std::max(worst, std::abs(pores.pressure_kPa()(n) - exact(r(n), T)));
    }
    const double held = (start * mesh::cell_areas(ring.grid)).sum() * e / (1 + e) *
                        solver::water_compressibility_1_kPa(saturation, 0);
    CHECK(std::abs(pores.balance().closing_error()) < 1e-8 * held);
    return worst;
}

} // namespace

TEST_CASE("the series of a logarithmic field is the reference table", "[verification][water]") {
    for (const Field& field : {impermeable, draining, cell}) {
        const Table table(field.table);
        const RadialDecay exact = field.exact();
        int compared = 0;
        for (const auto& row : table.rows())
            if (const double T = table.number(row, "T=ch*t/r0^2"); T >= 0.1) {
                REQUIRE(exact(table.number(row, "r_over_r0"), T) ==
                        Approx(table.number(row, "u_over_u0")).margin(2e-6));
                ++compared;
            }
        CHECK(compared > 20);
    }
}

TEST_CASE("pressure around an expanded cavity dissipates as Randolph & Wroth 1979", "[verification][water]") {
    for (const auto& [name, field] :
         {std::pair("impermeable pile", impermeable), std::pair("draining pile", draining),
          std::pair("draining pile in a closed cell", cell)}) {
        INFO(name);
        const RadialDecay exact = field.exact();
        Convergence space, time;
        for (const double h : {0.3, 0.15, 0.075})
            space.add(h, error_of(field, exact, h, {0.1, 0.3, 1, 3}, 300));
        for (const int steps : {8, 16, 32})
            time.add(1.0 / steps, error_of(field, exact, 0.05, {1}, steps));
        INFO(space.table(fmt::format("{}, T 0.1 to 3: u/u0, cells over r0 at the wall", name)));
        INFO(time.table(fmt::format("{}, T 1: u/u0, one over the steps", name)));
        CHECK(space.finest() < 0.005);
        CHECK(space.order() > 1.5);
        CHECK(time.order() > 0.85);
    }
}
