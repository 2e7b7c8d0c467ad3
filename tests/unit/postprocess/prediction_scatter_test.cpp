// Measured against predicted N: points and lines of deviation on equal axes.

#include "drawn_page.h"
#include "postprocess/curve_pens.h"
#include "postprocess/figures/prediction_scatter.h"
#include "postprocess/page.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

ScatterFigure one_method(std::vector<Vec2> points) {
    ScatterFigure figure;
    figure.title = "invented";
    figure.series.push_back({"a method", std::move(points)});
    return figure;
}

/// Lines through the origin: equality, above, below.
std::vector<Polyline> rays(const ScatterFigure& figure) {
    auto lines = lines_of(prediction_scatter(figure), ink);
    std::erase_if(lines, [](const Polyline& line) { return line[0].y() == line[1].y(); });
    return lines;
}

double distance_from(const Polyline& line, const Vec2& point) {
    const Vec2 along = (line[1] - line[0]).normalized(), to = point - line[0];
    return std::abs(along.x() * to.y() - along.y() * to.x());
}

} // namespace

TEST_CASE("points of the stated ratio lie on their line", "[scatter]") {
    const auto figure = one_method({{20, 20}, {20, 26}, {20, 14}});
    const auto lines = rays(figure);
    REQUIRE(lines.size() == 3);
    const Vec2 equal = lines[0][1] - lines[0][0];
    CHECK(equal.x() == Approx(-equal.y())); // equal axes
    const auto marks = lines_of(prediction_scatter(figure), curve_colors[0]);
    REQUIRE(marks.size() == 4); // and the key
    for (std::size_t k = 0; k < 3; ++k)
        CHECK(distance_from(lines[k], middle_of(marks[k])) < 0.1);
    CHECK(middle_of(marks[1]).y() < middle_of(marks[2]).y());  // more measured lies higher
    CHECK(dashed_lines(prediction_scatter(figure), ink) == 3); // two and the key
}

TEST_CASE("incomplete pairs are neither drawn nor counted", "[scatter]") {
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    const auto drawing = prediction_scatter(one_method({{20, 20}, {unknown, 26}, {20, unknown}}));
    CHECK(lines_of(drawing, curve_colors[0]).size() == 2);
    CHECK(has(words_of(drawing), "a method (1 point)"));
    CHECK_THROWS_AS(prediction_scatter(one_method({{unknown, 26}})), std::invalid_argument);
}

TEST_CASE("each method has its own shape", "[scatter]") {
    auto figure = one_method({{20, 20}});
    figure.series.push_back({"another", {{20, 20}}});
    const auto drawing = prediction_scatter(figure);
    const auto first = lines_of(drawing, curve_colors[0]).at(0);
    const auto second = areas_of(drawing, curve_colors[1]).at(0); // solid
    CHECK(first.size() != second.size());
    CHECK(areas_of(drawing, curve_colors[0]).empty()); // open
}
