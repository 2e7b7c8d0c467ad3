// Density and lateral stress over the spacing: points lie where the axes say.

#include "drawn_page.h"
#include "postprocess/curve_pens.h"
#include "postprocess/figures/spacing_curves.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>

using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// D_r falls by 10 % per 0.5 m; the weakest place is 5 points lower; K falls.
SpacingFigure two_curves() {
    SpacingFigure figure;
    figure.title = "invented";
    figure.curves = {{"D_r before 30 %", {{2.0, 60, 55, 1.5}, {1.5, 70, 65, 2.0}, {2.5, 50, 45, 1.0}}},
                     {"D_r before 50 %", {{1.5, 75, 71, 2.2}, {2.0, none, none, none}, {2.5, 65, 61, 1.2}}}};
    return figure;
}

/// Lines with more than one segment or with the ends of a curve, neither leads of names nor marks.
std::vector<Polyline> curves_of(const SpacingFigure& figure, std::size_t curve) {
    auto lines = lines_of(spacing_curves(figure), curve_colors[curve]);
    std::erase_if(lines,
                  [](const Polyline& line) { return std::abs(line.back().x() - line.front().x()) < 50; });
    return lines;
}

} // namespace

TEST_CASE("mean, weakest place and lateral stress are curves in the order of the spacing", "[spacing]") {
    const auto lines = curves_of(two_curves(), 0);
    REQUIRE(lines.size() == 3); // weakest, mean, K
    for (const auto& line : lines) {
        REQUIRE(line.size() == 3);
        CHECK(line[0].x() < line[1].x());
        CHECK(line[1].x() - line[0].x() == Approx(line[2].x() - line[1].x()).margin(0.02)); // even spacings
        CHECK(line[1].y() - line[0].y() == Approx(line[2].y() - line[1].y()).margin(0.02)); // even values
        CHECK(line[0].y() < line[2].y()); // falling: down the page
    }
    // The weakest place lies half a step of the mean below it: 5 of 10 points.
    CHECK(lines[0][0].y() - lines[1][0].y() ==
          Approx(0.5 * (lines[1][1].y() - lines[1][0].y())).margin(0.02));
    CHECK(lines[2][0].y() > lines[0][2].y()); // K stands in a panel of its own below
    CHECK(dashed_lines(spacing_curves(two_curves()), curve_colors[0]) == 1);
    CHECK(curves_of(two_curves(), 1).at(0).size() == 2); // a member without result is left out
}

TEST_CASE("axis and curves have their names", "[spacing]") {
    auto figure = two_curves();
    const auto words = words_of(spacing_curves(figure));
    for (const char* part :
         {"spacing s (m)", "before 30 %", "before 50 %", "at the weakest place", "Simulated values"})
        CHECK(has(words, part));
    figure.over_replacement_ratio = true;
    CHECK(has(words_of(spacing_curves(figure)), "area replacement ratio"));
}

TEST_CASE("a name too long to stand beside its curve stands in the key", "[spacing]") {
    auto figure = two_curves();
    figure.curves[0].name = "a factor with a long name 12.5 kPa";
    CHECK(has(words_of(spacing_curves(figure)), figure.curves[0].name));
    // The plot takes the place of the names.
    CHECK(curves_of(figure, 0)[0].back().x() > curves_of(two_curves(), 0)[0].back().x() + 20);
}

TEST_CASE("points of a sample are not joined", "[spacing]") {
    auto figure = two_curves();
    figure.joined = false;
    CHECK(curves_of(figure, 0).empty());
}

TEST_CASE("a figure without any density is refused", "[spacing]") {
    SpacingFigure figure;
    CHECK_THROWS_AS(spacing_curves(figure), std::invalid_argument);
    figure.curves = {{"none", {{1.5, none, none, none}}}};
    CHECK_THROWS_AS(spacing_curves(figure), std::invalid_argument);
}
