// What the design methods ask for over a boring: target, governing sample, spacing, blow counts after, heave.

#include "site_boring.h"
#include "solver/site/treatment.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

using namespace interpile::solver;
using Catch::Matchers::Contains;

namespace {

const Earthquake quake{0.2, 7, 0.2, false};

TreatmentAims aims_of(double target_blow_count) {
    TreatmentAims aims;
    aims.top_depth_m = 0.5;
    aims.bottom_depth_m = 8.5;
    aims.target_blow_count = target_blow_count;
    return aims;
}

TreatmentAims aims_of(const SafetyTarget& target) {
    TreatmentAims aims = aims_of(1);
    aims.target_blow_count.reset();
    aims.target_safety = target;
    return aims;
}

BoringDesign design(const TreatmentAims& aims) {
    return design_boring(loose_boring(), quake, aims);
}

/// Sand that has targets in loose_boring() below the water of the earthquake.
const std::size_t targeted[] = {1, 2, 4};

VoidRatioSettings settings_of(const BoringDesign& design, std::size_t sample) {
    VoidRatioSettings settings;
    settings.limits = {chosen(design.states[sample], Quantity::LargestVoidRatio).value,
                       chosen(design.states[sample], Quantity::SmallestVoidRatio).value};
    return settings;
}

LayerState layer_of(const BoringDesign& design, std::size_t sample) {
    const BoringSample& s = design.boring.samples[sample];
    return {design.at_boring[sample].effective_kPa, s.fines_pct, s.blow_count};
}

} // namespace

TEST_CASE("only sand in the treated depth is treated", "[site]") {
    const auto made = design(aims_of(15));
    const bool treated[] = {true, true, true, false, true, false}; // clay; 10 m is below
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(made.needs[i].treated == treated[i]);
        CHECK(made.needs[i].target_blow_count.has_value() == treated[i]);
        CHECK(made.needs[i].methods.size() == (treated[i] ? 3 : 0));
        CHECK(made.states[i].empty() == !made.boring.samples[i].sand);
    }
    CHECK(has_target(made));
}

TEST_CASE("the target blow count of a safety factor gives that safety factor", "[site]") {
    for (const auto& info : procedure_table())
        for (const double factor : {0.9, 1.0, 1.2}) {
            const auto made = design(aims_of(SafetyTarget{factor, info.procedure}));
            for (const std::size_t i : targeted) {
                INFO(info.name << " " << factor << " sample " << i);
                BlowCountPoint point = made.before.samples[i].point;
                point.blow_count = made.needs[i].target_blow_count.value();
                CHECK(safety_against_liquefaction(info.procedure, point, quake).value ==
                      Approx(factor).epsilon(1e-6));
            }
            CHECK_FALSE(made.needs[0].target_blow_count);
            CHECK(made.needs[0].no_target == "above the water table of the earthquake");
        }
}

TEST_CASE("a sample without a target says why", "[site]") {
    const Earthquake shaken{0.2, 7, 0, false};
    const auto lacking =
        design_boring(loose_boring(), shaken, aims_of(SafetyTarget{1, Procedure::HighwayBridge2012}));
    CHECK(lacking.needs[1].no_target == "design_coefficient_khg is not given");
    const Earthquake strong{2, 9, 0, false};
    const auto beyond =
        design_boring(loose_boring(), strong, aims_of(SafetyTarget{3, Procedure::BoulangerIdriss2014}));
    CHECK_THAT(beyond.needs[1].no_target, Contains("no blow count up to 100"));
    CHECK_FALSE(has_target(beyond));
    CHECK_FALSE(beyond.methods[0].governing);
    CHECK(std::isnan(beyond.methods[0].spacing_m));
}

TEST_CASE("needs are those of the design methods called one by one; the largest governs", "[site]") {
    const auto made = design(aims_of(14));
    for (std::size_t m = 0; m < made.methods.size(); ++m) {
        double largest = 0;
        std::size_t at = 0;
        for (const std::size_t i : {std::size_t{0}, targeted[0], targeted[1], targeted[2]}) {
            const auto one =
                require_blow_count(made.methods[m].method, layer_of(made, i), 14, settings_of(made, i));
            CHECK(made.needs[i].methods[m].result.replacement_ratio == one.replacement_ratio);
            if (one.replacement_ratio > largest) {
                largest = one.replacement_ratio;
                at = i;
            }
        }
        const MethodSpacing& spacing = made.methods[m];
        REQUIRE(spacing.governing);
        CHECK(*spacing.governing == at);
        CHECK(spacing.replacement_ratio == largest);
        CHECK_FALSE(spacing.out_of_reach);
        CHECK(spacing.spacing_m == Approx(0.7 * std::sqrt(std::numbers::pi / 4 / largest)));
    }
}

TEST_CASE("the practical spacing is a multiple of its step and asks for no less than needed", "[site]") {
    for (const double target : {9.0, 11.0, 13.0, 15.0})
        for (const double step : {0.05, 0.1, 0.25}) {
            TreatmentAims aims = aims_of(target);
            aims.spacing_step_m = step;
            for (const auto& spacing : design(aims).methods) {
                const double steps = spacing.practical_spacing_m / step;
                CHECK(steps == Approx(std::round(steps)));
                CHECK(spacing.practical_spacing_m <= spacing.spacing_m * (1 + 1e-12));
                CHECK(spacing.practical_spacing_m > spacing.spacing_m - step);
                CHECK(spacing.practical_ratio >= spacing.replacement_ratio * (1 - 1e-12));
            }
        }
    TreatmentAims wide = aims_of(15);
    wide.spacing_step_m = 10;
    CHECK_THROWS_WITH(design(wide), Contains("whole steps in spacing_m"));
}

TEST_CASE("more blows never widen the spacing, thicker piles never narrow it", "[site]") {
    auto last = design(aims_of(8)).methods;
    for (int target = 9; target <= 30; ++target) {
        const auto now = design(aims_of(target)).methods;
        for (std::size_t m = 0; m < now.size(); ++m) {
            const bool asked = last[m].governing.has_value();
            CHECK((!asked || now[m].spacing_m <= last[m].spacing_m));
            CHECK((!asked || now[m].practical_spacing_m <= last[m].practical_spacing_m));
        }
        last = now;
    }
    for (std::size_t m = 0; m < 3; ++m)
        for (double diameter = 0.4; diameter < 1; diameter += 0.1) {
            TreatmentAims thin = aims_of(14), thick = thin;
            thin.diameter_m = diameter;
            thick.diameter_m = diameter + 0.1;
            CHECK(design(thick).methods[m].practical_spacing_m >=
                  design(thin).methods[m].practical_spacing_m);
        }
}

TEST_CASE("with the practical spacing every sample within reach meets its target", "[site]") {
    for (const auto& info : procedure_table()) {
        const auto made = design(aims_of(SafetyTarget{1.1, info.procedure}));
        for (std::size_t m = 0; m < made.methods.size(); ++m)
            for (const std::size_t i : targeted) {
                INFO(info.name << " method " << letter_of(made.methods[m].method) << " sample " << i);
                REQUIRE(made.needs[i].methods[m].kind != NeedKind::OutOfReach);
                const double after = made.methods[m].blow_counts_after[i];
                CHECK(after >= made.needs[i].target_blow_count.value() * (1 - 1e-9));
                const auto& sample = made.methods[m].after.samples[i];
                CHECK(sample.point.blow_count == after);
                CHECK(sample.factors[static_cast<std::size_t>(info.procedure)].value >= 1.1 * (1 - 1e-9));
            }
        CHECK(made.methods[0].blow_counts_after[3] == 3); // clay
        CHECK(made.methods[0].blow_counts_after[5] == 30);
    }
}

TEST_CASE("a target out of reach names its limit and the largest blow count", "[site]") {
    const auto made = design(aims_of(60));
    for (std::size_t m = 0; m < made.methods.size(); ++m) {
        const MethodSpacing& spacing = made.methods[m];
        CHECK(spacing.out_of_reach);
        CHECK(spacing.replacement_ratio == 0.30);
        double most = 0;
        for (const std::size_t i : targeted) {
            const MethodNeed& need = made.needs[i].methods[m];
            CHECK(need.kind == NeedKind::OutOfReach);
            CHECK(need.limit == "relative density above 100 % after treatment");
            const auto largest =
                largest_blow_count(spacing.method, layer_of(made, i), 0.30, settings_of(made, i));
            REQUIRE(need.largest_blow_count);
            CHECK(*need.largest_blow_count == largest.result.blow_count_after);
            CHECK(*need.largest_blow_count < 60);
            most = std::max(most, 60 - *need.largest_blow_count);
        }
        const auto& governing = made.needs[*spacing.governing].methods[m];
        CHECK(60 - *governing.largest_blow_count >= most); // that which lacks most
    }
    TreatmentAims few = aims_of(15);
    few.largest_replacement_ratio = 0.03;
    const MethodNeed need = design(few).needs[2].methods[0];
    CHECK(need.kind == NeedKind::OutOfReach);
    CHECK(need.limit == "replacement ratio above 0.03");
    CHECK(need.largest_blow_count.value() < 15);
}

TEST_CASE("sand that has its target before asks for nothing", "[site]") {
    const auto made = design(aims_of(5));
    for (const auto& spacing : made.methods) {
        CHECK_FALSE(spacing.governing);
        CHECK(std::isnan(spacing.practical_spacing_m));
        CHECK(spacing.heave_m == 0);
    }
    CHECK(made.needs[1].methods[0].kind == NeedKind::Reached);
    CHECK(made.methods[1].blow_counts_after[1] == 6);
}

// A refusal on a stone near the surface: by Meyerhof's form D_r is above 200 %, which leaves no voids.
TEST_CASE("a blow count beyond any void ratio does not end the design", "[site]") {
    Boring boring = loose_boring();
    boring.samples[0] = sand_at(0.6, 100, 30);
    for (const auto method : {DesignMethod::B, DesignMethod::C, DesignMethod::D}) {
        TreatmentAims aims = aims_of(15);
        aims.methods = {method};
        const auto made = design_boring(boring, quake, aims);
        CHECK(made.needs[0].methods[0].kind == NeedKind::Reached);
        CHECK(made.methods[0].blow_counts_after[0] == 100);
        CHECK(made.methods[0].governing.value() != 0);
        CHECK(std::isfinite(made.methods[0].heave_m));
        CHECK_THAT(predict_at(made, 0, method, aims, 0.1).outside, Contains("above 100 % before treatment"));
    }
}

TEST_CASE("aims that contradict each other are refused", "[site]") {
    const auto refused = [](TreatmentAims aims, const char* words) {
        CHECK_THROWS_WITH(design(aims), Contains(words));
    };
    TreatmentAims both = aims_of(15), neither = aims_of(15), chart = both, low = both, ratio = both,
                  clay = both;
    both.target_safety = SafetyTarget{};
    refused(both, "either a target blow count or a target safety factor");
    neither.target_blow_count.reset();
    refused(neither, "either a target blow count or a target safety factor");
    chart.methods = {DesignMethod::A};
    refused(chart, "needs a chart");
    low.bottom_depth_m = low.top_depth_m;
    refused(low, "thickness treated");
    ratio.largest_replacement_ratio = 0.71;
    refused(ratio, "largest_replacement_ratio");
    clay.top_depth_m = 5;
    clay.bottom_depth_m = 7;
    refused(clay, "has no sand in the depth to be treated");
    const auto made = design(aims_of(15));
    CHECK_THROWS_WITH(predict_at(made, 3, DesignMethod::B, aims_of(15), 0.1), Contains("no state of sand"));
    CHECK_THROWS_WITH(predict_at(made, 1, DesignMethod::A, aims_of(15), 0.1), Contains("needs a chart"));
}
