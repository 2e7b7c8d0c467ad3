// Tests between the piles as tables and in words, against the review they are made from.

#include "io/after_report.h"
#include "tests/support/designed_site.h"
#include "tests/support/rfc4180.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

solver::AfterMeasurement test_at(double depth_m, double blow_count, std::size_t boring = 0) {
    solver::AfterMeasurement test;
    test.place = "A, \"" + std::to_string(boring + 1) + "\""; // must be quoted
    test.boring = boring;
    test.depth_m = depth_m;
    test.blow_count = blow_count;
    test.replacement_ratio = 0.1;
    return test;
}

/// Sand, silt, a blow count that no density gives, and sand of the other boring.
std::vector<solver::AfterMeasurement> some_tests() {
    std::vector<solver::AfterMeasurement> tests = {test_at(2.3, 6), test_at(4.3, 4), test_at(3.3, 100),
                                                   test_at(3, 14, 1), test_at(6, 18, 1)};
    tests[0].simulated_blow_count = 12;
    tests[3].days_after = 14;
    return tests;
}

io::StrokeFit fit_with(std::optional<double> by_density, std::optional<double> by_stress = {}) {
    io::StrokeFit fit;
    fit.trials = {{1, 40, 0.9, 8, 10}, {40, 75, 1.5, 20, 28}};
    fit.by_density = by_density;
    fit.by_stress = by_stress;
    return fit;
}

struct Reported {
    DesignedSite made = designed(sound_site);
    solver::AfterReview review;

    explicit Reported(const std::vector<solver::AfterMeasurement>& tests)
        : review(review_after_treatment(tests, made.designs, made.site.quake, made.site.aims)) {}
    std::vector<io::NamedTable> tables(const io::StrokeFits& fits) const {
        return after_tables(made.site, made.designs, review, fits);
    }
    std::string summary(const io::StrokeFits& fits = {}) const {
        return after_summary(made.site, review, fits);
    }
};

/// The digits that a table has.
Approx six(double value) {
    return Approx(value).epsilon(1e-5).margin(1e-12);
}

/// Five fits beside some_tests(): found, silt, not converged, above the most strokes, below the fewest.
io::StrokeFits some_fits() {
    io::StrokeFits fits = {fit_with(5.5, 3.5), {}, fit_with({}), fit_with({}, 2.5), fit_with({})};
    fits[2]->trials.pop_back();
    fits[2]->not_converged = "pile 1, stroke 3, \"withdrawal\"";
    return fits;
}

} // namespace

TEST_CASE("every row of the tables of tests is as long as its head and has no nan", "[after]") {
    for (const auto& tests : {some_tests(), std::vector<solver::AfterMeasurement>{test_at(2.3, 12)},
                              std::vector<solver::AfterMeasurement>{test_at(4.3, 12)}}) {
        const Reported reported(tests);
        io::StrokeFits fits = some_fits();
        fits.resize(tests.size());
        CHECK(reported.tables({}).size() == 2);
        const auto tables = reported.tables(fits);
        REQUIRE(tables.size() == 3);
        const char* names[] = {"tests.csv", "scores.csv", "strokes.csv"};
        for (std::size_t t = 0; t < 3; ++t) {
            CHECK(tables[t].file == names[t]);
            const Rfc4180 table(tables[t].text);
            for (std::size_t i = 0; i < table.size(); ++i) {
                INFO(names[t] << " row " << i + 2);
                CHECK(table.row(i).size() == table.head().size());
                for (const std::string& cell : table.row(i))
                    CHECK((cell.find("nan") == std::string::npos && cell != "inf"));
            }
        }
    }
}

TEST_CASE("the tables of tests are those of the review", "[after]") {
    const Reported reported(some_tests());
    const auto tables = reported.tables(some_fits());
    const Rfc4180 tests(tables[0].text), scores(tables[1].text), strokes(tables[2].text);
    REQUIRE(tests.size() == 5);
    const auto& first = reported.review.comparisons[0];
    CHECK(tests.at(0, "place") == "A, \"1\"");
    CHECK(tests.at(0, "boring_before") == "B-1");
    CHECK(tests.at(3, "boring_before") == "B-2");
    CHECK(tests.number(0, "blow_count_before") == 5);
    CHECK(tests.number(0, "blow_count_measured") == 6);
    CHECK(tests.number(0, "blow_count_simulated") == 12);
    CHECK(tests.number(0, "blow_count_method_C") == six(first.predictions[1].blow_count_after));
    CHECK(tests.number(0, "efficiency") == six(first.efficiency));
    CHECK(tests.number(0, "safety_factor") == six(first.safety->value));
    CHECK(tests.at(0, "target_kept") == "no");
    CHECK(tests.at(2, "target_kept") == "yes");
    CHECK(tests.number(3, "days_after") == 14);
    CHECK(tests.at(0, "days_after").empty());
    CHECK(tests.at(1, "remarks") == "left out: clay or silt before treatment");
    for (const char* column : {"blow_count_method_B", "efficiency", "target_kept", "safety_factor"})
        CHECK(tests.at(1, column).empty());

    REQUIRE(scores.size() == 3 * 2 + 2 + 2); // methods, simulation, fits
    CHECK(scores.at(2, "by") == "method C");
    CHECK(scores.number(2, "count") == 4);
    CHECK(scores.number(2, "value") == six(reported.review.methods[1].mean_ratio));
    CHECK(scores.number(3, "value") == six(reported.review.methods[1].bias));
    CHECK(scores.number(6, "value") == 0.5); // 6 of 12
    CHECK(scores.at(6, "standard_deviation_or_error").empty());
    CHECK(scores.number(8, "value") == six(reported.review.efficiency.value));
    CHECK(scores.number(9, "standard_deviation_or_error") ==
          six(reported.review.density_trend.standard_error));

    REQUIRE(strokes.size() == 2 + 1 + 1 + 2 + 2); // trials, and a row that says why one ended
    CHECK(strokes.number(0, "strokes_fitted_density_alone") == 5.5);
    CHECK(strokes.number(1, "strokes") == 40);
    CHECK(strokes.number(1, "blow_count_with_lateral_stress") == 28);
    CHECK(strokes.at(3, "remarks") == "NO FIT: pile 1, stroke 3, \"withdrawal\"");
    CHECK(strokes.at(3, "strokes").empty());
    CHECK(strokes.at(4, "strokes_fitted_density_alone").empty());
}

TEST_CASE("the summary of tests says what was kept, how good the methods are and what cannot be told",
          "[after]") {
    const Reported reported(some_tests());
    const std::string text = reported.summary();
    CHECK_THAT(text, Catch::StartsWith("two borings: 5 tests between the piles, 4 compared\n") &&
                         Contains(": kept by 3 of 4 judged\n") &&
                         Contains("    NOT KEPT at A, \"1\", 2.3 m: N 6, F_L 0.") && Contains("method D") &&
                         Contains("simulation   measured over predicted N 0.50, bias "
                                  "-6.0 blows (1 test)\n") &&
                         Contains("standard error; on the high side") &&
                         Contains("D_r^2 per a_s changes by") && Contains("not for approval") &&
                         !Contains("nan") && !Contains("strokes,"));
    const std::string fitted = reported.summary(some_fits());
    CHECK_THAT(fitted, Contains("  strokes, N of density alone: median 6, quartiles 6 .. 6 (1 test); "));
    CHECK_THAT(fitted, Contains("  NO FIT at 1 test: ") && !Contains("nan"));
}

TEST_CASE("a summary of one test or of none has no nan", "[after]") {
    const std::string one = Reported({test_at(2.3, 12)}).summary();
    CHECK_THAT(one, Contains("1 test between the piles, 1 compared") && Contains("  efficiency ") &&
                        Contains(" (fit; on the high side") && Contains("too few measurements") &&
                        Contains("simulation   no test to compare with") && !Contains("nan"));
    const std::string none = Reported({test_at(4.3, 12)}).summary();
    CHECK_THAT(none, Contains("1 test between the piles, 0 compared") && Contains("kept by 0 of 0 judged") &&
                         Contains("method B     no test to compare with") && !Contains("efficiency ") &&
                         !Contains("nan"));
}

// Quartiles straight between the sorted values, at shares of n - 1 steps: of 2, 4, 6, 12 they are 3.5, 5, 7.5.
TEST_CASE("quartiles of the strokes, and how many tests are beyond them", "[after]") {
    std::vector<solver::AfterMeasurement> tests(8, test_at(2.3, 12));
    tests[5].blow_count = 7.9;  // below the 8 of a single stroke
    tests[6].blow_count = 20.1; // above the 20 of forty
    const Reported reported(tests);
    io::StrokeFits fits = {fit_with(12), fit_with(2),  {},           fit_with(6),
                           fit_with(4),  fit_with({}), fit_with({}), fit_with(30)};
    fits[7]->not_converged = "ended";
    const auto range =
        stroke_range(reported.review, fits, &io::StrokeFit::by_density, &io::StrokeTrial::blow_count);
    CHECK(range.found == 4);
    CHECK(range.low == Approx(3.5));
    CHECK(range.median == Approx(5));
    CHECK(range.high == Approx(7.5));
    CHECK(range.fewer_than_tried == 1);
    CHECK(range.more_than_tried == 1);
    CHECK_THAT(reported.summary(fits),
               Contains("  strokes, N of density alone: median 5, quartiles 4 .. 8 (4 tests); 1 below what a "
                        "single stroke gives; 1 above what 40 strokes give\n") &&
                   Contains("  strokes, N with lateral stress: none fits"));
    const auto none =
        stroke_range(reported.review, {}, &io::StrokeFit::by_density, &io::StrokeTrial::blow_count);
    CHECK(none.found == 0);
    CHECK(std::isnan(none.median));
    const auto one = stroke_range(reported.review, {fit_with(7)}, &io::StrokeFit::by_density,
                                  &io::StrokeTrial::blow_count);
    CHECK(one.low == 7);
    CHECK(one.high == 7);
}
