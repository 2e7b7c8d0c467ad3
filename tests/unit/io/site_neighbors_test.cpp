// Hand values: the formulas of solver/surroundings worked on paper; that room tests them against tables.

#include "io/site_neighbors.h"
#include "solver/surroundings/screening_sources.h"

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

/// One pile of 10 m, a point 2 m off, the border 20 m off.
io::NeighborsPlan one_pile() {
    io::NeighborsPlan plan;
    plan.piles_m = {{0, 0}};
    plan.bottom_depth_m = 10;
    plan.points = {{"footing", {2, 0}}};
    plan.border_distance_m = 20;
    return plan;
}

Approx to(double value, double digit) {
    return Approx(value).epsilon(0).margin(digit);
}

} // namespace

TEST_CASE("the limits of a plan are those of the table of limits", "[neighbors]") {
    CHECK(io::NeighborsPlan{}.vibration_limit_dB == solver::screening_limit("border vibration").low);
    CHECK(io::NeighborsPlan{}.noise_limit_dB == solver::screening_limit("border noise").low);
}

// r 2 m, R 0.35 m, L 10 m: outward 30.03 mm, heave 24.62 mm; efficiency 0.5 .. 0.9 leaves 0.5 .. 0.1.
TEST_CASE("a point beside one pile", "[neighbors]") {
    const auto rows = io::screen_neighbors(one_pile());
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].place == "footing");
    CHECK(rows[0].nearest_pile_m == 2);
    CHECK(rows[0].nearer_than_measured);
    REQUIRE(rows[0].pushed);
    const auto& pushed = *rows[0].pushed;
    CHECK(1e3 * pushed.outward_bound_m == to(30.03, 0.01));
    CHECK(1e3 * pushed.heave_bound_m == to(24.62, 0.01));
    CHECK(1e3 * pushed.outward_m.low == to(3.00, 0.01));
    CHECK(1e3 * pushed.outward_m.high == to(15.01, 0.01));
    CHECK(1e3 * pushed.heave_m.low == to(2.46, 0.01));
    CHECK(1e3 * pushed.heave_m.high == to(12.31, 0.01));
}

// Two piles at (0, -1.5) and (0, 1.5), r 2.5 m: 23.77 mm each, of which 2/2.5 along x: 38.03 mm.
TEST_CASE("pushes of two piles add as vectors", "[neighbors]") {
    auto plan = one_pile();
    plan.piles_m = {{0, -1.5}, {0, 1.5}};
    const auto rows = io::screen_neighbors(plan);
    CHECK(rows[0].nearest_pile_m == 2.5);
    CHECK(1e3 * rows[0].pushed->outward_bound_m == to(38.03, 0.01));
}

// Pile 2 .. 10 m: 30.03 - 21.66 = 8.38 mm; casing of 0.40 m above it: 7.07 mm. Heave 24.62 - 8.97 + 2.93 mm.
TEST_CASE("above the top of a pile the casing counts", "[neighbors]") {
    auto plan = one_pile();
    plan.top_depth_m = 2;
    const auto rows = io::screen_neighbors(plan);
    CHECK(1e3 * rows[0].pushed->outward_bound_m == to(15.45, 0.01));
    CHECK(1e3 * rows[0].pushed->heave_bound_m == to(18.58, 0.01));
}

// 20 m: non-vibratory 50 - 9.03 - 8.68 alpha 15, vibratory 72 .. 92 - 6.84 - 8.68 alpha 13, alpha 0.01 .. 0.04;
// noise 70 - 12.04 and 85 .. 95 - 6.02.
TEST_CASE("levels at the border against their limits", "[neighbors]") {
    using enum io::LimitCheck;
    auto plan = one_pile();
    const auto border = io::screen_neighbors(plan).back();
    CHECK(border.place == "site border");
    CHECK(!border.pushed);
    CHECK(!border.nearer_than_measured);
    const auto& quiet = border.non_vibratory;
    CHECK(quiet.vibration.level_dB.low == to(35.76, 0.01));
    CHECK(quiet.vibration.level_dB.high == to(39.67, 0.01));
    CHECK(quiet.vibration.check == Within);
    CHECK(quiet.noise.level_dB.high == to(57.96, 0.01));
    CHECK(quiet.noise.check == Within);
    const auto& loud = border.vibratory;
    CHECK(loud.vibration.level_dB.low == to(60.65, 0.01));
    CHECK(loud.vibration.level_dB.high == to(84.03, 0.01));
    CHECK(loud.vibration.check == MayBeAbove);
    CHECK(loud.noise.level_dB.low == to(78.98, 0.01));
    CHECK(loud.noise.level_dB.high == to(88.98, 0.01));
    CHECK(loud.noise.check == MayBeAbove);

    plan.vibration_limit_dB = 60;
    CHECK(io::screen_neighbors(plan).back().vibratory.vibration.check == Above);
    plan = one_pile();
    plan.border_distance_m = 53; // beyond the reach of 52 m
    CHECK(io::screen_neighbors(plan).back().vibratory.vibration.check == Within);
}

// 5 m is nearer than the 7 m of the hammer: the stronger attenuation gives the higher level, 92 + 2.19 + 0.69.
TEST_CASE("nearer than measured the range still holds every level", "[neighbors]") {
    auto plan = one_pile();
    plan.border_distance_m = 5;
    const auto border = io::screen_neighbors(plan).back();
    CHECK(border.nearer_than_measured);
    CHECK(border.vibratory.vibration.level_dB.low == to(74.37, 0.01));
    CHECK(border.vibratory.vibration.level_dB.high == to(94.89, 0.01));
}

TEST_CASE("the table of neighbors names its units and that it is a screening", "[neighbors]") {
    auto plan = one_pile();
    plan.points[0].name = "footing, \"north\"";
    CHECK(io::neighbors_table(plan) ==
          "kind,place,nearest_pile_m,outward_bound_mm,outward_low_mm,outward_high_mm,heave_bound_mm,heave_"
          "low_mm,"
          "heave_high_mm,non_vibratory_vibration_low_dB,non_vibratory_vibration_high_dB,"
          "non_vibratory_vibration_against_limit,non_vibratory_noise_low_dB,non_vibratory_noise_high_dB,"
          "non_vibratory_noise_against_limit,vibratory_vibration_low_dB,vibratory_vibration_high_dB,"
          "vibratory_vibration_against_limit,vibratory_noise_low_dB,vibratory_noise_high_dB,"
          "vibratory_noise_against_limit,vibration_limit_dB,noise_limit_dB,nearer_than_measured\n"
          "screening,\"footing, \"\"north\"\"\",2.00,30.0,3.0,15.0,24.6,2.5,12.3,"
          "56.2,57.0,within,78.0,78.0,within,80.6,101.9,above,99.0,109.0,above,75.0,85.0,yes\n"
          "screening,site border,20.00,,,,,,,"
          "35.8,39.7,within,58.0,58.0,within,60.6,84.0,may be above,79.0,89.0,may be above,75.0,85.0,no\n");
}

TEST_CASE("a plan out of range names what is wrong", "[neighbors]") {
    const auto broken = [](auto change) {
        auto plan = one_pile();
        change(plan);
        return [plan] { io::screen_neighbors(plan); };
    };
    CHECK_THROWS_WITH(broken([](auto& p) { p.piles_m.clear(); })(), Contains("piles_m"));
    CHECK_THROWS_WITH(broken([](auto& p) { p.casing_diameter_m = 0.8; })(),
                      Contains("casing_diameter_m = 0.8 is outside 0 .. 0.7"));
    CHECK_THROWS_WITH(broken([](auto& p) { p.points[0].at_m = {0.2, 0}; })(), Contains("\"footing\""));
    CHECK_THROWS_WITH(broken([](auto& p) {
                          p.efficiency = {0.9, 0.5};
                      })(),
                      Contains("efficiency.high = 0.5"));
    CHECK_THROWS_WITH(broken([](auto& p) { p.border_distance_m = 0; })(), Contains("border_distance_m"));
    CHECK_THROWS_AS(broken([](auto& p) { p.bottom_depth_m = 0; })(), std::invalid_argument);
}
