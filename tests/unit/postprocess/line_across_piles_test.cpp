#include "drawn_page.h"
#include "invented_result.h"
#include "postprocess/figures/line_across_piles.h"
#include "postprocess/page.h"
#include "postprocess/pile_line.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

/// Two rows: three piles at y = 0, two at y = 2.
InventedResult two_rows() {
    return invented_result({{0, 0}, {4, 0}, {2, 0.05}, {0, 2}, {2, 2}}, 0.7, {-3, -3}, {7, 5}, 0.25);
}

io::ResultsStage before_of(const InventedResult& result) {
    auto before = result.stage;
    before.stage = 0;
    before.pile = -1;
    before.node_m = result.header.grid.node_m;
    before.disc_radius_m.setConstant(result.header.seed_radius_m);
    before.fields["pile_share"].setZero();
    before.fields["relative_density_pct"].setConstant(35);
    return before;
}

} // namespace

TEST_CASE("the line runs through most piles, then nearest the middle, then along x", "[figures]") {
    auto header = two_rows().header;
    auto line = fullest_pile_line(header);
    CHECK(line.along_x);
    CHECK(line.at_m == 0.05); // of the three lines so close together, the one nearest the middle
    CHECK(line.piles == std::vector{0, 2, 1}); // ascending in x; 0.05 m off is still on it

    header.pile_center_m.row(0).swap(header.pile_center_m.row(1)); // the same turned
    line = fullest_pile_line(header);
    CHECK_FALSE(line.along_x);
    CHECK(line.piles == std::vector{0, 2, 1});

    const auto square = invented_three_by_three(0.34).header;
    line = fullest_pile_line(square);
    CHECK(line.along_x);
    CHECK(line.at_m == Approx(1.7));
    CHECK(line.piles == std::vector{3, 4, 5});

    header.pile_center_m.resize(2, 0);
    CHECK_THROWS_AS(fullest_pile_line(header), std::invalid_argument);
}

TEST_CASE("values along the line are exact for a linear field and end at the pile", "[figures]") {
    const auto result = two_rows();
    auto stage = before_of(result);
    const auto& grid = result.header.grid;
    // Averages of cells at inner nodes, and linear values between, are exact for a linear field; the stretch keeps away
    // from the sides of the domain, where a node has cells on one side only.
    auto& density = stage.fields["relative_density_pct"];
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        mesh::Vec2 middle(0, 0);
        for (const int node : grid.cell_nodes(cell))
            middle += 0.25 * grid.node_m.col(node);
        density[cell] = 30 + 3 * middle.x() + 2 * middle.y();
    }
    const PileLine line{true, 0.1, {0}};
    const Eigen::ArrayXd along_m = Eigen::ArrayXd::LinSpaced(37, -2.5, 6.5);
    const auto values = ground_along(line, result.header, stage, "relative_density_pct", along_m);
    for (Eigen::Index k = 0; k < along_m.size(); ++k)
        CHECK(values[k] == Approx(30 + 3 * along_m[k] + 0.2).epsilon(1e-9));

    Eigen::ArrayXd places(4);
    places << -3, 7, 7.01, -3.01; // on the sides of the domain and beyond
    const auto ends = ground_along({true, -3, {0}}, result.header, stage, "relative_density_pct", places);
    CHECK(std::isfinite(ends[0]));
    CHECK(std::isfinite(ends[1]));
    CHECK(std::isnan(ends[2]));
    CHECK(std::isnan(ends[3]));

    // With the piles there, no place within a disc has a value, and none in the ground a cell away lacks one.
    const auto after =
        ground_along({true, 0, {0, 2, 1}}, result.header, result.stage, "relative_density_pct", along_m);
    for (Eigen::Index k = 0; k < along_m.size(); ++k) {
        double nearest_m = HUGE_VAL;
        for (const double x : {0.0, 2.0, 4.0})
            nearest_m = std::min(nearest_m, std::abs(along_m[k] - x));
        CAPTURE(along_m[k]);
        if (nearest_m < 0.3)
            CHECK(std::isnan(after[k]));
        if (nearest_m > 0.35 + 0.4)
            CHECK(std::isfinite(after[k]));
    }
}

TEST_CASE("the stretch under a disc is its chord", "[figures]") {
    auto stage = two_rows().stage;
    stage.disc_radius_m.setConstant(0.5);
    const auto covered = covered_by({true, 0.3, {0}}, stage, 0); // 0.3, 0.4, 0.5: a right triangle
    CHECK(covered.from_m == Approx(-0.4));
    CHECK(covered.to_m == Approx(0.4));
    const auto beside = covered_by({true, 0.6, {0}}, stage, 0);
    CHECK(beside.from_m >= beside.to_m);
}

TEST_CASE("the line across piles says where it runs and what its curves are", "[figures]") {
    auto result = two_rows();
    result.header.target_relative_density_pct = 70;
    const auto drawing = line_across_piles(result.header, {before_of(result), result.stage}, false);
    const auto words = words_of(drawing);
    INFO(words);
    CHECK(has(words, "Ground 6 m below the surface, along y = 0.05 m through the centers of piles 1, 3, 2"));
    CHECK(has(words, "before the first pile"));
    CHECK(has(words, "after pile 5 of 5"));
    CHECK(has(words, "x (m)"));
    CHECK(has(words, "70 %"));
    CHECK_FALSE(has(words, "kPa"));
    CHECK(lines_of(drawing, warning_ink).size() == 2); // the target, and its mark in the key
    CHECK(svg_of(drawing) ==
          svg_of(line_across_piles(result.header, {before_of(result), result.stage}, false)));

    CHECK(has(words_of(line_across_piles(result.header, {before_of(result), result.stage}, true)), "(kPa)"));
    result.stage.converged = false;
    CHECK(has(words_of(line_across_piles(result.header, {result.stage}, false)), "NOT CONVERGED"));
    CHECK_THROWS_AS(line_across_piles(result.header, {}, false), std::invalid_argument);
}
