// A rest of the work: one mode of the pressure in a strip with an open end decays exponentially.

#include "solver/pile_driver.h"
#include "support/consolidation.h"
#include "support/verification.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

using namespace interpile;
using namespace interpile::test;
using std::numbers::pi;

namespace {

struct RestedStrip {
    double error =
        0; ///< of u over its first peak: u = exp(-(pi/2)^2 T) cos(pi x/2), from memory of Terzaghi (1923)
    int steps = 0;
};

/// \param steps  equal ones; 0: those that the driver takes of itself
RestedStrip rest_of(double T, int steps) {
    constexpr int cells = 150;
    const ElasticGround soil{.vertical_stress_kPa = 100};
    using enum mesh::BoundaryKind;
    mesh::Domain domain;
    domain.high = {1, 1.0 / cells};
    domain.side = {Symmetry, ConstantStress, Symmetry, Symmetry};
    const auto grid = mesh::make_grid(domain, {}, {1.0 / cells, 2, 1.2});
    solver::Water water = soil.water();
    water.initial_excess_kPa = 0;
    Consolidation strip(soil, domain, grid, water);
    const Eigen::ArrayXd mode = soil.load * Eigen::ArrayXd::NullaryExpr(cells, [](Eigen::Index cell) {
                                    return std::cos(pi / 2 * (cell + 0.5) / cells);
                                });
    solver::KeptSlice start = strip.momentum.kept();
    start.water.pressure_kPa = mode;
    for (const int direction : {0, 1, 2}) // the water carries its part of the total stress
        start.soil.stress.col(direction) -= mode;
    strip.momentum.restore(start);

    const double duration = T / soil.c_v();
    solver::InstallationPlan plan;
    plan.strokes.seed_radius_m = 1e-6; // no disc, no hourglass resistance
    plan.steps.tolerance = plan.steps.carry_over_tolerance = 1e-9;
    if (steps > 0)
        plan.schedule.largest_step_s = duration / steps;
    RestedStrip result;
    solver::PileDriver driver(
        strip.momentum, strip.equilibrium, plan,
        [&](const solver::IncrementRecord&) {
            ++result.steps;
            return false;
        },
        [](int, solver::Phase) {}, [](const solver::WorkDone&) {});
    REQUIRE(driver.rest(duration, 0));
    const auto& pores = strip.momentum.pore_water();
    CHECK(pores.time_s() == Approx(duration).epsilon(1e-12));
    result.error = (pores.pressure_kPa() - mode * std::exp(-pi * pi / 4 * T)).abs().maxCoeff() / soil.load;
    return result;
}

} // namespace

TEST_CASE("a pressure mode decays exponentially in a rest", "[verification][water]") {
    Convergence time;
    for (const int steps : {100, 200, 400}) {
        const RestedStrip rested = rest_of(0.4, steps);
        CHECK(rested.steps == Approx(steps).margin(1)); // round-off may leave a last crumb
        time.add(1.0 / steps, rested.error);
    }
    INFO(time.table("rest, one mode at T 0.4: u over its first peak, one over the steps"));
    CHECK(time.finest() < 2e-3);
    CHECK(time.order() > 0.95); // backward Euler
}

TEST_CASE("the growing steps of a rest err by no more than told", "[verification][water]") {
    double worst = 0;
    int steps = 0;
    for (const double T : {0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 1.0, 1.5, 2.0, 4.0}) {
        const RestedStrip rested = rest_of(T, 0);
        worst = std::max(worst, rested.error);
        steps = rested.steps;
        std::printf("rest T %.2f: %d steps, error %.4f of the first peak\n", T, rested.steps, rested.error);
    }
    CHECK(worst < 0.015); // solver/pile_driver.cpp: at most 0.015 in 26 steps
    CHECK(steps <= 26);
}
