// Stress at the samples of a boring, the state of its sand, one boring in place of several.

#include "site_boring.h"
#include "solver/ground_state/friction_angle.h"
#include "solver/ground_state/permeability.h"
#include "solver/ground_state/relative_density.h"
#include "solver/site/mean_boring.h"
#include "solver/site/sand_state.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>

using namespace interpile::solver;
using Catch::Matchers::Contains;

namespace {

/// Three layers of two meters.
Boring layered() {
    return boring_of({sand_at(1, 5, 5, 17), sand_at(3, 5, 5, 18), sand_at(5, 5, 5, 19)}, 2, 2);
}

BoringSample graded() {
    BoringSample sample = sand_at(5, 10, 10);
    sample.d50_mm = 0.2;
    return sample;
}

/// At 100 kPa by a hammer of 78 %.
SandState state_of(const BoringSample& sample, const RelationChoice& choice = {}) {
    return sand_state(sample, 78, 100, choice);
}

bool remarked(const Estimate& estimate, const std::string& words) {
    return std::ranges::any_of(estimate.remarks,
                               [&](const std::string& r) { return r.find(words) != std::string::npos; });
}

} // namespace

TEST_CASE("a sample stands for the ground between the middles to its neighbors", "[site]") {
    const auto intervals = sample_intervals(boring_of({sand_at(1, 5), sand_at(2, 5), sand_at(5, 5)}, 2, 2));
    REQUIRE(intervals.size() == 3);
    CHECK(intervals[0].top_m == 0);
    CHECK(intervals[0].bottom_m == 1.5);
    CHECK(intervals[1].top_m == 1.5);
    CHECK(intervals[1].bottom_m == 3.5);
    CHECK(intervals[2].bottom_m == 6.5); // as far below 5 m as its top is above
    CHECK(sample_intervals(boring_of({sand_at(2, 5)}, 2, 2)).front().bottom_m == 4);
    CHECK_THROWS_WITH(sample_intervals(boring_of({}, 2, 2)), Contains("no samples"));
    CHECK_THROWS_WITH(sample_intervals(boring_of({sand_at(2, 5), sand_at(2, 6)}, 2, 2)),
                      Contains("must rise"));
    CHECK_THROWS_AS(sample_intervals(boring_of({sand_at(-1, 5)}, 2, 2)), std::invalid_argument);
}

// Closed form: layers of 17, 18, 19 kN/m3 and two meters each, water 9.81 kN/m3.
TEST_CASE("vertical stress of layered ground with water below, at and above the surface", "[site]") {
    const auto below = vertical_stresses(layered(), 2);
    REQUIRE(below.size() == 3);
    const double total[] = {17, 34 + 18, 34 + 36 + 19};
    const double water_m[] = {0, 1, 3};
    const auto at = vertical_stresses(layered(), 0), above = vertical_stresses(layered(), -3);
    for (std::size_t i = 0; i < 3; ++i) {
        const double depth_m = 1 + 2 * static_cast<double>(i);
        CHECK(below[i].total_kPa == Approx(total[i]));
        CHECK(below[i].effective_kPa == Approx(total[i] - 9.81 * water_m[i]));
        CHECK(at[i].total_kPa == Approx(total[i]));
        CHECK(at[i].effective_kPa == Approx(total[i] - 9.81 * depth_m));
        CHECK(above[i].total_kPa == Approx(total[i] + 3 * 9.81));
        CHECK(above[i].effective_kPa == Approx(at[i].effective_kPa)); // whatever stands above the ground
    }
    CHECK(vertical_stresses(layered(), 100)[2].effective_kPa == Approx(total[2]));
}

TEST_CASE("stresses that cannot be are refused", "[site]") {
    Boring boring = layered();
    boring.samples[1].unit_weight_kN_m3 = 0;
    CHECK_THROWS_WITH(vertical_stresses(boring, 2), Contains("unit_weight_kN_m3"));
    boring.samples[0].unit_weight_kN_m3 = 9; // lighter than water
    CHECK_THROWS_WITH(vertical_stresses(boring, 0), Contains("effective_stress_kPa"));
    CHECK_THROWS_AS(vertical_stresses(layered(), NAN), std::invalid_argument);
}

TEST_CASE("the state of sand takes the relation that was asked for", "[site]") {
    const auto standard = state_of(graded());
    REQUIRE(standard.size() == quantity_table().size());
    CHECK(chosen(standard, Quantity::RelativeDensity).relation == "meyerhof-1957");
    // Meyerhof (1957), from memory, metric form: 21 sqrt(100 x 10/170).
    CHECK(chosen(standard, Quantity::RelativeDensity).value == Approx(21 * std::sqrt(1000.0 / 170)));
    CHECK(standard[static_cast<std::size_t>(Quantity::RelativeDensity)].others.size() >= 3);

    const auto other = state_of(graded(), {{Quantity::RelativeDensity, "idriss-boulanger-2008"},
                                           {Quantity::FrictionAngle, "highway-bridges-older"}});
    SandSample input;
    input.depth_m = 5;
    input.blow_count = input.fines_pct = 10;
    input.effective_stress_kPa = 100;
    CHECK(chosen(other, Quantity::RelativeDensity).value ==
          estimate_by(relative_density_relations(), "idriss-boulanger-2008", input).value);
    CHECK(chosen(other, Quantity::FrictionAngle).value == Approx(std::sqrt(150.0) + 15));
    CHECK_THROWS_WITH(state_of(graded(), {{Quantity::RelativeDensity, "none-such"}}),
                      Contains("unknown relation \"none-such\" for relative_density_pct") &&
                          Contains("meyerhof-1957"));
}

TEST_CASE("the void ratio follows from the chosen density and limits", "[site]") {
    for (const char* relation : {"meyerhof-1957", "method-d", "idriss-boulanger-2008"}) {
        const auto state = state_of(graded(), {{Quantity::RelativeDensity, relation}});
        const double density = chosen(state, Quantity::RelativeDensity).value / 100;
        // Limits of Hirama (1981), from memory, at 10 % fines: 1.20 and 0.68.
        CHECK(chosen(state, Quantity::VoidRatio).value == Approx(1.2 - density * (1.2 - 0.68)));
    }
    BoringSample dense = graded();
    dense.blow_count = 60;
    CHECK(remarked(chosen(state_of(dense), Quantity::VoidRatio), "below e_min"));
}

TEST_CASE("what the laboratory measured goes before every relation", "[site]") {
    BoringSample sample = graded();
    sample.e_max = 0.9;
    sample.e_min = 0.6;
    sample.void_ratio = 0.75;
    sample.friction_angle_deg = 36;
    sample.permeability_m_s = 3e-5;
    sample.lateral_stress_ratio = 0.62;
    const auto state = state_of(sample, {{Quantity::RelativeDensity, "meyerhof-1957"},
                                         {Quantity::FrictionAngle, "osaki"},
                                         {Quantity::LargestVoidRatio, "hirama-1981"}});
    const auto measured = [&](Quantity quantity) {
        CHECK(chosen(state, quantity).relation == "measured");
        return chosen(state, quantity).value;
    };
    CHECK(measured(Quantity::LargestVoidRatio) == 0.9);
    CHECK(measured(Quantity::SmallestVoidRatio) == 0.6);
    CHECK(measured(Quantity::VoidRatio) == 0.75);
    CHECK(measured(Quantity::RelativeDensity) == Approx(50)); // (0.9 - 0.75)/(0.9 - 0.6)
    CHECK(measured(Quantity::FrictionAngle) == 36);
    CHECK(measured(Quantity::Permeability) == 3e-5);
    CHECK(measured(Quantity::LateralStressRatio) == 0.62);
    for (const auto& quantity : state) // and once among the others
        CHECK(std::ranges::count(quantity.others, "measured", &Estimate::relation) <= 1);
}

TEST_CASE("a relation that lacks its input gives way with a remark", "[site]") {
    const RelationChoice creager{{Quantity::Permeability, "creager-1945"}};
    const Estimate guess = chosen(state_of(graded(), creager), Quantity::Permeability);
    CHECK(guess.relation == "grading-guess");
    CHECK(remarked(guess, "creager-1945 needs d20_mm; grading-guess is used"));

    BoringSample with_d20 = graded();
    with_d20.d20_mm = 0.1;
    CHECK(chosen(state_of(with_d20, creager), Quantity::Permeability).value ==
          Approx(1.75e-5)); // of the table
    CHECK_FALSE(remarked(chosen(state_of(with_d20, creager), Quantity::Permeability), "is used"));

    BoringSample silty = graded(); // above 40 % the guess has no grading to go by
    silty.fines_pct = 45;
    const Estimate none = chosen(state_of(silty), Quantity::Permeability);
    CHECK(std::isnan(none.value));
    CHECK(remarked(none, "grading-guess needs"));
    CHECK(remarked(none, "no other relation can be used"));
    silty.d20_mm = 0.02;
    const Estimate other = chosen(state_of(silty), Quantity::Permeability);
    CHECK(other.relation == "creager-1945");
    CHECK(other.value == Approx(4e-7)); // of the table: 4.0e-5 cm/s
    CHECK(remarked(other, "creager-1945 is used"));
}

TEST_CASE("limits of the void ratio are those of the state", "[site]") {
    BoringSample sample = graded();
    sample.e_min = 0.5;
    // Cubrinovski & Ishihara (2002), from memory, 5 to 15 % fines: e_max = 0.25 + 1.37 e_min.
    const auto [e_max, e_min] =
        chosen_limits(sample, {{Quantity::LargestVoidRatio, "cubrinovski-ishihara-2002"}});
    CHECK(e_max == Approx(0.25 + 1.37 * 0.5));
    CHECK(e_min == 0.5);
    sample.e_min.reset();
    sample.e_max = 0.55; // below e_min of Hirama
    CHECK(chosen_limits(sample).e_min == Approx(0.68));
    CHECK(chosen_limits(sample).e_max == 0.55);
    CHECK_THROWS_AS(state_of(sample), std::invalid_argument);
}

TEST_CASE("the mean of two equal borings is that boring", "[site]") {
    Boring boring = boring_of({graded(), clay_at(6), sand_at(7, 12, 8)}, 1.5, -0.5);
    boring.samples[0].e_max = 0.95;
    boring.samples[0].d10_mm = 0.1;
    boring.samples[0].permeability_m_s = 2e-5;
    const Boring mean = mean_boring(std::vector{boring, boring});
    CHECK(mean.name == "mean");
    CHECK(mean.water_depth_m == Approx(1.5));
    CHECK(mean.quake_water_depth_m == Approx(-0.5));
    CHECK(mean.energy_ratio_pct == boring.energy_ratio_pct);
    REQUIRE(mean.samples.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        const BoringSample &a = mean.samples[i], &b = boring.samples[i];
        CHECK(a.depth_m == b.depth_m);
        CHECK(a.blow_count == Approx(b.blow_count));
        CHECK(a.fines_pct == Approx(b.fines_pct));
        CHECK(a.unit_weight_kN_m3 == Approx(b.unit_weight_kN_m3));
        CHECK(a.sand == b.sand);
        CHECK(std::isnan(a.d50_mm) == std::isnan(b.d50_mm));
        CHECK(a.e_max == b.e_max);
        CHECK_FALSE(a.e_min);
    }
    CHECK(mean.samples[0].d50_mm == Approx(0.2));
    CHECK(*mean.samples[0].d10_mm == Approx(0.1));
    CHECK(*mean.samples[0].permeability_m_s == Approx(2e-5));
}

TEST_CASE("the mean of two borings by hand", "[site]") {
    Boring one = boring_of({sand_at(1, 10, 10, 18), sand_at(2, 4)}, 1, 0.5);
    Boring two = boring_of({sand_at(1, 30, 20, 19), clay_at(2), sand_at(3, 6)}, 2, 1.5);
    two.energy_ratio_pct = 39; // half of 78: 30 blows are 15 by the first hammer
    one.samples[0].d50_mm = 0.1;
    two.samples[0].d50_mm = 0.4;
    one.samples[0].permeability_m_s = 1e-4;
    two.samples[0].permeability_m_s = 1e-6;
    one.samples[0].e_max = 0.9;
    const Boring mean = mean_boring(std::vector{one, two});
    CHECK(mean.water_depth_m == Approx(1.5));
    CHECK(mean.quake_water_depth_m == Approx(1.0));
    REQUIRE(mean.samples.size() == 3);
    const BoringSample& first = mean.samples[0];
    CHECK(first.blow_count == Approx((10 + 15) / 2.0));
    CHECK(first.fines_pct == Approx(15));
    CHECK(first.unit_weight_kN_m3 == Approx(18.5));
    CHECK(first.d50_mm == Approx(0.2));             // root of 0.1 x 0.4
    CHECK(*first.permeability_m_s == Approx(1e-5)); // the same
    CHECK(*first.e_max == Approx(0.9));             // measured in one only
    CHECK_FALSE(mean.samples[1].sand);              // one of two is not more than half
    CHECK(mean.samples[1].fines_pct == Approx(85));
    CHECK(mean.samples[2].blow_count == Approx(3)); // the first boring ends at 2.5 m
    CHECK(mean_boring(std::vector{one, two}, 0.5).samples.size() == 5);
    CHECK_THROWS_AS(mean_boring({}), std::invalid_argument);
    CHECK_THROWS_AS(mean_boring(std::vector{one}, 0), std::invalid_argument);
}
