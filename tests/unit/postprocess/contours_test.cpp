#include "invented_result.h"
#include "mesh/ground_area.h"
#include "postprocess/continuation.h"
#include "postprocess/contours.h"
#include "postprocess/ground.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::postprocess;

namespace {

/// Distorted grid on the unit square: straight outer sides, bent lines inside.
mesh::Grid bent_grid(int cells) {
    mesh::Grid grid{cells, cells, {}};
    grid.node_m.resize(2, grid.node_count());
    for (int j = 0; j <= cells; ++j)
        for (int i = 0; i <= cells; ++i) {
            const double x = static_cast<double>(i) / cells, y = static_cast<double>(j) / cells;
            const double bend = 0.02 * std::sin(6.283185 * x) * std::sin(6.283185 * y);
            grid.node_m.col(grid.node_index(i, j)) = mesh::Vec2(x + bend, y - bend);
        }
    return grid;
}

Eigen::ArrayXd at_middles(const mesh::Grid& grid, double (*f)(double x, double y)) {
    const auto middle = mesh::cell_middles(grid);
    Eigen::ArrayXd value(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        value[cell] = f(middle(0, cell), middle(1, cell));
    return value;
}

double total_area(const std::vector<BandArea>& bands) {
    double area = 0;
    for (const auto& band : bands)
        area += band.area_m2();
    return area;
}

double wavy(double x, double y) {
    return std::sin(9 * x) * std::cos(7 * y) + x;
}

} // namespace

TEST_CASE("bands cover the domain exactly once", "[contours]") {
    const auto grid = bent_grid(23);
    const auto value = at_middles(grid, wavy);
    for (const auto& scale : {fixed_scale({-0.5, 0, 0.5, 1}, 1, value),        // open at both ends
                              fixed_scale({-2, -1, 0, 1, 2}, 0, value),        // closed
                              fixed_scale({value[0], value[70]}, 2, value)}) { // limits that hit cell values
        const auto smooth = smooth_bands(grid, value, scale), stepwise = cell_bands(grid, value, scale);
        CHECK(total_area(smooth) == Approx(1).epsilon(1e-12));
        CHECK(total_area(stepwise) == Approx(1).epsilon(1e-12));
        for (const auto& band : smooth)
            CHECK(band.area_m2() > 0);
    }
}

TEST_CASE("the area of a band is that between its limits", "[contours]") {
    // f = x on the unit square: the band 0.2 .. 0.5 has the area 0.3. Nodal averages are exact inside and off
    // by half a cell at the rim, so that limits away from the rim give exact areas on a regular grid.
    mesh::Grid grid{20, 20, {}};
    grid.node_m.resize(2, grid.node_count());
    for (int j = 0; j <= 20; ++j)
        for (int i = 0; i <= 20; ++i)
            grid.node_m.col(grid.node_index(i, j)) = mesh::Vec2(i / 20.0, j / 20.0);
    const auto value = at_middles(grid, [](double x, double) { return x; });
    const auto bands = smooth_bands(grid, value, fixed_scale({0.2, 0.5}, 1, value));
    REQUIRE(bands.size() == 3);
    CHECK(bands[0].area_m2() == Approx(0.2));
    CHECK(bands[1].area_m2() == Approx(0.3));
    CHECK(bands[2].area_m2() == Approx(0.5));
    CHECK(bands[1].rings.size() == 1);
}

TEST_CASE("a hole in a band is a ring of its own", "[contours]") {
    const auto grid = bent_grid(40);
    const auto value = at_middles(grid, [](double x, double y) { return std::hypot(x - 0.5, y - 0.5); });
    const auto bands = smooth_bands(grid, value, fixed_scale({0.15, 0.35}, 2, value));
    REQUIRE(bands.size() == 3);
    CHECK(bands[1].rings.size() == 2);
    // Annulus pi (0.35^2 - 0.15^2); the error of straight edges over cells of 1/40 stays below 1 %.
    CHECK(bands[1].area_m2() == Approx(3.14159265 * (0.35 * 0.35 - 0.15 * 0.15)).epsilon(0.01));
}

TEST_CASE("isolines lie on the borders of bands", "[contours]") {
    const auto grid = bent_grid(40);
    const auto value = at_middles(grid, [](double x, double y) { return std::hypot(x - 0.5, y - 0.5); });
    const auto lines = isolines(grid, value, fixed_scale({0.3, 0.9}, 2, value));
    REQUIRE(lines.size() == 1);
    for (const auto& point : lines[0])
        CHECK(std::hypot(point.x() - 0.5, point.y() - 0.5) == Approx(0.3).epsilon(0.01));
}

TEST_CASE("pile material never colors the ground", "[contours]") {
    auto result = tests::invented_three_by_three();
    const auto grid = current_grid(result.header, result.stage);
    const auto ground = ground_cells(result.stage);
    auto density = result.stage.fields.at("relative_density_pct");
    const auto before = continued_under_piles(grid, density, ground);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (!ground[cell])
            density[cell] = 1e6; // whatever the piles carry
    const auto after = continued_under_piles(grid, density, ground);
    CHECK((before == after).all());
    CHECK(after.maxCoeff() < 80);
    CHECK(after.minCoeff() > 30);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (ground[cell])
            CHECK(after[cell] == result.stage.fields.at("relative_density_pct")[cell]);
}

TEST_CASE("a linear field is continued exactly next to the ground", "[contours]") {
    const auto middle_is_pile = [](int cell) { return cell % 9 == 4 && cell / 9 == 4; };
    mesh::Grid grid{9, 9, {}};
    grid.node_m.resize(2, grid.node_count());
    for (int n = 0; n < grid.node_count(); ++n)
        grid.node_m.col(n) = mesh::Vec2(n % 10, n / 10);
    auto value = at_middles(grid, [](double x, double y) { return 3 * x - 2 * y; });
    const double exact = value[4 * 9 + 4];
    std::vector<bool> ground(81);
    for (int cell = 0; cell < 81; ++cell)
        ground[cell] = !middle_is_pile(cell);
    value[4 * 9 + 4] = -1e9;
    CHECK(continued_under_piles(grid, value, ground)[4 * 9 + 4] == Approx(exact));
    CHECK_THROWS_AS(continued_under_piles(grid, value, std::vector<bool>(81, false)), std::invalid_argument);
}
