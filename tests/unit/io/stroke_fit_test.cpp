// Strokes that give a measured blow count: between trials; simulations that stop or cannot begin. One that runs is in
// tests/verification/stroke_fit_test.cpp.

#include "io/stroke_fit.h"
#include "tests/support/designed_site.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

std::vector<io::StrokeTrial> trials_of(const std::vector<std::pair<int, double>>& strokes_and_counts) {
    std::vector<io::StrokeTrial> trials;
    for (const auto& [strokes, count] : strokes_and_counts)
        trials.push_back({strokes, 0, 0, count, 2 * count});
    return trials;
}

/// Counts increments and asks to stop after so many; negative: never.
struct Watch final : solver::RunObserver {
    explicit Watch(int most) : most_increments(most) {}
    void on_increment(const solver::IncrementRecord&) override { ++increments; }
    bool stop_requested() override { return most_increments >= 0 && increments >= most_increments; }
    int most_increments, increments = 0;
};

const auto silent = [](int, int) {};

solver::AfterMeasurement test_at(double depth_m, double blow_count, double replacement_ratio) {
    solver::AfterMeasurement test;
    test.place = "A-1";
    test.depth_m = depth_m;
    test.blow_count = blow_count;
    test.replacement_ratio = replacement_ratio;
    return test;
}

solver::AfterReview review_of(const DesignedSite& made, const std::vector<solver::AfterMeasurement>& tests) {
    return review_after_treatment(tests, made.designs, made.site.quake, made.site.aims);
}

} // namespace

TEST_CASE("strokes between trials are straight in their logarithm", "[after]") {
    const auto trials = trials_of({{1, 4}, {2, 6}, {5, 7}, {20, 11}});
    const auto at = [&](double count) { return io::strokes_at(trials, &io::StrokeTrial::blow_count, count); };
    CHECK(at(4).value() == Approx(1));
    CHECK(at(6).value() == Approx(2));
    CHECK(at(11).value() == Approx(20));
    CHECK(at(5).value() == Approx(std::sqrt(2.0))); // middle of 1 and 2
    CHECK(at(9).value() == Approx(10));             // middle of 5 and 20
    CHECK(at(10).value() == Approx(5 * std::pow(4, 0.75)));
    CHECK(io::strokes_at(trials, &io::StrokeTrial::stressed_blow_count, 18).value() == Approx(10));
    CHECK_FALSE(at(3.99));
    CHECK_FALSE(at(11.01));
    CHECK_FALSE(at(NAN));
    CHECK_FALSE(io::strokes_at({}, &io::StrokeTrial::blow_count, 5));
    CHECK_FALSE(io::strokes_at(trials_of({{1, 5}}), &io::StrokeTrial::blow_count, 5));
}

TEST_CASE("where strokes change nothing the next rise is taken", "[after]") {
    const auto trials = trials_of({{1, 4}, {2, 4}, {5, 8}});
    CHECK(io::strokes_at(trials, &io::StrokeTrial::blow_count, 4).value() == Approx(2));
    CHECK(io::strokes_at(trials, &io::StrokeTrial::blow_count, 6).value() == Approx(std::sqrt(10.0)));
}

TEST_CASE("simulations stop when asked to, within one of them", "[after]") {
    const auto made = designed(sound_site);
    const auto review = review_of(made, {test_at(2.3, 12, 0.1), test_at(3.3, 12, 0.1)});
    Watch watch(3);
    int begun = 0;
    const auto tell = [&](int number, int all) {
        begun = number;
        CHECK(all == 12);
    };
    const auto fits = fit_strokes(made.site, made.designs, review, tell, watch);
    CHECK(begun == 1);
    CHECK(watch.increments == 3);
    REQUIRE(fits.size() == 2);
    CHECK_FALSE(fits[0]);
    CHECK_FALSE(fits[1]);
}

// Rows at 0.4 of the spacing: piles touch from a_s = pi/4 x 0.4 = 0.314 on. At a_s 0.01 piles of 3 m are 26.6 m apart.
TEST_CASE("a ratio as built that no cell can hold is told of its test, the others go on", "[after]") {
    Watch watch(0); // a simulation would stop the fit
    const auto reason = [&](const std::string& text, double replacement_ratio) {
        const auto made = designed(text);
        const auto fits = fit_strokes(made.site, made.designs,
                                      review_of(made, {test_at(2.3, 12, replacement_ratio)}), silent, watch);
        return fits[0] ? fits[0]->not_converged : "simulated";
    };
    const auto rows =
        site_with({{"pattern = \"square\"",
                    "pattern = \"rectangular\"\nrow_spacing_ratio = 0.4\nlargest_replacement_ratio = 0.3"}});
    CHECK_THAT(reason(rows, 0.35), Contains("would overlap"));
    CHECK(reason(rows, 0.2) == "simulated");
    const auto wide = site_with(
        {{"\ndiameter_m = 0.7", "\ndiameter_m = 3"}, {"casing_diameter_m = 0.4", "casing_diameter_m = 1.5"}});
    CHECK_THAT(reason(wide, 0.01), Contains("layout.spacing_m"));
}

// Close piles in loose shallow sand, 31 kPa: the first withdrawal finds no equilibrium.
TEST_CASE("a simulation that does not converge gives no fit and says where it ended", "[after]") {
    const auto made = designed(sound_site);
    Watch watch(-1);
    const auto review = review_of(made, {test_at(2.3, 12, 0.2)});
    const auto fits = fit_strokes(made.site, made.designs, review, silent, watch);
    REQUIRE(fits[0]);
    CHECK_THAT(fits[0]->not_converged, Contains("pile 1, stroke") && Contains("no equilibrium"));
    CHECK_FALSE(fits[0]->by_density);
    CHECK_FALSE(fits[0]->by_stress);
    CHECK(fits[0]->default_blow_count == 0);
}

TEST_CASE("nothing is simulated where nothing is compared", "[after]") {
    const auto made = designed(sound_site);
    Watch watch(-1);
    const auto fits = fit_strokes(
        made.site, made.designs, review_of(made, {test_at(4.3, 12, 0.1)}),
        [](int, int) { FAIL("simulated"); }, watch);
    REQUIRE(fits.size() == 1);
    CHECK_FALSE(fits[0]);
    CHECK(fit_strokes(made.site, made.designs, review_of(made, {}), silent, watch).empty());
}
