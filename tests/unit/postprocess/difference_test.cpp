// Differences of two results: exact for fields linear in x and y, whatever the grids.

#include "drawn_page.h"
#include "invented_result.h"
#include "mesh/ground_area.h"
#include "postprocess/color_map.h"
#include "postprocess/difference.h"
#include "postprocess/figures/difference_map.h"
#include "postprocess/ground.h"
#include "postprocess/label.h"

#include <catch2/catch.hpp>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

const std::string density = "relative_density_pct";

NamedStage named(const InventedResult& result, const std::string& run) {
    return {result.header, result.stage, run};
}

/// D_r = at_origin + 2 x + 3 y at the present middles of the cells.
void set_linear(NamedStage& of, double at_origin) {
    const auto middle = mesh::cell_middles(current_grid(of.header, of.stage));
    of.stage.fields[density] =
        at_origin + 2 * middle.row(0).transpose().array() + 3 * middle.row(1).transpose().array();
}

} // namespace

TEST_CASE("a result differs from itself by nothing") {
    const auto result = named(invented_three_by_three(0.34), "one");
    const auto difference = difference_between(result, result, density);
    CHECK(difference.value.abs().maxCoeff() == 0);
    CHECK(std::abs(difference.mean()) < 1e-9);
    CHECK(difference.area_m2 > 0);
    CHECK(has(words_of(difference_map(result, result, density, difference)), "ΔDr (points)"));
}

// Closed form: 40 + 2x + 3y less 37 + 2x + 3y is 3 everywhere, bilinear interpolation is exact for both.
TEST_CASE("the grids may differ: linear fields have an exact difference") {
    auto first = named(invented_three_by_three(0.34), "coarse"),
         second = named(invented_three_by_three(0.2), "fine");
    set_linear(first, 37);
    set_linear(second, 40);
    const auto difference = difference_between(first, second, density);
    CHECK(difference.mean() == Approx(3).epsilon(1e-9));
    CHECK(difference.mean_size == Approx(3).epsilon(1e-9));
    CHECK(difference.least == Approx(3).epsilon(1e-6));
    CHECK(difference.most == Approx(3).epsilon(1e-6));
    const auto words = words_of(difference_map(first, second, density, difference));
    CHECK(has(words, "fine minus coarse"));
    CHECK(has(words, "+3.00 points"));
    // The other way round the sign turns.
    CHECK(difference_between(second, first, density).mean() == Approx(-3).epsilon(1e-9));
}

TEST_CASE("the largest difference is told with its place") {
    const auto first = named(invented_three_by_three(0.17), "first");
    auto second = first;
    const auto middle = mesh::cell_middles(current_grid(second.header, second.stage));
    const mesh::Vec2 center(0.85, 0.85); // between four piles
    for (Eigen::Index cell = 0; cell < middle.cols(); ++cell)
        if ((middle.col(cell) - center).norm() < 0.35)
            second.stage.fields[density][cell] += 7;
    const auto difference = difference_between(first, second, density);
    CHECK(difference.most == Approx(7).epsilon(1e-6));
    CHECK((difference.most_at_m - center).norm() < 0.5);
    CHECK(std::abs(difference.least) < 1e-6);
    CHECK(difference.mean() > 0);
}

TEST_CASE("results of other ground are refused") {
    const auto result = invented_three_by_three(0.34);
    auto other = result.header;
    CHECK(why_not_comparable(result.header, other).empty());
    other.depth_m = 8;
    CHECK(has(why_not_comparable(result.header, other), "6 and 8 m below ground"));
    other = result.header;
    other.grid.node_m.colwise() += mesh::Vec2(12, 0);
    other.pile_center_m.colwise() += mesh::Vec2(12, 0);
    CHECK(has(why_not_comparable(result.header, other), "in common"));
    other = result.header;
    other.pile_center_m.colwise() += mesh::Vec2(0.8, 0.8);
    CHECK(has(why_not_comparable(result.header, other), "0 % of the piles"));
    const auto stage = named(result, "one");
    CHECK_THROWS_AS(difference_map(stage, stage, "yield_state", {}), std::invalid_argument);
}

TEST_CASE("colors of differences: a mirror image about zero, inside the range of the screen") {
    Eigen::ArrayXd values(3), weight = Eigen::ArrayXd::Ones(3);
    values << -1, 0.2, 41;
    const auto scale = difference_scale(values, weight);
    REQUIRE(scale.level.size() == 8);
    CHECK_FALSE(scale.open_high);
    for (std::size_t k = 0; k < 8; ++k)
        CHECK(scale.level[k] == Approx(-scale.level[7 - k]));
    CHECK(scale.band(0) == 3);
    const auto zero = band_color(scale, 3);
    CHECK(std::min({zero.red, zero.green, zero.blue}) > 0.94);
    CHECK(band_color(scale, 6).blue > band_color(scale, 6).red); // more is blue
    CHECK(band_color(scale, 0).red > band_color(scale, 0).blue);
    for (int k = -100; k <= 100; ++k) {
        const auto color = difference_color(k / 100.0);
        const double most = std::max({color.red, color.green, color.blue});
        const double least = std::min({color.red, color.green, color.blue});
        INFO(k);
        CHECK(most < 1);
        CHECK(least > 0); // a color outside the range would have been cut off
    }
}
