// Places that are watched and the treated area, for layouts whose answer is known by hand.

#include "mesh/observation_points.h"
#include "mesh/pile_layout.h"
#include "mesh/treated_area.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace interpile::mesh;

namespace {

constexpr double diameter = 0.7;

Domain box(const Vec2& low, const Vec2& high, BoundaryKind kind = BoundaryKind::RigidSmooth) {
    Domain domain;
    domain.low = low;
    domain.high = high;
    domain.side.fill(kind);
    return domain;
}

const Domain wide = box({-40, -40}, {40, 40});

std::vector<Vec2> layout(Pattern pattern, int rows, int columns, double spacing, double angle_deg = 0) {
    LayoutSettings settings;
    settings.pattern = pattern;
    settings.rows = rows;
    settings.columns = columns;
    settings.spacing_m = spacing;
    settings.row_spacing_m = 1.5 * spacing;
    settings.angle_deg = angle_deg;
    return pile_centers(settings);
}

Vec2 middle_of(const std::vector<Vec2>& centers) {
    Vec2 sum = Vec2::Zero();
    for (const auto& c : centers)
        sum += c / static_cast<double>(centers.size());
    return sum;
}

/// Distances from a point to the piles, ascending.
std::vector<double> distances(const std::vector<Vec2>& centers, const Vec2& point) {
    std::vector<double> all;
    for (const auto& c : centers)
        all.push_back((c - point).norm());
    std::sort(all.begin(), all.end());
    return all;
}

} // namespace

TEST_CASE("square: half a side from two piles, half a diagonal from four") {
    for (const double angle : {0.0, 27.0, 90.0}) {
        const auto centers = layout(Pattern::Square, 5, 5, 2.0, angle);
        const auto points = usual_points(centers, wide, diameter);
        REQUIRE(points.size() == 2);
        CHECK(points[0].name == "mid-span");
        const auto span = distances(centers, points[0].at_m);
        CHECK(span[1] == Approx(1.0));
        CHECK(span[2] > 1.5);
        CHECK(points[1].name == "centroid");
        const auto middle = distances(centers, points[1].at_m);
        CHECK(middle[0] == Approx(std::numbers::sqrt2));
        CHECK(middle[3] == Approx(std::numbers::sqrt2));
        // Nearest the middle pile of the group.
        CHECK((points[0].at_m - middle_of(centers)).norm() == Approx(1.0));
        CHECK((points[1].at_m - middle_of(centers)).norm() == Approx(std::numbers::sqrt2));
    }
}

TEST_CASE("triangular: half a side, and spacing over root 3 from three piles") {
    const auto centers = layout(Pattern::Triangular, 5, 6, 1.8, 14);
    const auto points = usual_points(centers, wide, diameter);
    REQUIRE(points.size() == 2);
    CHECK(distances(centers, points[0].at_m)[1] == Approx(0.9));
    const auto three = distances(centers, points[1].at_m);
    CHECK(three[0] == Approx(1.8 / std::numbers::sqrt3));
    CHECK(three[2] == Approx(1.8 / std::numbers::sqrt3));
    CHECK(three[3] > 1.5);
}

TEST_CASE("rectangular: the centroid is half a diagonal from four piles") {
    const auto centers = layout(Pattern::Rectangular, 4, 4, 1.6);
    const auto points = usual_points(centers, wide, diameter);
    REQUIRE(points.size() == 2);
    CHECK(distances(centers, points[1].at_m)[3] == Approx(std::hypot(0.8, 1.2)));
}

TEST_CASE("rows, pairs and single piles have the points that make sense") {
    const auto row = layout(Pattern::Square, 1, 4, 2.0, 30);
    const auto of_row = usual_points(row, wide, diameter);
    REQUIRE(of_row.size() == 1); // no centroid in a row
    CHECK((of_row[0].at_m - middle_of(row)).norm() < 1e-9);
    // As wide as the spacing about every pile, in a row along x.
    CHECK(treated_area(layout(Pattern::Square, 1, 4, 2.0), wide, diameter).area_m2() == Approx(8.0 * 2.0));

    CHECK(usual_points({{0, 0}}, wide, diameter).empty());
    CHECK(treated_area({{0, 0}}, wide, diameter).empty());
    CHECK(std::isinf(neighbor_distance_m({{0, 0}}, wide, diameter)));
    CHECK(usual_points({}, wide, diameter).empty());
}

TEST_CASE("a ring of piles around open ground has no centroid in its middle") {
    std::vector<Vec2> ring;
    for (int k = 0; k < 20; ++k)
        ring.emplace_back(6 * std::cos(k * std::numbers::pi / 10), 6 * std::sin(k * std::numbers::pi / 10));
    for (const auto& point : usual_points(ring, wide, diameter))
        CHECK(point.at_m.norm() > 5);
}

TEST_CASE("one pile in a closed square cell: middle of a side and corner, whole cell or quarter") {
    for (const auto kind : {BoundaryKind::RigidSmooth, BoundaryKind::Symmetry}) {
        const auto whole = usual_points({{0, 0}}, box({-1, -1}, {1, 1}, kind), diameter);
        REQUIRE(whole.size() == 2);
        CHECK(whole[0].at_m.cwiseAbs().minCoeff() == Approx(0).margin(1e-12));
        CHECK(whole[0].at_m.cwiseAbs().maxCoeff() == Approx(1));
        CHECK((whole[1].at_m.cwiseAbs() - Vec2(1, 1)).norm() < 1e-12);
        CHECK(neighbor_distance_m({{0, 0}}, box({-1, -1}, {1, 1}, kind), diameter) == Approx(2));
    }
    auto quarter = box({0, 0}, {0.9, 0.9}, BoundaryKind::Symmetry);
    const auto points = usual_points({{0, 0}}, quarter, diameter);
    REQUIRE(points.size() == 2);
    CHECK(points[0].at_m.sum() == Approx(0.9));
    CHECK(points[1].at_m == Vec2(0.9, 0.9)); // without rounding errors
    // The sides hold nothing in place: no pattern.
    CHECK(usual_points({{0, 0}}, box({-1, -1}, {1, 1}, BoundaryKind::ConstantStress), diameter).empty());
}

TEST_CASE("one pile in a round cell: the rim, the whole cell is treated") {
    Domain round;
    round.shape = DomainShape::Round;
    round.high = {1.1, 1.1};
    round.low = -round.high;
    const auto points = usual_points({{0, 0}}, round, diameter);
    REQUIRE(points.size() == 1);
    CHECK(points[0].name == "rim");
    CHECK(points[0].at_m == Vec2(1.1, 0));
    const auto treated = treated_area({{0, 0}}, round, diameter);
    CHECK(treated.contains({1.1 * std::cos(0.3), 1.1 * std::sin(0.3)}));
    CHECK(treated.area_m2() == Approx(std::numbers::pi * 1.21).epsilon(2e-3));
    CHECK(neighbor_distance_m({{0, 0}}, round, diameter) == Approx(2.2));

    round.high = {20, 20}; // open ground
    round.low = -round.high;
    CHECK(usual_points({{0, 0}}, round, diameter).empty());
}

TEST_CASE("a group between lines of symmetry is treated up to them") {
    const auto centers = layout(Pattern::Square, 3, 3, 1.7);
    const auto field =
        treated_area(centers, box({-0.85, -0.85}, {4.25, 4.25}, BoundaryKind::Symmetry), diameter);
    for (const double x : {-0.85, 1.0, 4.25})
        for (const double y : {-0.85, 1.0, 4.25})
            CHECK(field.contains({x, y}));
    const auto block = treated_area(centers, wide, diameter);
    CHECK(block.area_m2() == Approx(3.4 * 3.4));
    CHECK(block.contains({3.4, 1.0})); // the border belongs to it
    CHECK_FALSE(block.contains({3.41, 1.0}));
}

TEST_CASE("many piles: the points are found at once") {
    const auto centers = layout(Pattern::Triangular, 50, 50, 2.0);
    CHECK(usual_points(centers, box({0, 0}, {100, 100}, BoundaryKind::Symmetry), diameter).size() == 2);
}
