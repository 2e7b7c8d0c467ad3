#include "mesh/disc_fraction.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile::mesh;
using std::numbers::pi;

namespace {

std::array<Vec2, 4> box(double x0, double y0, double x1, double y1) {
    return {Vec2{x0, y0}, Vec2{x1, y0}, Vec2{x1, y1}, Vec2{x0, y1}};
}

} // namespace

TEST_CASE("disc area in a cell: whole disc, whole cell, nothing") {
    CHECK(disc_area_in_quadrilateral({0.3, 0.2}, 0.5, box(-1, -1, 1, 1)) == Approx(pi * 0.25).epsilon(1e-14));
    CHECK(disc_area_in_quadrilateral({0, 0}, 5, box(-1, -1, 1, 1)) == Approx(4).epsilon(1e-14));
    CHECK(std::abs(disc_area_in_quadrilateral({3, 0}, 0.5, box(-1, -1, 1, 1))) < 1e-15);
}

// Circular segment cut off by a chord at distance d: r^2 acos(d/r) - d sqrt(r^2 - d^2) (Euclidean geometry).
TEST_CASE("disc area in a cell: segment beyond one edge") {
    const double r = 0.7, d = 0.31;
    const double segment = r * r * std::acos(d / r) - d * std::sqrt(r * r - d * d);
    CHECK(disc_area_in_quadrilateral({0, 0}, r, box(d, -2, 3, 2)) == Approx(segment).epsilon(1e-13));
}

TEST_CASE("cells that tile the plane share out the disc exactly, also when skewed") {
    const double shear = 0.35, h = 0.13;
    double sum = 0;
    for (int i = -20; i < 20; ++i)
        for (int j = -20; j < 20; ++j) {
            const auto corner = [&](int a, int b) { return Vec2{h * (a + shear * b), h * (b - 0.2 * a)}; };
            sum += disc_area_in_quadrilateral(
                {0.037, -0.021}, 0.9,
                {corner(i, j), corner(i + 1, j), corner(i + 1, j + 1), corner(i, j + 1)});
        }
    CHECK(sum == Approx(pi * 0.81).epsilon(1e-13));
}

TEST_CASE("a quadrilateral has its shoelace area") {
    CHECK(quadrilateral_area(box(0, 0, 2, 3)) == Approx(6));
    CHECK(quadrilateral_area({Vec2{0, 0}, Vec2{4, 1}, Vec2{5, 5}, Vec2{1, 2}}) ==
          Approx(10)); // shoelace by hand
}
