// The profile of a boring: where depths and values lie on the page, what is said of values it cannot show.

#include "drawn_page.h"
#include "postprocess/curve_pens.h"
#include "postprocess/figures/depth_profile.h"
#include "postprocess/page.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>

using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/// Points 1 m apart from 3 m on.
ProfileFigure one_boring(std::vector<double> values) {
    ProfileFigure figure;
    figure.title = "invented";
    figure.water_depth_m = 1;
    figure.quake_water_depth_m = 0.5;
    figure.deepest_m = 10;
    figure.bands = {{0, 4, "fine sand", true}, {4, 4.1, "silt seam", false}, {4.1, 10, "gravel", true}};
    ProfileCurve curve{"measured", {}};
    for (const double value : values)
        curve.points.emplace_back(value, 3.0 + static_cast<double>(curve.points.size()));
    figure.panels.push_back({"N (-)", {curve}, 0, 50, std::nullopt, ""});
    return figure;
}

/// Pieces of the curve in the plot; its key is a line of one height, marks are closed.
std::vector<Polyline> curve_pieces(const ProfileFigure& figure) {
    auto lines = lines_of(depth_profile(figure), curve_colors[0]);
    std::erase_if(lines, [](const Polyline& line) {
        return line.front().y() == line.back().y() || line.front() == line.back();
    });
    return lines;
}

} // namespace

TEST_CASE("depth goes downward and values to the right, to scale", "[profile]") {
    const auto lines = curve_pieces(one_boring({10, 20, 40}));
    REQUIRE(lines.size() == 1);
    const auto& line = lines[0];
    REQUIRE(line.size() == 3);
    CHECK(line[1].y() > line[0].y());
    CHECK(line[2].y() - line[1].y() == Approx(line[1].y() - line[0].y()).margin(0.02)); // 1 m each
    CHECK(line[2].x() - line[1].x() == Approx(2 * (line[1].x() - line[0].x())).margin(0.02));
    // The axis is 10 m long: the same meter with a boring of twice the depth is half as long.
    auto deep = one_boring({10, 20, 40});
    deep.deepest_m = 20;
    CHECK(curve_pieces(deep).at(0)[1].y() - curve_pieces(deep).at(0)[0].y() ==
          Approx(0.5 * (line[1].y() - line[0].y())).margin(0.02));
}

TEST_CASE("a depth without value breaks the line of a profile", "[profile]") {
    CHECK(curve_pieces(one_boring({10, 20, 15, 30, 40})).size() == 1);
    CHECK(curve_pieces(one_boring({10, 20, unknown, 30, 40})).size() == 2);
}

TEST_CASE("values beyond the axis are marked at its side and said in a note", "[profile]") {
    CHECK_FALSE(has(words_of(depth_profile(one_boring({10, 50}))), "values beyond"));
    const auto figure = one_boring({10, 72, 64});
    CHECK(
        has(words_of(depth_profile(figure)), "values beyond its axis (N (-), measured: 2 of 64.0 to 72.0)"));
    const auto line = curve_pieces(figure).at(0);
    CHECK(line.at(1).x() == line.at(2).x()); // both at the side
    std::size_t triangles = 0;
    for (const auto& area : areas_of(depth_profile(figure), curve_colors[0]))
        triangles += std::any_of(area.begin(), area.end(),
                                 [&](const Vec2& corner) { return corner.x() > line[1].x() + 2; });
    CHECK(triangles == 2);
}

TEST_CASE("every point of a boring has its mark, of a sounding with dense readings only some", "[profile]") {
    const auto marks = [](int count) {
        auto figure = one_boring({});
        for (int k = 0; k < count; ++k)
            figure.panels[0].curves[0].points.emplace_back(20, 10.0 * k / count);
        auto lines = lines_of(depth_profile(figure), curve_colors[0]);
        std::erase_if(lines, [](const Polyline& line) { return line.front() != line.back(); });
        return lines.size() - 1; // without the key
    };
    CHECK(marks(20) == 20);
    CHECK(marks(500) < 20);
    CHECK(marks(500) > 5);
}

TEST_CASE("the limit is a dashed line with its name", "[profile]") {
    auto figure = one_boring({10, 20});
    CHECK(dashed_lines(depth_profile(figure), ink) == 0);
    figure.panels[0].limit = 15;
    figure.panels[0].limit_name = "least demanded";
    CHECK(dashed_lines(depth_profile(figure), ink) == 2); // panel and key
    CHECK(has(words_of(depth_profile(figure)), "least demanded"));
    figure.panels[0].limit = 60;
    CHECK(dashed_lines(depth_profile(figure), ink) == 1);
    CHECK(has(words_of(depth_profile(figure)), "least demanded (beyond the axis)"));
}

TEST_CASE("names of layers stand in the column or, where they do not fit, in a note", "[profile]") {
    const auto words = words_of(depth_profile(one_boring({10, 20})));
    CHECK(has(words, "fine sand"));
    CHECK(has(words, "Layers without room for their names: 4.0 to 4.1 m silt seam."));
    CHECK(has(words, "not sand"));
    auto figure = one_boring({10, 20});
    figure.bands.erase(figure.bands.begin() + 1);
    CHECK_FALSE(has(words_of(depth_profile(figure)), "not sand"));
    CHECK_FALSE(has(words_of(depth_profile(figure)), "Layers without room"));
}

TEST_CASE("water above the ground surface has room above it", "[profile]") {
    auto figure = one_boring({10, 20});
    figure.quake_water_depth_m = -2;
    CHECK(has(words_of(depth_profile(figure)), "in the earthquake, 2.00 m above ground"));
    constexpr Color water_blue{0.10, 0.32, 0.58};
    const auto top_of_frame = lines_of(depth_profile(figure), Color{0.1, 0.1, 0.1});
    double highest_frame = 1e9, highest_water = 1e9;
    for (const auto& line : top_of_frame)
        for (const auto& corner : line)
            highest_frame = std::min(highest_frame, corner.y());
    for (const auto& line : lines_of(depth_profile(figure), water_blue))
        for (const auto& corner : line)
            highest_water = std::min(highest_water, corner.y());
    CHECK(highest_water > highest_frame);
}

TEST_CASE("a profile that cannot be drawn is refused", "[profile]") {
    auto figure = one_boring({10, 20});
    figure.panels[0].high = figure.panels[0].low;
    CHECK_THROWS_AS(depth_profile(figure), std::invalid_argument);
    figure = one_boring({});
    figure.deepest_m = 0;
    CHECK_THROWS_AS(depth_profile(figure), std::invalid_argument);
    figure = one_boring({10, 20});
    figure.panels.resize(5, figure.panels[0]);
    CHECK_THROWS_AS(depth_profile(figure), std::invalid_argument);
    figure.panels.clear();
    CHECK_THROWS_AS(depth_profile(figure), std::invalid_argument);
}
