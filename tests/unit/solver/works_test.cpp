// Strokes of a pile and its records. Table: w : r : Delta and passes by the volume balance of a stroke, worked apart
// from this program. The piles are invented.

#include "solver/works/as_built_assessment.h"
#include "solver/works/legs.h"
#include "solver/works/stroke_instruction.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <stdexcept>

using namespace interpile::solver;
using Catch::Matchers::Contains;

namespace {

Approx to(double value, double digit) {
    return Approx(value).epsilon(0).margin(digit);
}

/// 0.40 m to 0.70 m, 10.3 m long, strokes of 0.2 m and a last one of 0.1 m.
OrderedPile plan() {
    return {.casing_diameter_m = 0.40,
            .pile_diameter_m = 0.70,
            .top_depth_m = 1.0,
            .bottom_depth_m = 11.3,
            .net_rise_m = 0.2,
            .bulking = 1.2};
}

PileDesign design() {
    return {.position_m = {3, 4},
            .top_depth_m = 1.0,
            .bottom_depth_m = 11.3,
            .diameter_m = 0.70,
            .cell_area_m2 = 4.0};
}

AsBuiltReading loose() {
    return {.bulking = 1.2};
}

/// A casing that follows orders, logged every 0.02 m or less.
class Log {
public:
    explicit Log(std::string pile = "P1") { record_.pile = std::move(pile); }

    void go(double depth_m, double volume_m3 = 0) {
        const double from_m = depth_m_;
        const double before_m3 = volume_m3_;
        const int count = std::max(1, static_cast<int>(std::ceil(std::abs(depth_m - from_m) / 0.02)));
        for (int i = 1; i <= count; ++i) {
            const double share = static_cast<double>(i) / count;
            depth_m_ = i == count ? depth_m : from_m + share * (depth_m - from_m);
            volume_m3_ = before_m3 + share * volume_m3;
            add(depth_m > from_m ? 10 * depth_m_ : 1);
        }
    }

    AsBuiltRecord record() const { return record_; }

private:
    void add(double resistance_kN) {
        time_s_ += 1;
        record_.samples.push_back({time_s_, depth_m_, volume_m3_, resistance_kN, 0.2});
    }

    AsBuiltRecord record_;
    double time_s_ = 0, depth_m_ = 0, volume_m3_ = 0;
};

/// The record of an instruction; `share_of(step)` of the sand is delivered.
template <class Share>
AsBuiltRecord logged(const OrderedPile& plan, Share share_of) {
    Log log;
    log.go(plan.bottom_depth_m);
    for (const StrokeStep& step : stroke_instruction(plan)) {
        log.go(step.tip_before_m - step.withdrawal_m, share_of(step) * step.loose_m3);
        log.go(step.tip_after_m);
    }
    log.go(0);
    auto record = log.record();
    record.position_m = {3, 4};
    return record;
}

AsBuiltRecord as_ordered() {
    return logged(plan(), [](const StrokeStep&) { return 1.0; });
}

std::vector<AsBuiltFinding> findings(const AsBuiltRecord& record) {
    return assess(as_built_pile(record, design(), loose()), design()).findings;
}

} // namespace

TEST_CASE("lengths of a stroke by its volume balance", "[works]") {
    struct Row {
        double casing_m, pile_m, withdrawal, redrive, passes, passes_loose;
    };
    const auto [casing_m, pile_m, withdrawal, redrive, passes, passes_loose] =
        GENERATE(Row{0.40, 0.70, 3.06, 2.06, 3.1, 3.7}, Row{0.40, 0.60, 2.25, 1.25, 2.3, 2.7},
                 Row{0.50, 0.80, 2.56, 1.56, 2.6, 3.1});
    const auto dense = stroke_proportion(casing_m, pile_m);
    CHECK(dense.withdrawal == to(withdrawal, 0.0051));
    CHECK(dense.redrive == to(redrive, 0.0051));
    CHECK(dense.withdrawal == to(passes, 0.051));
    CHECK(stroke_proportion(casing_m, pile_m, 1.2).withdrawal == to(passes_loose, 0.051));
}

TEST_CASE("the steps of an instruction close the volume of the pile", "[works]") {
    const auto steps = stroke_instruction(plan());
    REQUIRE(steps.size() == 52);
    const double in_place_m3 = std::numbers::pi * 0.49 / 4 * 10.3;
    CHECK(steps.back().tip_after_m == 1.0);
    CHECK(steps.back().net_rise_m == to(0.1, 1e-12));
    CHECK(steps.back().total_in_place_m3 == to(in_place_m3, 1e-12));
    CHECK(steps.back().total_loose_m3 == to(1.2 * in_place_m3, 1e-12));
    double in_place_sum_m3 = 0, loose_sum_m3 = 0, depth_m = 11.3;
    for (const StrokeStep& step : steps) {
        in_place_sum_m3 += step.in_place_m3;
        loose_sum_m3 += step.loose_m3;
        CHECK(step.tip_before_m == depth_m);
        CHECK(step.net_rise_m == to(step.withdrawal_m - step.redrive_m, 1e-12));
        CHECK(step.loose_m3 == to(std::numbers::pi * 0.16 / 4 * step.withdrawal_m, 1e-12)); // A_D w
        CHECK(step.target_diameter_m == 0.70);
        depth_m = step.tip_after_m;
    }
    CHECK(in_place_sum_m3 == to(in_place_m3, 1e-12));
    CHECK(loose_sum_m3 == to(1.2 * in_place_m3, 1e-12));
}

TEST_CASE("9 m in steps of 0.3 m are 30 steps", "[works]") {
    auto nine = plan();
    nine.bottom_depth_m = 10;
    nine.net_rise_m = 0.3;
    CHECK(stroke_instruction(nine).size() == 30);
}

// Mean over the middle of a long pile: w/Delta, if the middles of the steps sample a stroke evenly; here w/Delta is 2.25
// or 4, and a middle is passed by 2 or 4 down-goings. Lowest steps: the first driving, then one more per step.
TEST_CASE("passes of a step count the first driving and the re-drives through its middle", "[works]") {
    const OrderedPile doubled{.casing_diameter_m = 0.40,
                              .pile_diameter_m = 0.80,
                              .top_depth_m = 2,
                              .bottom_depth_m = 12,
                              .net_rise_m = 0.25};
    const auto steps = stroke_instruction(doubled);
    CHECK(steps[0].passes == 1);
    CHECK(steps[1].passes == 2);
    CHECK(steps[2].passes == 3);
    for (std::size_t i = 3; i < steps.size(); ++i)
        CHECK(steps[i].passes == 4);
    CHECK(stroke_instruction({0.40, 0.60, 2, 12, 0.25, 1}).back().passes == 2);
    CHECK(stroke_instruction({0.40, 0.40, 0, 10, 0.5, 1}).back().passes == 1); // d = D: no re-drive
}

TEST_CASE("an instruction that cannot be carried out is refused", "[works]") {
    const auto refused = [](auto change, const char* text) {
        auto wrong = plan();
        change(wrong);
        CHECK_THROWS_WITH(stroke_instruction(wrong), Contains(text));
        CHECK_THROWS_AS(stroke_instruction(wrong), std::invalid_argument);
    };
    refused([](auto& p) { p.pile_diameter_m = 0.39; },
            "pile_diameter_m = 0.39 is below casing_diameter_m = 0.4");
    refused([](auto& p) { p.casing_diameter_m = 0; }, "casing_diameter_m = 0 must be larger than 0");
    refused([](auto& p) { p.bulking = 0.9; }, "bulking = 0.9 is outside 1 .. 2");
    refused([](auto& p) { p.top_depth_m = -1; }, "top_depth_m = -1");
    refused([](auto& p) { p.top_depth_m = 11.3; }, "bottom_depth_m - top_depth_m = 0");
    refused([](auto& p) { p.net_rise_m = 0; }, "net_rise_m = 0 must be larger than 0");
    refused([](auto& p) { p.net_rise_m = 11; }, "net_rise_m = 11 is outside");
    refused([](auto& p) { p.net_rise_m = 1e-5; }, "number of steps");
    refused([](auto& p) { p.net_rise_m = std::numeric_limits<double>::quiet_NaN(); }, "net_rise_m = nan");
    // w/Delta 3.675: a full step re-drives 0.535 m
    refused([](auto& p) { p.top_depth_m = 0.3; },
            "the casing would leave the ground. Lower the top to 0.535 m");
    auto just = plan();
    just.top_depth_m = 0.535;
    CHECK_NOTHROW(stroke_instruction(just));
}

TEST_CASE("legs leave out reversals that are noise", "[works]") {
    const auto legs = legs_between_turns({0, 1, 0.99, 2, 2, 1.5, 1.51, 1.4, 3}, 0.05);
    REQUIRE(legs.size() == 3);
    CHECK((legs[0].first == 0 && legs[0].last == 4 && legs[0].rising)); // the dwell ends the leg
    CHECK((legs[1].last == 7 && !legs[1].rising));
    CHECK((legs[2].last == 8 && legs[2].rising));
    CHECK(!legs_between_turns({2, 1}, 0.05).front().rising);
}

TEST_CASE("a record made from an instruction gives the pile back without findings", "[works]") {
    const auto pile = as_built_pile(as_ordered(), design(), loose());
    const double in_place_m3 = std::numbers::pi * 0.49 / 4 * 10.3;
    CHECK(pile.sand_volume_m3 == to(in_place_m3, 1e-10));
    CHECK(pile.volume_outside_m3 == to(0, 1e-10));
    CHECK(pile.bottom_depth_m == 11.3);
    CHECK(pile.top_depth_m == 1.0);
    CHECK(pile.length_m == to(10.3, 1e-12));
    CHECK(pile.tilt->slope == to(std::tan(0.2 * std::numbers::pi / 180), 1e-12));
    CHECK(*pile.position_deviation_m == 0);
    CHECK(pile.duration_s == as_ordered().samples.size() - 1);
    REQUIRE(pile.slices.size() == 10); // the rest of 0.3 m joins the tenth
    CHECK(pile.slices.back().bottom_depth_m == 11.3);
    for (const AsBuiltSlice& slice : pile.slices) {
        CHECK(slice.equivalent_diameter_m == to(0.70, 1e-9));
        CHECK(slice.replacement_ratio == to(std::numbers::pi * 0.49 / 4 / 4.0, 1e-9));
        CHECK(*slice.largest_resistance_kN ==
              to(10 * slice.bottom_depth_m, 0.21)); // 10 kN per meter of depth
    }
    const auto assessment = assess(pile, design());
    CHECK(assessment.findings.empty());
    CHECK(assessment.not_recorded.empty());
}

// 10 m in steps of 0.2 m: the middle of a meter is that of a step.
TEST_CASE("passes of a record are those of its instruction", "[works]") {
    auto whole = plan();
    whole.bottom_depth_m = 11.0;
    auto order = design();
    order.bottom_depth_m = 11.0;
    const auto pile = as_built_pile(logged(whole, [](const StrokeStep&) { return 1.0; }), order, loose());
    const auto steps = stroke_instruction(whole);
    REQUIRE(pile.slices.size() == 10);
    for (std::size_t i = 0; i < 10; ++i) {
        const StrokeStep& step = steps[5 * i + 2]; // from the bottom
        const AsBuiltSlice& slice = pile.slices[9 - i];
        REQUIRE(step.tip_before_m + step.tip_after_m == to(slice.top_depth_m + slice.bottom_depth_m, 1e-9));
        CHECK(slice.passes == step.passes);
        CHECK(slice.passes == (i == 0 ? 3 : 4)); // w/Delta 3.675
    }
}

// Whatever the steps, driving down covers the first driving and all re-drives: 11.3 m + (1.2 (0.7/0.4)^2 - 1) 10.3 m.
TEST_CASE("ordered passes are those of a record made from the instruction", "[works]") {
    const auto steps = stroke_instruction(plan());
    for (const AsBuiltSlice& slice : as_built_pile(as_ordered(), design(), loose()).slices)
        CHECK(ordered_passes((slice.top_depth_m + slice.bottom_depth_m) / 2, steps) == slice.passes);
    double driven_m = 0;
    constexpr double part_m = 0.001;
    for (int i = 0; i < 11400; ++i)
        driven_m += part_m * ordered_passes((i + 0.5) * part_m, steps);
    CHECK(driven_m == to(11.3 + 2.675 * 10.3, 0.05)); // 52 ends of re-drives, each within a part
    CHECK(ordered_passes(11.4, steps) == 0);
    CHECK(ordered_passes(1, {}) == 0);
}

// One stroke: 10 -> 9 m with 0.6 m3, re-drive to 9.6 m. Then 9.6 -> 9 m without sand, out.
TEST_CASE("where the sand of a stroke is booked", "[works]") {
    Log log;
    log.go(10);
    log.go(9, 0.6);
    log.go(9.6);
    log.go(0);
    PileDesign lowest{.top_depth_m = 9, .bottom_depth_m = 10, .diameter_m = 0.7, .cell_area_m2 = 4};
    const auto within = as_built_pile(log.record(), lowest);
    CHECK(within.top_depth_m == 9.6);
    CHECK(within.slices[0].sand_volume_m3 == to(0.6, 1e-12));
    const AsBuiltReading along{.sand_place = SandPlace::AlongWithdrawal};
    CHECK(as_built_pile(log.record(), lowest, along).top_depth_m == 9.0);
    lowest.top_depth_m = 9.5;
    CHECK(as_built_pile(log.record(), lowest).slices[0].sand_volume_m3 == to(0.6 * 0.4 / 0.4, 1e-12));
    CHECK(as_built_pile(log.record(), lowest, along).slices[0].sand_volume_m3 == to(0.3, 1e-12));
    CHECK(as_built_pile(log.record(), lowest, along).volume_outside_m3 == to(0.3, 1e-12));
}

// A re-drive to below the start of its stroke has no net rise: the sand stays where it came out.
TEST_CASE("a repair by driving deeper keeps the sand in its depth", "[works]") {
    Log log;
    log.go(8);
    log.go(7, 0.3);
    log.go(9);
    log.go(8, 0.2);
    log.go(0);
    const PileDesign order{.top_depth_m = 7, .bottom_depth_m = 9, .diameter_m = 0.7, .cell_area_m2 = 4};
    const auto pile = as_built_pile(log.record(), order);
    CHECK(pile.slices[0].sand_volume_m3 == to(0.3, 1e-12));
    CHECK(pile.slices[1].sand_volume_m3 == to(0.2, 1e-12));
    CHECK(pile.slices[0].passes == 2); // 7.5 m: first driving and repair
    CHECK(pile.slices[1].passes == 1);
}

TEST_CASE("away from the ends both rules of booking agree", "[works]") {
    AsBuiltReading along = loose();
    along.sand_place = SandPlace::AlongWithdrawal;
    const auto pile = as_built_pile(as_ordered(), design(), along);
    for (std::size_t i = 1; i + 1 < pile.slices.size(); ++i)
        CHECK(pile.slices[i].equivalent_diameter_m == to(0.70, 0.01));
    CHECK(pile.slices.back().equivalent_diameter_m < 0.68);
    CHECK(pile.volume_outside_m3 > 0.01);
    double sum_m3 = pile.volume_outside_m3;
    for (const AsBuiltSlice& slice : pile.slices)
        sum_m3 += slice.sand_volume_m3;
    CHECK(sum_m3 == to(pile.sand_volume_m3, 1e-10));
}

TEST_CASE("each defect of a pile is found, and only that", "[works]") {
    using enum AsBuiltCheck;
    auto record = as_ordered();
    SECTION("misplaced") {
        record.position_m = {3.09, 4.12};
        const auto found = findings(record);
        REQUIRE(found.size() == 1);
        CHECK(found[0].pile == "P1");
        CHECK(found[0].what == Position);
        CHECK(found[0].value == to(0.15, 1e-12));
        CHECK(found[0].limit == 0.10);
    }
    SECTION("tilted") {
        auto& sample = record.samples[300];
        sample.inclination_deg = -0.6; // 1/95.5
        const auto found = findings(record);
        REQUIRE(found.size() == 1);
        CHECK(found[0].what == Verticality);
        CHECK(found[0].value == to(1 / 95.49, 1e-6));
        CHECK(found[0].from_depth_m == sample.tip_depth_m);
    }
    SECTION("short at the top") {
        auto lower = plan();
        lower.top_depth_m = 1.4;
        const auto found = findings(logged(lower, [](const StrokeStep&) { return 1.0; }));
        REQUIRE(found.size() == 2);
        CHECK(found[0].what == ShortAtTop);
        CHECK(found[0].value == to(0.4, 1e-9));
        CHECK(found[0].to_depth_m == to(1.4, 1e-9));
        CHECK(found[1].what == SandVolume); // 0.6 of its first meter
        CHECK(found[1].value == to(0.6, 1e-9));
    }
    SECTION("short at the bottom") {
        auto higher = plan();
        higher.bottom_depth_m = 11.0;
        const auto found = findings(logged(higher, [](const StrokeStep&) { return 1.0; }));
        REQUIRE(found.size() == 2);
        CHECK(found[0].what == ShortAtBottom);
        CHECK(found[0].value == to(0.3, 1e-9));
        CHECK(found[0].from_depth_m == 11.0);
        CHECK(found[1].what == SandVolume); // 1.0 m of a slice of 1.3 m
        CHECK(found[1].value == to(1.0 / 1.3, 1e-9));
    }
    SECTION("one meter with too little sand") {
        // Steps end at 11.3 - 0.2 n: three lie within 5.3 .. 5.9 m and lose a fifth, 0.6 m of the meter.
        const auto thin = logged(plan(), [](const StrokeStep& step) {
            return step.tip_after_m > 5.2 && step.tip_before_m < 6.0 ? 0.8 : 1.0;
        });
        const auto found = findings(thin);
        REQUIRE(found.size() == 1);
        CHECK(found[0].what == SandVolume);
        CHECK(found[0].from_depth_m == 5.0);
        CHECK(found[0].to_depth_m == 6.0);
        CHECK(found[0].value == to(1 - 0.6 * 0.2, 1e-9));
        CHECK(found[0].limit == 1.0);
    }
}

// Own choice of weights, worked by hand: of 0.7 m diameter and 10.3 m length.
TEST_CASE("findings of different kinds are ranked by what is lost", "[works]") {
    using enum AsBuiltCheck;
    const auto of = [](AsBuiltCheck what, double value, double limit) {
        return severity({"P1", 0, 1, what, value, limit}, design());
    };
    CHECK(of(SandVolume, 0.6, 1.0) == to(0.4, 1e-12));
    CHECK(of(ShortAtBottom, 0.4, 0) == to(0.4, 1e-12)); // a meter without pile weighs as one without sand
    CHECK(of(ShortAtTop, 0.5, 0.1) == to(0.4, 1e-12));
    CHECK(of(Position, 0.17, 0.10) == to(0.1, 1e-12));
    CHECK(of(Verticality, 0.02, 0.01) == to(0.103 / 0.7, 1e-12));
}

TEST_CASE("the position of a pile without record is held against its limit", "[works]") {
    CHECK(assess_position("P1", 0.10, design()).empty());
    const auto found = assess_position("P1", 0.101, design());
    REQUIRE(found.size() == 1);
    CHECK(found[0].what == AsBuiltCheck::Position);
    CHECK(found[0].pile == "P1");
    CHECK(found[0].value == 0.101);
    CHECK_THROWS_AS(assess_position("P1", std::nan(""), design()), std::invalid_argument);
    CHECK_THROWS_AS(assess_position("P1", -0.1, design()), std::invalid_argument);
}

TEST_CASE("what was not recorded stays open", "[works]") {
    auto record = as_ordered();
    record.position_m.reset();
    for (AsBuiltSample& sample : record.samples) {
        sample.inclination_deg.reset();
        sample.driving_resistance_kN.reset();
    }
    const auto pile = as_built_pile(record, design(), loose());
    CHECK(!pile.slices[0].largest_resistance_kN);
    const auto assessment = assess(pile, design());
    CHECK(assessment.findings.empty());
    CHECK(assessment.not_recorded ==
          std::vector<AsBuiltCheck>{AsBuiltCheck::Position, AsBuiltCheck::Verticality});
}

TEST_CASE("a record that cannot be is refused with pile and sample", "[works]") {
    const auto refused = [](auto change, const char* text) {
        auto record = as_ordered();
        change(record.samples);
        CHECK_THROWS_WITH(as_built_pile(record, design()), Contains("pile P1") && Contains(text));
    };
    refused([](auto& s) { s[4].time_s = 1; }, "sample 5: time 1 s runs backward from 4 s");
    refused([](auto& s) { s[9].tip_depth_m = -0.1; }, "sample 10: tip depth -0.1 m");
    refused([](auto& s) { s.back().sand_volume_m3 = 1; }, "cumulative sand volume falls");
    refused([](auto& s) { s[0].inclination_deg = 95; }, "sample 1: inclination 95");
    refused([](auto& s) { s.resize(1); }, "1 samples, at least 2");
    auto other = design();
    other.bottom_depth_m = 12;
    CHECK_THROWS_WITH(assess(as_built_pile(as_ordered(), design()), other), Contains("do not fit"));
    CHECK_THROWS_WITH(assess(as_built_pile(as_ordered(), design()), design(), {.verticality = -1}),
                      Contains("verticality = -1"));
}

// Area of 0.40 m: 0.12566 m2. Falls 2 -> 1.5 and 3 -> 2.2 m; a charge of 1.5 m in two samples between them.
TEST_CASE("sand volume by the level in the casing", "[works]") {
    const auto volumes = discharged_volume_m3({2, 1.8, 1.85, 1.5, 1.65, 3, 2.2}, 0.40);
    const std::vector<double> falls_m = {0, 0.2, 0.2, 0.5, 0.5, 0.5, 1.3};
    REQUIRE(volumes.size() == falls_m.size());
    for (std::size_t i = 0; i < volumes.size(); ++i)
        CHECK(volumes[i] == to(0.125664 * falls_m[i], 1e-6));
    CHECK_THROWS_AS(discharged_volume_m3({1, -1}, 0.40), std::invalid_argument);
}
