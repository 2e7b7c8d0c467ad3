// What `check` prints about a case.

#include "io/case_report.h"
#include "io/layout_map.h"
#include "io/run_estimate.h"
#include "tests/support/case_text.h"
#include "tests/support/has_pattern.h"

#include <catch2/catch.hpp>

using namespace interpile;
using testing::changed;
using testing::sound_case;

TEST_CASE("the map shows every pile with its place in the order of work") {
    const std::vector<mesh::Vec2> centers = {{0, 0}, {2, 0}, {0, 2}, {2, 2}};
    CHECK(io::layout_map(centers, {{0}, {3}, {1, 2}}) ==
          "    3       4\n"
          "   (3)     (2)\n"
          "\n"
          "    1       2\n"
          "   (1)     (3)\n"
          "    x 0 .. 2 m to the right, y 0 .. 2 m upward; (n) is "
          "the place in the order of work\n");
    CHECK(io::order_of_work({{0}, {3}, {1, 2}}) == "    1, 4, 2+3\n");
    CHECK_THAT(io::layout_map({{3, 4}}, {{0}}), Catch::Contains("1\n   (1)"));
    std::vector<mesh::Vec2> many;
    for (int i = 0; i < 40; ++i)
        many.emplace_back(i, 0);
    CHECK_THAT(io::layout_map(many, {}), Catch::Contains("too many"));
}

TEST_CASE("defaults are marked with their source, given values are not") {
    const std::string text = io::configuration_text(io::parse_case(sound_case, "four.toml"));
    CHECK_THAT(text, interpile::testing::HasPattern("layout.spacing_m +(=) 1\\.7\n"));
    CHECK_THAT(text, interpile::testing::HasPattern("ground.e_max +(=) 0\\.977 +default: Toyoura"));
}

TEST_CASE("derived numbers by hand") {
    const std::string text = io::case_report(io::parse_case(sound_case, "four.toml"));
    CHECK_THAT(text, Catch::Contains("66.8"));             // 25.5 + 85.5 - 44.145
    CHECK_THAT(text, Catch::Contains("2.89 m2 per pile")); // 1.7^2
    CHECK_THAT(text, Catch::Contains("0.1332"));           // pi 0.49/4 / 2.89
    CHECK_THAT(text, Catch::Contains("0.3848 m2 per pile"));
    CHECK_THAT(text, Catch::Contains("casing pass, then 2 strokes"));
    CHECK_THAT(text, interpile::testing::HasPattern(
                         "watched: centroid +\\(0\\.85, 0\\.85\\) m, mean within 0\\.17 m\n"));
    CHECK_THAT(text, !Catch::Contains("target relative density"));
    CHECK_THAT(text, Catch::Contains("not a prediction"));
    CHECK_THAT(text, Catch::Contains("licensed practice"));
}

TEST_CASE("the estimate counts cells, unknowns and increments of every group") {
    const auto c = io::parse_case(sound_case, "four.toml");
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : c.plan.piles)
        centers.push_back(pile.center_m);
    const auto grid = mesh::make_grid(c.domain, centers, c.grid);
    const auto estimate = io::estimate_run(c, grid);
    CHECK(estimate.cells == grid.cells_x * grid.cells_y);
    CHECK(estimate.unknowns == 2 * (grid.cells_x + 1) * (grid.cells_y + 1) + 1);
    CHECK(estimate.increments == 4 * (20 + 4 * 6)); // 2 strokes of two halves each
    const auto together = io::parse_case(
        changed(sound_case, "kind = \"listed\"\nsequence = [1, 4, 2, 3]", "kind = \"together\""),
        "four.toml");
    CHECK(io::estimate_run(together, grid).increments == 20 + 4 * 6);
    CHECK(io::estimate_run(together, grid).time_s < estimate.time_s);
    CHECK(estimate.memory_bytes > 5e7);
}

TEST_CASE("a remark warns where untreated ground heaves with the treated") {
    const auto warned = [](const std::string& text) {
        return io::case_report(io::parse_case(text, "four.toml")).find("heaving_margin_m limits") !=
               std::string::npos;
    };
    CHECK(warned(sound_case)); // 12 x 12 m for four piles of 2.89 m2
    CHECK_FALSE(warned(changed(sound_case, "K0 = 0.5", "K0 = 0.5\nheaving_margin_m = 0.85")));
    CHECK_FALSE(warned(changed(sound_case, "\"shared\"", "\"fixed\"")));
    // A closed cell that is treated throughout.
    const auto cell = changed(changed(sound_case, "x_m = [-5, 7]", "x_m = [-0.85, 2.55]"), "y_m = [-5, 7]",
                              "y_m = [-0.85, 2.55]");
    CHECK_FALSE(warned(cell));
}
