#include "solver/design_methods/blow_count_chart.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>
#include <utility>
#include <vector>

using namespace interpile::solver;

namespace {

/// Invented: N1 = 2 + N0 + 100 a_s + 5 N0 a_s, linear in each of N0 and a_s, so that bilinear reading is exact.
double invented(double n0, double ratio) {
    return 2 + n0 + 100 * ratio + 5 * n0 * ratio;
}

std::vector<ChartPoint> invented_points() {
    std::vector<ChartPoint> points;
    for (const double ratio : {0.15, 0.05, 0.10}) // in any order
        for (const double n0 : {10.0, 2.0, 5.0, 16.0})
            points.push_back({n0, ratio, invented(n0, ratio)});
    return points;
}

} // namespace

TEST_CASE("a chart is read bilinearly, forward and back", "[design]") {
    const BlowCountChart chart(invented_points());
    for (const double n0 : {2.0, 3.7, 5.0, 12.0, 16.0})
        for (const double ratio : {0.05, 0.06, 0.10, 0.13, 0.15}) {
            const auto forward = predict_blow_count(chart, {100, 10, n0}, ratio);
            CHECK(forward.outside.empty());
            CHECK(forward.blow_count_after == Approx(invented(n0, ratio)));
            const auto back = require_blow_count(chart, {100, 10, n0}, invented(n0, ratio) * (1 - 1e-15));
            if (ratio > 0.05) // rounding may fall off the lowest curve
                CHECK(back.replacement_ratio == Approx(ratio));
        }
}

TEST_CASE("a chart refuses what lies outside its points", "[design]") {
    const BlowCountChart chart(invented_points());
    for (const auto& [n0, ratio] : {std::pair{1.9, 0.10}, {16.1, 0.10}, {5.0, 0.049}, {5.0, 0.151}}) {
        const auto result = predict_blow_count(chart, {100, 10, n0}, ratio);
        CHECK_FALSE(result.outside.empty());
        CHECK(std::isnan(result.blow_count_after));
    }
    CHECK(std::isnan(require_blow_count(chart, {100, 10, 5}, invented(5, 0.151)).replacement_ratio));
    CHECK(std::isnan(require_blow_count(chart, {100, 10, 5}, invented(5, 0.049)).replacement_ratio));
    // Curves of unequal length: between a long and a short one only where both are known, on the long one everywhere.
    const BlowCountChart ragged({{2, 0.05, 8}, {20, 0.05, 26}, {2, 0.10, 12}, {8, 0.10, 20}});
    CHECK(ragged.blow_count_after(15, 0.05) == Approx(21));
    CHECK_FALSE(ragged.blow_count_after(15, 0.07));
    CHECK(ragged.blow_count_after(8, 0.075) == Approx(17));
    CHECK(ragged.replacement_ratio(15, 21) == Approx(0.05));
    CHECK_FALSE(ragged.replacement_ratio(15, 22));
    CHECK(predict_blow_count(chart, {100, 21, 5}, 0.1).remarks.size() == 1);
    CHECK(predict_blow_count(chart, {100, 20, 5}, 0.1).remarks.empty());
    CHECK(require_blow_count(chart, {100, 10, 12}, 10).replacement_ratio == 0);
}

TEST_CASE("a chart that cannot be read back is refused", "[design]") {
    using Catch::Matchers::Contains;
    CHECK_THROWS_WITH(BlowCountChart({}), Contains("no points"));
    CHECK_THROWS_WITH(BlowCountChart({{2, 0.1, 8}}), Contains("one point"));
    CHECK_THROWS_WITH(BlowCountChart({{2, 0.1, 8}, {2, 0.1, 9}}), Contains("given twice"));
    CHECK_THROWS_WITH(BlowCountChart({{2, 0.1, 8}, {9, 0.1, 20}, {2, 0.2, 10}, {9, 0.2, 19}}),
                      Contains("a_s = 0.2 is not above a_s = 0.1"));
    CHECK_THROWS_AS(BlowCountChart({{-2, 0.1, 8}, {9, 0.1, 20}}), std::invalid_argument);
    CHECK_THROWS_AS(BlowCountChart({{2, 1.1, 8}, {9, 1.1, 20}}), std::invalid_argument);
}
