// One test between the piles of an invented site: the strokes whose simulation gives its blow count.

#include "io/stroke_fit.h"
#include "tests/support/designed_site.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <iterator>

using namespace interpile;
using namespace interpile::testing;

namespace {

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

// A blow count taken from a trial must give back the strokes of that trial.
TEST_CASE("the strokes of a trial are found again from its blow counts", "[after]") {
    const auto made = designed(sound_site);
    std::vector<int> told;
    solver::RunObserver watch;
    const auto tell = [&](int number, int all) {
        told.push_back(number);
        CHECK(all == static_cast<int>(std::size(io::tried_strokes)));
    };
    const auto first =
        fit_strokes(made.site, made.designs, review_of(made, {test_at(5.3, 12, 0.2)}), tell, watch);
    REQUIRE(first.size() == 1);
    REQUIRE(first[0]);
    CHECK(first[0]->not_converged.empty());
    CHECK(told == std::vector<int>{1, 2, 3, 4, 5, 6});
    const auto& trials = first[0]->trials;
    for (const auto& trial : trials)
        std::printf("%2d strokes: D_r %.1f, K %.2f, N %.1f, with lateral stress %.1f\n", trial.strokes,
                    trial.relative_density_pct, trial.lateral_stress_ratio, trial.blow_count,
                    trial.stressed_blow_count);
    REQUIRE(trials.size() == std::size(io::tried_strokes));
    const double stress = made.designs[0].at_boring[4].effective_kPa;
    for (std::size_t i = 0; i < trials.size(); ++i) {
        INFO(trials[i].strokes << " strokes");
        CHECK(trials[i].strokes == io::tried_strokes[i]);
        // Meyerhof (1957), from memory
        CHECK(trials[i].blow_count ==
              Approx(std::pow(trials[i].relative_density_pct / 21, 2) * (stress + 70) / 100));
        CHECK(trials[i].lateral_stress_ratio > 0.5);
        CHECK(trials[i].stressed_blow_count > trials[i].blow_count);
        CHECK((i == 0 || trials[i].blow_count > trials[i - 1].blow_count)); // trend T4 of the field
    }
    CHECK(first[0]->default_blow_count == trials[3].blow_count); // 10: 1 m to both sides by 0.2 m net rise

    // The same fit with N measured put on trials: the six simulations are shared by all tests of the sample.
    told.clear();
    const auto found = fit_strokes(
        made.site, made.designs,
        review_of(made,
                  {test_at(5.3, trials[2].blow_count, 0.2), test_at(5.4, trials[3].stressed_blow_count, 0.2),
                   test_at(5.2, trials[0].blow_count / 2, 0.2), test_at(4.3, 12, 0.087)}), // silt
        tell, watch);
    CHECK(told.size() == 6);
    REQUIRE(found.size() == 4);
    CHECK(found[0]->by_density.value() == Approx(5));
    CHECK(found[1]->by_stress.value() == Approx(10));
    CHECK_FALSE(found[2]->by_density);
    CHECK_FALSE(found[2]->by_stress);
    CHECK_FALSE(found[3]);
}
