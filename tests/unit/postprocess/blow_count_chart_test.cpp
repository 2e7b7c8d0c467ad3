// N over the area replacement ratio: levels and the end of a method's range lie where the axes say.

#include "drawn_page.h"
#include "postprocess/curve_pens.h"
#include "postprocess/figures/blow_count_chart.h"
#include "postprocess/page.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

/// N = 10 + 50 a_s, from two points on the axis and one beyond.
BlowCountFigure one_curve() {
    BlowCountFigure figure;
    figure.title = "invented";
    figure.curves.push_back({"a method", {{0, 10}, {0.1, 15}, {0.4, 30}}});
    return figure;
}

/// Lines of the curve in the plot, neither its key (level) nor its marks (closed).
std::vector<Polyline> curve_lines(const BlowCountFigure& figure) {
    auto lines = lines_of(blow_count_chart(figure), curve_colors[0]);
    std::erase_if(lines, [](const Polyline& line) {
        return line.front().y() == line.back().y() || line.front() == line.back();
    });
    return lines;
}

} // namespace

TEST_CASE("beyond the range of its method a curve is dashed, and the key says so", "[blow_count]") {
    auto figure = one_curve();
    CHECK(curve_lines(figure).size() == 1);
    CHECK(dashed_lines(blow_count_chart(figure), curve_colors[0]) == 0);
    CHECK_FALSE(has(words_of(blow_count_chart(figure)), "dashed"));

    figure.curves[0].outside_from = 0.2; // between two points
    const auto lines = curve_lines(figure);
    REQUIRE(lines.size() == 2);
    CHECK(dashed_lines(blow_count_chart(figure), curve_colors[0]) == 1);
    CHECK(lines[0].back() == lines[1].front());
    // From 0 to 0.2 as wide as from 0.2 to 0.4; the curve is straight.
    const Vec2 inside = lines[0].back() - lines[0].front(), outside = lines[1].back() - lines[1].front();
    CHECK(inside.x() == Approx(outside.x()).margin(0.02));
    CHECK(inside.y() == Approx(outside.y()).margin(0.02));
    CHECK(has(words_of(blow_count_chart(figure)), "dashed: beyond the range of the method"));

    figure.curves[0].outside_from = 0.5;
    CHECK(dashed_lines(blow_count_chart(figure), curve_colors[0]) == 0);
}

TEST_CASE("levels of N cross the curve where it has that N", "[blow_count]") {
    auto figure = one_curve();
    const auto level_lines = [](const BlowCountFigure& f) {
        auto lines = lines_of(blow_count_chart(f), ink);
        std::erase_if(lines, [](const Polyline& line) { return std::abs(line[1].x() - line[0].x()) < 100; });
        return lines;
    };
    CHECK(level_lines(figure).empty());
    figure.target = 15;
    figure.blow_count_before = 10;
    const auto levels = level_lines(figure);
    const auto curve = curve_lines(figure).at(0);
    REQUIRE(levels.size() == 2);
    CHECK(levels[0][0].y() == Approx(curve[0].y()).margin(0.02));
    CHECK(levels[1][0].y() == Approx(curve[1].y()).margin(0.02));
    const auto words = words_of(blow_count_chart(figure));
    CHECK(has(words, "target: N = 15"));
    CHECK(has(words, "before: N = 10"));
}

TEST_CASE("measured values are circles; those beyond the axis are counted in a note", "[blow_count]") {
    auto figure = one_curve();
    CHECK(areas_of(blow_count_chart(figure), ink).empty());
    figure.measured = {{0.1, 15}, {0.2, 18}, {0.35, 25}};
    figure.measured_name = "between piles";
    const auto drawing = blow_count_chart(figure);
    const auto circles = areas_of(drawing, ink);
    REQUIRE(circles.size() == 3); // two values and the key
    CHECK((middle_of(circles[0]) - curve_lines(figure).at(0)[1]).norm() < 0.1);
    CHECK(has(words_of(drawing), "between piles"));
    CHECK(has(words_of(drawing), "1 of 3 measured values lie beyond the axis"));
}

TEST_CASE("values in another sense are open circles and reach into the axis of N", "[blow_count]") {
    auto figure = one_curve();
    figure.measured = {{0.1, 15}};
    figure.also_measured = {{0.1, 15}, {0.2, 60}};
    figure.also_measured_name = "with the stress";
    const auto drawing = blow_count_chart(figure);
    CHECK(areas_of(drawing, ink).size() == 2); // one value and the key
    CHECK(has(words_of(drawing), "with the stress"));
    const auto middle = middle_of(areas_of(drawing, ink)[0]);
    std::size_t circles = 0;
    for (const auto& line : lines_of(drawing, ink))
        circles += (middle_of(line) - middle).norm() < 0.1 ? 1 : 0;
    CHECK(circles == 1);
    CHECK_FALSE(has(words_of(drawing), "beyond the axis"));
}

TEST_CASE("a method with a value at one ratio only shows its mark", "[blow_count]") {
    auto figure = one_curve();
    figure.curves.push_back({"another", {{0.1, 12}}});
    const auto marks = areas_of(blow_count_chart(figure), curve_colors[1]);
    REQUIRE(marks.size() == 2); // and the key
    CHECK(middle_of(marks[0]).x() == Approx(curve_lines(figure).at(0)[1].x()).margin(0.1));
}

TEST_CASE("a chart without a curve on its axis is refused", "[blow_count]") {
    auto figure = one_curve();
    figure.largest_ratio = 0;
    CHECK_THROWS_AS(blow_count_chart(figure), std::invalid_argument);
    figure = one_curve();
    figure.curves[0].points = {{0.5, 30}, {0.6, 40}};
    CHECK_THROWS_AS(blow_count_chart(figure), std::invalid_argument);
    figure.curves.clear();
    CHECK_THROWS_AS(blow_count_chart(figure), std::invalid_argument);
}
