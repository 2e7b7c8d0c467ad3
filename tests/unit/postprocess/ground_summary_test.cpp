// Means, weakest point and distribution of fields known in closed form.

#include "invented_result.h"
#include "mesh/ground_area.h"
#include "postprocess/ground.h"
#include "postprocess/ground_summary.h"
#include "postprocess/record_table.h"
#include "postprocess/smoothing.h"
#include "tests/support/has_pattern.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;
using mesh::Vec2;

namespace {

/// Four piles at the corners of a square of 4 m with cells of `cell_m`; fields by formula of the place.
InventedResult four_piles(double cell_m) {
    auto result = invented_result({{0, 0}, {4, 0}, {0, 4}, {4, 4}}, 0.6, {-2, -2}, {6, 6}, cell_m);
    result.stage.node_m = result.header.grid.node_m;
    return result;
}

template <class Formula>
void set_field(InventedResult& result, const std::string& field, const Formula& formula) {
    const auto middle = mesh::cell_middles(result.header.grid);
    auto& value = result.stage.fields[field];
    for (Eigen::Index cell = 0; cell < value.size(); ++cell)
        value[cell] = result.stage.fields["pile_share"][cell] >= 0.01 ? 1e4 : formula(Vec2(middle.col(cell)));
}

} // namespace

TEST_CASE("the weakest point of a bowl is its bottom") {
    // D_r = 50 + 3 |p - q|^2: least at q; the smoothed value there is above it by 3 (h^2/2) for q on a node.
    const Vec2 q(2.2, 1.4);
    for (const double h : {0.2, 0.1}) {
        auto result = four_piles(h);
        set_field(result, "relative_density_pct",
                  [&](const Vec2& p) { return 50 + 3 * (p - q).squaredNorm(); });
        const auto ground = between_piles(result.header, result.stage, "relative_density_pct");
        REQUIRE(ground.has_value());
        CHECK((ground->least_at_m - q).norm() < 1e-6);
        CHECK(ground->least == Approx(50 + 3 * h * h / 2));
        CHECK(ground->most < 50 + 3 * 12);
    }
}

TEST_CASE("mean, quantiles and share below a target of a plane") {
    // D_r = 40 + 10 x over 0 < x < 4 away from the piles: symmetric about 60, uniform but for the four quarter discs,
    // which lie at the ends.
    auto result = four_piles(0.05);
    result.header.target_relative_density_pct = 60;
    set_field(result, "relative_density_pct", [](const Vec2& p) { return 40 + 10 * p.x(); });
    const auto at = ground_at(result.header, result.stage);
    REQUIRE(at.has_value());
    const auto& ground = at->density;
    CHECK(ground.mean == Approx(60).margin(1e-3));
    CHECK(ground.distribution.quantile(0.5) == Approx(60).margin(0.6));
    CHECK(*at->share_below_target == Approx(0.5).margin(0.01));
    CHECK(ground.least == Approx(40).margin(1e-6)); // a node on the border x = 0
    CHECK(ground.most == Approx(80).margin(1e-6));
    CHECK(ground.distribution.quantile(0) == ground.least);
    CHECK(ground.distribution.quantile(1) == ground.most);
    // Between 50 and 70 nothing is cut out: a width of 1 m holds 4 m2.
    CHECK(ground.distribution.share_below(70) - ground.distribution.share_below(50) ==
          Approx(2 * 4 / ground.area_m2).margin(0.01));
    CHECK(ground.distribution.quantile(0.75) - ground.distribution.quantile(0.25) ==
          Approx(10 * 0.5 * ground.area_m2 / 4).margin(0.6));
}

TEST_CASE("a pattern that alternates from cell to cell is not taken for weak ground") {
    auto result = four_piles(0.1);
    set_field(result, "relative_density_pct", [](const Vec2& p) {
        const auto i = std::lround(std::floor(p.x() / 0.1 + 100)),
                   j = std::lround(std::floor(p.y() / 0.1 + 100));
        return 60.0 + ((i + j) % 2 == 0 ? 20 : -20);
    });
    const auto ground = between_piles(result.header, result.stage, "relative_density_pct");
    REQUIRE(ground.has_value());
    CHECK(ground->least == Approx(60));
    CHECK(ground->distribution.quantile(0.05) == Approx(60));
    CHECK(ground->distribution.quantile(0.95) == Approx(60));
}

TEST_CASE("K at the weakest point and at the points belongs to the same places") {
    auto result = four_piles(0.1);
    const Vec2 q(1.0, 2.6);
    result.header.points = {{"mid-span", {2, 0}}, {"centroid", {2, 2}}, {"in a pile", {0, 0}}};
    result.header.sampling_radius_m = 0.2;
    set_field(result, "relative_density_pct", [&](const Vec2& p) { return 50 + (p - q).squaredNorm(); });
    set_field(result, "lateral_stress_kPa", [](const Vec2& p) { return 20 + 10 * p.x(); });
    set_field(result, "vertical_stress_kPa", [](const Vec2&) { return 50.0; });
    const auto at = ground_at(result.header, result.stage);
    REQUIRE(at.has_value());
    CHECK(at->weakest_stress_ratio == Approx((20 + 10 * q.x()) / 50));
    CHECK(at->mean_stress_ratio == Approx(40.0 / 50));
    CHECK(at->points.stress_ratio[0] == Approx(40.0 / 50));
    CHECK(at->points.density_pct[1] ==
          Approx(50 + (Vec2(2, 2) - q).squaredNorm() + 0.02).margin(0.01)); // + r^2/2
    CHECK(std::isnan(at->points.density_pct[2]));
}

TEST_CASE("area distribution counts areas, not values") {
    const Eigen::Array4d value(3, 1, 2, NAN), area(1, 6, 3, 5);
    const AreaDistribution distribution(value, area);
    CHECK(distribution.quantile(0) == 1);
    CHECK(distribution.quantile(0.59) == 1);
    CHECK(distribution.quantile(0.61) == 2);
    CHECK(distribution.quantile(0.95) == 3);
    CHECK(distribution.quantile(1) == 3);
    CHECK(distribution.share_below(1) == 0);
    CHECK(distribution.share_below(2) == Approx(0.6));
    CHECK(distribution.share_below(99) == Approx(1));
    CHECK(AreaDistribution(Eigen::Array2d(1, 2), Eigen::Array2d(0, 0)).empty());
}

TEST_CASE("node averages of a linear field are exact inside, and leave out what does not count") {
    const auto result = four_piles(0.5);
    const auto& grid = result.header.grid;
    const Eigen::ArrayXd x = mesh::cell_middles(grid).row(0).transpose().array();
    const std::vector<bool> all(grid.cell_count(), true);
    const auto at_nodes = node_averages(grid, x, all);
    const int inner = grid.node_index(5, 7);
    CHECK(at_nodes[inner] == Approx(grid.node_m(0, inner)));
    CHECK(means_of_nodes(grid, at_nodes, all)[7 * grid.cells_x + 5] == Approx(x[7 * grid.cells_x + 5]));
    std::vector<bool> half = all;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        half[cell] = x[cell] < 0;
    const auto of_half = node_averages(grid, x, half);
    CHECK(of_half[grid.node_index(4, 3)] == Approx(-0.25)); // x = 0: only the cells on the left
    CHECK(std::isnan(of_half[grid.node_index(8, 3)]));
}

TEST_CASE("tables of the ground and of half strokes") {
    auto result = four_piles(0.2);
    result.header.points = {{"mid-span", {2, 0}}, {"toe, north", {0, 0}}};
    result.header.sampling_radius_m = 0.2;
    set_field(result, "vertical_stress_kPa", [](const Vec2&) { return 60.0; });
    const auto at = ground_at(result.header, result.stage);
    REQUIRE(at.has_value());
    const auto table = ground_table(result.header, {*at});
    CHECK_THAT(table,
               Catch::Contains("mid-span") && Catch::Contains("toe, north") && Catch::Contains("K there"));
    CHECK_THAT(table, !Catch::Contains("target"));
    CHECK_THAT(table, !Catch::Contains("time") && !Catch::Contains("\u0394u"));
    CHECK(ground_table(result.header, {}).empty());

    std::ostringstream stages;
    write_ground(result.header, {*at}, stages);
    CHECK_THAT(stages.str(), Catch::StartsWith("stage,pile,converged,mean_relative_density_pct"));
    CHECK_THAT(stages.str(), Catch::Contains("\"relative_density_pct at toe, north\""));
    CHECK_THAT(stages.str(), Catch::EndsWith(",,\n")); // no ground at a pile's center
    std::ostringstream half_strokes;
    write_half_strokes(result.header, invented_half_strokes(result.header), half_strokes);
    const auto text = half_strokes.str();
    CHECK_THAT(text, Catch::Contains("\n1,1,0,casing pass,") && Catch::Contains("\n4,4,2,re-driving,"));
    CHECK(std::count(text.begin(), text.end(), '\n') == 1 + 4 * 5);
}

TEST_CASE("tables of a result with flow of water in time") {
    auto result = four_piles(0.2);
    result.header.points = {{"mid-span", {2, 0}}};
    result.header.sampling_radius_m = 0.2;
    set_field(result, "vertical_stress_kPa", [](const Vec2&) { return 60.0; });
    set_field(result, "excess_pore_pressure_kPa", [](const Vec2&) { return 12.5; });
    result.stage.time_s = 6120;
    auto pile = ground_at(result.header, result.stage), rest = pile;
    REQUIRE(pile.has_value());
    CHECK(pile->excess_pressure_kPa == Approx(12.5));
    rest->time_s = 92520;
    rest->after_rest = true;
    rest->excess_pressure_kPa = 0;
    const auto table = ground_table(result.header, {*pile, *rest});
    CHECK_THAT(table, interpile::testing::HasPattern(
                          "\n +4 +4 +1 h 42 min +12\\.5 [^]*\n +4 +rest +25 h 42 min +0\\.0 "));

    std::ostringstream stages;
    write_ground(result.header, {*pile, *rest}, stages);
    CHECK_THAT(stages.str(), Catch::Contains(",time_s,after_rest,excess_pressure_kPa,") &&
                                 Catch::Contains(",6120,0,12.5,") && Catch::Contains(",92520,1,0,") &&
                                 Catch::Contains(",excess_pressure_kPa at mid-span\n"));

    auto record = invented_half_strokes(result.header);
    std::ostringstream without; // of an earlier version
    write_half_strokes(result.header, record, without);
    CHECK_THAT(without.str(),
               Catch::Contains(",efficiency,time_s,excess_pressure_kPa,relative_density_pct at") &&
                   Catch::Contains(",0,,,") && Catch::EndsWith(",\n"));
    record.time_s =
        Eigen::ArrayXd::LinSpaced(record.pile.size(), 10, 10.0 * static_cast<double>(record.pile.size()));
    record.excess_pressure_kPa = record.time_s / 8;
    record.point_pressure_kPa = record.time_s.transpose() / 16;
    std::ostringstream with;
    write_half_strokes(result.header, record, with);
    CHECK_THAT(with.str(), Catch::Contains(",20,2.5,") && Catch::Contains(",1.25\n"));
}
