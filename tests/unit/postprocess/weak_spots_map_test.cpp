// The map of built piles: to scale, grades apart without color, no remark lost.

#include "drawn_page.h"
#include "postprocess/figures/weak_spots_map.h"
#include "postprocess/label_places.h"
#include "postprocess/page.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <limits>

using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

constexpr Color gray_edge{0.30, 0.30, 0.30}, deviating_edge{0.72, 0.30, 0.02};

MapPile pile_at(const std::string& name, double x_m, double y_m, SpotGrade grade = SpotGrade::AsOrdered) {
    return {name, {x_m, y_m}, {x_m, y_m}, 0.8, grade, ""};
}

WeakSpotsMap map_of(std::vector<MapPile> piles) {
    WeakSpotsMap map;
    map.title = "invented";
    map.piles = std::move(piles);
    return map;
}

double width_of_outline(const Polyline& outline) {
    const auto [low, high] = std::minmax_element(outline.begin(), outline.end(),
                                                 [](const Vec2& a, const Vec2& b) { return a.x() < b.x(); });
    return high->x() - low->x();
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
        ++n;
    return n;
}

/// With common blanks in place of those that keep a remark together.
std::string plain_blanks(const std::string& text) {
    static const std::string joining = "\u00a0";
    std::string all;
    for (std::size_t at = 0; at < text.size(); ++at)
        if (text.compare(at, joining.size(), joining) == 0) {
            all += ' ';
            at += joining.size() - 1;
        } else {
            all += text[at];
        }
    return all;
}

} // namespace

TEST_CASE("circles of piles are to the scale of both axes, y upward", "[map]") {
    const auto drawing = weak_spots_map(map_of({pile_at("A", 0, 0), pile_at("B", 2, 0), pile_at("C", 0, 2)}));
    const auto circles = lines_of(drawing, gray_edge);
    REQUIRE(circles.size() == 4); // and the key
    const Vec2 a = middle_of(circles[0]), b = middle_of(circles[1]), c = middle_of(circles[2]);
    CHECK(b.x() - a.x() == Approx(a.y() - c.y()).margin(0.02));
    CHECK(width_of_outline(circles[0]) == Approx(0.4 * (b.x() - a.x())).margin(0.1)); // 0.8 m of 2 m
}

TEST_CASE("grades differ by line and hatch, not by color alone", "[map]") {
    const auto as_ordered = weak_spots_map(map_of({pile_at("A", 0, 0)}));
    CHECK(dashed_lines(as_ordered, ink) == 0);
    CHECK(lines_of(as_ordered, deviating_edge).empty());
    const auto missing = weak_spots_map(map_of({pile_at("A", 0, 0, SpotGrade::NotRecorded)}));
    CHECK(dashed_lines(missing, ink) == 2); // map and key
    CHECK(has(words_of(missing), "not recorded (1 pile)"));
    const auto deviating = weak_spots_map(map_of({pile_at("A", 0, 0, SpotGrade::Deviates)}));
    CHECK(lines_of(deviating, deviating_edge).size() > 10); // two outlines and the hatch
    CHECK(has(words_of(deviating), "deviates from the order (1 pile)"));
}

TEST_CASE("a pile built elsewhere is drawn there, with an arrow from its ordered place", "[map]") {
    const std::string arrow = "from the ordered to the built place";
    auto map = map_of({pile_at("A", 0, 0), pile_at("B", 2, 0), pile_at("C", 4, 0)});
    CHECK_FALSE(has(words_of(weak_spots_map(map)), arrow));
    map.piles[1].built_m = {2.5, 0};
    const auto drawing = weak_spots_map(map);
    CHECK(has(words_of(drawing), arrow));
    const auto circles = lines_of(drawing, gray_edge);
    const double a = middle_of(circles.at(0)).x(), c = middle_of(circles.at(2)).x();
    CHECK(middle_of(circles.at(1)).x() == Approx(a + 2.5 / 4 * (c - a)).margin(0.02));
}

TEST_CASE("every remark stands on a crowded map or in its note", "[map]") {
    std::vector<MapPile> piles;
    for (int k = 0; k < 120; ++k) {
        piles.push_back(
            pile_at(fmt::format("Q{:03}", k), 1.6 * (k % 20), 1.6 * (k / 20), SpotGrade::Deviates));
        piles.back().remark = "short 0.6 m";
    }
    const auto words = plain_blanks(words_of(weak_spots_map(map_of(piles))));
    CHECK(has(words, "Without room on the map: "));
    std::size_t remarks = 0;
    for (const auto& pile : piles)
        remarks += has(words, pile.name + ": short 0.6 m");
    CHECK(remarks == piles.size());
    CHECK(count(words, "short 0.6 m") == piles.size()); // none twice
    // As ordered they need no remark.
    for (auto& pile : piles)
        pile.grade = SpotGrade::AsOrdered;
    CHECK_FALSE(has(words_of(weak_spots_map(map_of(piles))), "short"));
}

TEST_CASE("words around circles neither overlap nor leave the frame", "[map]") {
    const PageBox frame{{0, 0}, {200, 150}};
    std::vector<PageBox> marks;
    std::vector<Vec2> centers;
    for (int k = 0; k < 48; ++k) {
        centers.emplace_back(12 + 25 * (k % 8), 12 + 25 * (k / 8));
        marks.push_back({centers.back() - Vec2(5, 5), centers.back() + Vec2(5, 5)});
    }
    LabelPlaces places(frame, marks);
    std::vector<PageBox> placed;
    for (const auto& center : centers)
        if (const auto box = places.place(center, 5, {40, 7}))
            placed.push_back(*box);
    CHECK(placed.size() >= 12);
    CHECK(placed.size() < centers.size()); // 48 words do not fit between the rows
    for (std::size_t i = 0; i < placed.size(); ++i) {
        CHECK(overlap_area(placed[i], frame) == Approx(40 * 7));
        for (std::size_t k = 0; k < i; ++k)
            CHECK(overlap_area(placed[i], placed[k]) == 0);
        for (const auto& mark : marks)
            CHECK(overlap_area(placed[i], mark) < 0.05 * 40 * 7);
    }
}

TEST_CASE("only a pile without record may lack its built place", "[map]") {
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    auto map = map_of({pile_at("A", 0, 0, SpotGrade::NotRecorded)});
    map.piles[0].built_m = {unknown, unknown};
    CHECK_NOTHROW(weak_spots_map(map));
    map.piles[0].grade = SpotGrade::AsOrdered;
    CHECK_THROWS_WITH(weak_spots_map(map), "pile A has no built place");
    map.piles[0] = pile_at("A", 0, 0);
    map.piles[0].diameter_m = 0;
    CHECK_THROWS_AS(weak_spots_map(map), std::invalid_argument);
    CHECK_THROWS_AS(weak_spots_map(map_of({})), std::invalid_argument);
}

TEST_CASE("the foot does not call records simulated") {
    const auto words = words_of(weak_spots_map(map_of({pile_at("P1", 0, 0)})));
    CHECK(has(words, "To be checked by a licensed engineer against local codes and post-treatment tests"));
    CHECK_FALSE(has(words, "imulated"));
}
