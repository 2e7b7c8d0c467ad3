// Blow counts between the piles against prediction, with data planted for a known answer.

#include "site_boring.h"
#include "solver/site/after_treatment.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>
#include <utility>

using namespace interpile::solver;
using Catch::Matchers::Contains;

namespace {

const Earthquake quake{0.2, 7, 0.2, false};

// Hirama (1981), from memory, at 5 % fines.
constexpr double e_max = 1.1, e_min = 0.64;

/// D_r as a share of 1. Meyerhof (1957), from memory: D_r = 21 sqrt(100 N/(s' + 70)) in percent.
double blow_count(double density, double stress_kPa) {
    return std::pow(100 * density / 21, 2) * (stress_kPa + 70) / 100;
}

TreatmentAims aims_of(double target_blow_count) {
    TreatmentAims aims;
    aims.top_depth_m = 0.5;
    aims.bottom_depth_m = 100;
    aims.target_blow_count = target_blow_count;
    return aims;
}

/// One test in a ground made for it.
struct Planted {
    double density = 0, density_after = 0; ///< as shares of 1
    double replacement_ratio = 0.1;
};

/// A boring with a sample for each test, a meter apart, and the tests at the depths of the samples.
struct PlantedSite {
    std::vector<BoringDesign> designs;
    std::vector<AfterMeasurement> tests;

    PlantedSite(const std::vector<Planted>& planted, const TreatmentAims& aims) {
        Boring boring = boring_of({}, 2, 1);
        for (std::size_t i = 0; i < planted.size(); ++i)
            boring.samples.push_back(sand_at(static_cast<double>(i) + 1, 1));
        const auto stresses = vertical_stresses(boring, boring.water_depth_m);
        for (std::size_t i = 0; i < planted.size(); ++i) {
            const double stress = stresses[i].effective_kPa;
            boring.samples[i].blow_count = blow_count(planted[i].density, stress);
            AfterMeasurement test;
            test.depth_m = boring.samples[i].depth_m;
            test.blow_count = blow_count(planted[i].density_after, stress);
            test.replacement_ratio = planted[i].replacement_ratio;
            tests.push_back(test);
        }
        designs.push_back(design_boring(boring, quake, aims));
    }
};

AfterReview review(const std::vector<Planted>& planted) {
    const TreatmentAims aims = aims_of(10);
    const PlantedSite site(planted, aims);
    return review_after_treatment(site.tests, site.designs, quake, aims);
}

/// e1 = e0 - eta a_s (1 + e0).
Planted densified(double density, double efficiency, double replacement_ratio = 0.1) {
    const double e0 = e_max - density * (e_max - e_min);
    const double e1 = e0 - efficiency * replacement_ratio * (1 + e0);
    return {density, (e_max - e1) / (e_max - e_min), replacement_ratio};
}

/// A test of gain y = (D_r1^2 - D_r0^2)/a_s.
Planted gained(double density, double gain) {
    return {density, std::sqrt(density * density + 0.1 * gain), 0.1};
}

// Norris, from memory of the statistical reference data sets of NIST; y, x.
const double norris[][2] = {
    {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},    {228.1, 226.5},
    {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
    {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
    {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
    {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};

} // namespace

TEST_CASE("the efficiency of planted data is found", "[after]") {
    const auto found =
        review({densified(0.3, 0.6, 0.08), densified(0.4, 0.6, 0.1), densified(0.5, 0.6, 0.15)});
    for (const auto& comparison : found.comparisons)
        CHECK(comparison.efficiency == Approx(0.6));
    CHECK(found.comparisons[1].relative_density_before_pct == Approx(40));
    CHECK(found.comparisons[1].relative_density_after_pct == Approx(100 * (0.4 + 0.06 * 1.916 / 0.46)));
    CHECK(found.efficiency.count == 3);
    CHECK(found.efficiency.value == Approx(0.6));
    CHECK(found.efficiency.standard_error == Approx(0).margin(1e-12));
}

// NoInt1, from memory of the statistical reference data sets of NIST: y 130 .. 140 at x 60 .. 70, y = b x;
// b 2.07438016528926, standard error 0.0165289256198347.
TEST_CASE("the fitted efficiency and its standard error are those of least squares through the origin",
          "[after]") {
    std::vector<Planted> planted;
    for (int i = 0; i <= 10; ++i) {
        const double a_s = (60 + i) / 500.0, loss = (130 + i) / 2000.0; // of volume, per volume of ground
        planted.push_back(densified(0.35, loss / a_s, a_s));
    }
    const auto found = review(planted);
    CHECK(found.efficiency.count == 11);
    CHECK(found.efficiency.value == Approx(2.07438016528926 / 4).epsilon(1e-9));
    CHECK(found.efficiency.standard_error == Approx(0.0165289256198347 / 4).epsilon(1e-9));
}

// Certified slope of Norris 1.00211681802045, standard error 0.000429796848199937.
TEST_CASE("the trend and its standard error are those of least squares with a constant", "[after]") {
    for (const double sign : {1.0, -1.0}) {
        std::vector<Planted> planted;
        for (const auto& [y, x] : norris)
            planted.push_back(gained(0.2 + x / 2000, 4 + sign * y / 500));
        const auto found = review(planted);
        CHECK(found.density_trend.count == 36);
        CHECK(found.density_trend.value == Approx(sign * 4 * 1.00211681802045).epsilon(1e-9));
        CHECK(found.density_trend.standard_error == Approx(4 * 0.000429796848199937).epsilon(1e-6));
        CHECK(found.verdict == (sign > 0 ? TrendVerdict::Contrary : TrendVerdict::AsExpected));
    }
}

// Of a parabola at equal distances least squares give the slope in the middle. With k = (1 + e_max)/(e_max - e_min) - D
// the gain is 2 D k + a_s k^2, its slope 2 k - 2 D - 2 a_s k.
TEST_CASE("data of a void-ratio method have denser ground gain more", "[after]") {
    std::vector<Planted> planted;
    for (const double density : {0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60})
        planted.push_back(densified(density, 1));
    const auto found = review(planted);
    const double k = 2.1 / 0.46 - 0.45;
    CHECK(found.density_trend.value == Approx(2 * k - 0.9 - 0.2 * k));
    CHECK(found.verdict == TrendVerdict::Contrary);
    CHECK(found.methods[0].mean_ratio == Approx(1)); // method B predicts just that
    CHECK(found.methods[0].bias == Approx(0).margin(1e-9));
    CHECK(found.methods[0].scatter == Approx(0).margin(1e-9));
}

TEST_CASE("the verdict on the trend follows the data", "[after]") {
    // Slopes -5.2 +- 0.3 and -4 +- 6.
    CHECK(review({gained(0.3, 3), gained(0.4, 2.4), gained(0.5, 2), gained(0.6, 1.4)}).verdict ==
          TrendVerdict::AsExpected);
    CHECK(review({gained(0.3, 3), gained(0.4, 1), gained(0.5, 3), gained(0.6, 1)}).verdict ==
          TrendVerdict::NotDecided);
    const auto three = review({gained(0.3, 3), gained(0.4, 2.5), gained(0.5, 2)});
    CHECK(three.verdict == TrendVerdict::TooFew);
    CHECK(three.density_trend.value == Approx(-5));
    CHECK(std::isnan(review({gained(0.3, 3), gained(0.4, 2)}).density_trend.standard_error));
    const TrendVerdict all[] = {TrendVerdict::TooFew, TrendVerdict::NotDecided, TrendVerdict::AsExpected,
                                TrendVerdict::Contrary};
    const char* words[] = {"too few", "not decided", "gained less", "gained more"};
    for (std::size_t i = 0; i < 4; ++i)
        CHECK_THAT(verdict_text(all[i]), Contains(words[i]));
}

// The mean of seven equal numbers may differ from them in its last digit.
TEST_CASE("tests at one density have no trend", "[after]") {
    for (const double density : {0.1, 0.3, 0.37, 0.41, 0.533}) {
        std::vector<Planted> planted;
        for (int i = 0; i < 7; ++i)
            planted.push_back(gained(density, 1 + 0.3 * i));
        const auto found = review(planted);
        CHECK(std::isnan(found.density_trend.value));
        CHECK(found.verdict == TrendVerdict::TooFew);
    }
}

TEST_CASE("one test has no standard error, none has no efficiency", "[after]") {
    const auto one = review({densified(0.4, 0.5)});
    CHECK(one.efficiency.count == 1);
    CHECK(one.efficiency.value == Approx(0.5));
    CHECK(std::isnan(one.efficiency.standard_error));
    CHECK(std::isnan(one.methods[0].ratio_deviation));
    CHECK(std::isnan(one.methods[0].scatter));
    const TreatmentAims aims = aims_of(10);
    const PlantedSite site({densified(0.4, 0.5)}, aims);
    const auto none = review_after_treatment({}, site.designs, quake, aims);
    CHECK(none.comparisons.empty());
    CHECK(none.methods.size() == 3);
    CHECK(none.methods[0].count == 0);
    CHECK(none.efficiency.count == 0);
    CHECK(none.verdict == TrendVerdict::TooFew);
}

// Ratios 1.0, 1.2, 0.8, 1.0: mean 1, deviation sqrt(0.08/3). Errors 0, 4, -2, 0: mean 0.5, deviation sqrt(19/3).
TEST_CASE("scores are mean and standard deviation of ratio and difference", "[after]") {
    const TreatmentAims aims = aims_of(10);
    PlantedSite site(std::vector<Planted>(5, {0.4, 0.6}), aims);
    const double pairs[][2] = {{15, 15}, {24, 20}, {8, 10}, {9, 9}};
    for (std::size_t i = 0; i < 4; ++i) {
        site.tests[i].blow_count = pairs[i][0];
        site.tests[i].simulated_blow_count = pairs[i][1];
    }
    const auto found = review_after_treatment(site.tests, site.designs, quake, aims);
    CHECK(found.simulated.count == 4); // the fifth was not simulated
    CHECK(found.simulated.mean_ratio == Approx(1));
    CHECK(found.simulated.ratio_deviation == Approx(std::sqrt(0.08 / 3)));
    CHECK(found.simulated.bias == Approx(0.5));
    CHECK(found.simulated.scatter == Approx(std::sqrt(19.0 / 3)));
}

TEST_CASE("tests that cannot be compared are left out with a reason", "[after]") {
    TreatmentAims aims = aims_of(10);
    aims.bottom_depth_m = 9;
    const std::vector<BoringDesign> designs = {design_boring(loose_boring(), quake, aims)};
    const auto reason = [&](double depth_m, std::optional<double> fines_pct = {}) {
        AfterMeasurement test;
        test.depth_m = depth_m;
        test.blow_count = 15;
        test.replacement_ratio = 0.1;
        test.fines_pct = fines_pct;
        const auto found = review_after_treatment({test}, designs, quake, aims);
        CHECK(found.efficiency.count == (found.comparisons[0].left_out.empty() ? 1 : 0));
        CHECK(found.methods[1].count == found.efficiency.count);
        CHECK(found.comparisons[0].target_kept.has_value() == found.comparisons[0].left_out.empty());
        return found.comparisons[0].left_out;
    };
    CHECK(reason(4).empty());
    CHECK(reason(4, 50).empty());
    CHECK(reason(4, 51) == "more than 50 % fines in the test");
    CHECK(reason(6) == "clay or silt before treatment");
    CHECK(reason(0.3) == "outside the treated depth"); // of a sample that is treated
    CHECK(reason(8.9).empty());
    CHECK(reason(9.05) ==
          "outside the treated depth"); // below the feet, still the ground of the sample at 8 m
    CHECK(reason(10) == "outside the treated depth");
    CHECK(reason(30) == "beyond the boring before treatment");
}

TEST_CASE("the sample whose interval holds the depth tells the ground before", "[after]") {
    const TreatmentAims aims = aims_of(10);
    const std::vector<BoringDesign> designs = {design_boring(loose_boring(), quake, aims)};
    const std::pair<double, std::size_t> cases[] = {{0.6, 0}, {1.24, 0}, {1.25, 1},
                                                    {2.9, 1}, {3, 2},    {8.99, 4}};
    for (const auto& [depth_m, sample] : cases) { // between samples at 0.5, 2, 4, 6, 8 and 10 m
        AfterMeasurement test;
        test.depth_m = depth_m;
        test.replacement_ratio = 0.1;
        const auto found = review_after_treatment({test}, designs, quake, aims).comparisons[0];
        INFO(depth_m);
        CHECK(found.sample == sample);
        CHECK(found.blow_count_before == designs[0].boring.samples[sample].blow_count);
    }
}

TEST_CASE("a target blow count is kept from that count on", "[after]") {
    const TreatmentAims aims = aims_of(12);
    PlantedSite site(std::vector<Planted>(2, {0.4, 0.6}), aims);
    site.tests[0].blow_count = 12;
    site.tests[1].blow_count = 11.9;
    const auto found = review_after_treatment(site.tests, site.designs, quake, aims);
    CHECK(found.comparisons[0].target_kept == true);
    CHECK(found.comparisons[1].target_kept == false);
    CHECK_FALSE(found.comparisons[0].safety);
}

TEST_CASE("a target safety factor is kept by the blow count that the design asks for", "[after]") {
    TreatmentAims aims = aims_of(1);
    aims.target_blow_count.reset();
    aims.target_safety = SafetyTarget{1, Procedure::BoulangerIdriss2014};
    const std::vector<BoringDesign> designs = {design_boring(loose_boring(), quake, aims)};
    const double wanted = designs[0].needs[2].target_blow_count.value();
    AfterMeasurement test;
    test.depth_m = 4;
    test.replacement_ratio = 0.1;
    std::vector<AfterMeasurement> tests(4, test);
    tests[0].blow_count = wanted + 0.01;
    tests[1].blow_count = wanted - 0.01;
    tests[2].blow_count = wanted + 0.01;
    tests[2].fines_pct = 5; // cleaner than the 20 % before: less resistance
    tests[3].blow_count = 30;
    tests[3].depth_m = 0.6; // above the water of the earthquake
    const auto found = review_after_treatment(tests, designs, quake, aims);
    CHECK(found.comparisons[0].safety.value().value == Approx(1).margin(0.01));
    CHECK(found.comparisons[0].target_kept == true);
    CHECK(found.comparisons[1].target_kept == false);
    CHECK(found.comparisons[2].target_kept == false);
    CHECK_FALSE(found.comparisons[3].target_kept);
    CHECK(found.comparisons[3].left_out.empty());
}

// Meyerhof's form gives N 100 a relative density at which no voids are left of a sand with fines.
TEST_CASE("a refusal after or before treatment has no efficiency and does not end the review", "[after]") {
    Boring boring = loose_boring();
    boring.samples[0].fines_pct = boring.samples[1].fines_pct = 45;
    boring.samples[0].blow_count = 100;
    const TreatmentAims aims = aims_of(10);
    const std::vector<BoringDesign> designs = {design_boring(boring, quake, aims)};
    AfterMeasurement after_stone, on_stone;
    after_stone.depth_m = 2;
    on_stone.depth_m = 0.5;
    after_stone.replacement_ratio = on_stone.replacement_ratio = 0.1;
    after_stone.blow_count = 100;
    on_stone.blow_count = 20;
    const auto found = review_after_treatment({after_stone, on_stone}, designs, quake, aims);
    for (const auto& comparison : found.comparisons) {
        CHECK(comparison.left_out.empty());
        CHECK(std::isnan(comparison.efficiency));
        CHECK(comparison.target_kept == true);
    }
    CHECK(found.comparisons[0].relative_density_after_pct > 200);
    CHECK(found.efficiency.count == 0);
    CHECK(found.methods[0].count == 1); // nothing is predicted where N before leaves no voids
    CHECK(std::isnan(found.comparisons[1].predictions[0].blow_count_after));
}

TEST_CASE("piles that take no room have no efficiency", "[after]") {
    const TreatmentAims aims = aims_of(10);
    PlantedSite site({densified(0.4, 0.5), densified(0.4, 0.5)}, aims);
    site.tests[0].replacement_ratio = 0;
    const auto found = review_after_treatment(site.tests, site.designs, quake, aims);
    CHECK(std::isnan(found.comparisons[0].efficiency));
    CHECK(found.efficiency.count == 1);
}

TEST_CASE("what cannot be a test is refused", "[after]") {
    const TreatmentAims aims = aims_of(10);
    PlantedSite site({densified(0.4, 0.5)}, aims);
    const auto refused = [&](double AfterMeasurement::*number, double value) {
        auto tests = site.tests;
        tests[0].*number = value;
        CHECK_THROWS_AS(review_after_treatment(tests, site.designs, quake, aims), std::invalid_argument);
    };
    refused(&AfterMeasurement::replacement_ratio, 1.1);
    refused(&AfterMeasurement::replacement_ratio, -0.1);
    refused(&AfterMeasurement::replacement_ratio, NAN);
    refused(&AfterMeasurement::blow_count, -1);
    refused(&AfterMeasurement::blow_count, NAN);
    site.tests[0].boring = 1;
    CHECK_THROWS_WITH(review_after_treatment(site.tests, site.designs, quake, aims),
                      Contains("no such boring"));
}
