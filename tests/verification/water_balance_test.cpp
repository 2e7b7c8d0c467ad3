// No water is lost or made over a whole run, and what is squeezed out is what the void ratios say.

#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>

using namespace interpile;
using namespace interpile::test;

namespace {

/// Four piles with strokes, one after another, in ground that drains through one side, by a leak, and along the piles.
io::Case wet_strokes() {
    io::Case settings = read_case("closed-square-strokes", {{"cells_per_diameter", "4"}});
    settings.plan.order = {{0}, {3}, {1}, {2}};
    settings.domain.side[mesh::East] = mesh::BoundaryKind::ConstantStress;
    solver::Water& water = settings.plan.water;
    water.drainage = solver::Drainage::Coupled;
    water.permeability_m_s = 1e-6;
    water.vertical_permeability_m_s = 5e-7;
    water.saturation = 0.98;
    water.static_pressure_kPa = 40;
    water.open_sides = true;
    water.leak_length_m = 5;
    water.pile_permeability_m_s = 1e-4;
    water.pile_leak_length_m = 6;
    settings.plan.schedule = {.casing_pass_s = 20,
                              .withdrawal_s = 9,
                              .redrive_s = 12,
                              .pile_s = 1200,
                              .between_s = 600,
                              .final_rest_s = 7200};
    return settings;
}

} // namespace

TEST_CASE("water balance of a run with strokes, rests, drains and leaks closes", "[verification][water]") {
    const CaseRun run = run_case(wet_strokes());
    const auto& last = run.last();
    double worst = 0;
    for (const auto& stage : run.stages)
        worst = std::max(worst, std::abs(stage.water_error_m3_m));
    fmt::print("water squeezed {:.4e}, stored {:.4e}, drained {:.4e} m3/m; worst error of any stage {:.1e}\n",
               last.water_squeezed_m3_m, last.water_stored_m3_m, last.water_drained_m3_m, worst);
    CHECK(worst < 1e-8 * std::abs(last.water_squeezed_m3_m));
    CHECK(last.water_drained_m3_m / last.water_squeezed_m3_m > 0.5); // flow matters here

    // The solids stay in their cells: what the last rest squeezes out is the pore volume that the ground has lost.
    const auto& before = run.stages[run.stages.size() - 2];
    REQUIRE(before.pile == last.pile);
    const double squeezed = last.water_squeezed_m3_m - before.water_squeezed_m3_m;
    fmt::print("last rest: water squeezed {:.6e}, pore volume lost {:.6e} m3/m; time {:.1f} s\n", squeezed,
               last.balance.densified, last.time_s);
    CHECK(squeezed == Approx(last.balance.densified).epsilon(1e-9));
    // Four times a pile of 20 min, three ways of 10 min, two hours.
    CHECK(last.time_s == Approx(4 * 1200 + 3 * 600 + 7200).epsilon(1e-9));
}
