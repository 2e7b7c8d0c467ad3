#include "mesh/treated_area.h"

#include "mesh/pile_layout.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace interpile::mesh {
namespace {

constexpr double same_place_m = 1e-6;

double cross(const Vec2& o, const Vec2& a, const Vec2& b) {
    return (a - o).x() * (b - o).y() - (a - o).y() * (b - o).x();
}

/// Convex hull counterclockwise, by the monotone chain of Andrew (1979).
std::vector<Vec2> convex_hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(),
              [](const Vec2& a, const Vec2& b) { return std::pair(a.x(), a.y()) < std::pair(b.x(), b.y()); });
    std::vector<Vec2> hull;
    for (int pass = 0; pass < 2; ++pass) {
        const std::size_t start = hull.size();
        for (const auto& point : points) {
            while (hull.size() >= start + 2 && cross(hull[hull.size() - 2], hull.back(), point) <= 0)
                hull.pop_back();
            hull.push_back(point);
        }
        hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return hull;
}

double distance_to_side(const Vec2& point, const Domain& domain, int side) {
    const int axis = side / 2;
    return side % 2 == 0 ? point[axis] - domain.low[axis] : domain.high[axis] - point[axis];
}

} // namespace

bool TreatedArea::contains(const Vec2& point) const {
    if (empty())
        return false;
    for (std::size_t i = 0; i < corners_.size(); ++i) {
        const Vec2 &from = corners_[i], &to = corners_[(i + 1) % corners_.size()];
        if (cross(from, to, point) < -same_place_m * (to - from).norm())
            return false;
    }
    return true;
}

double TreatedArea::area_m2() const {
    double twice = 0;
    for (std::size_t i = 1; i + 1 < corners_.size(); ++i)
        twice += cross(corners_[0], corners_[i], corners_[i + 1]);
    return twice / 2;
}

std::array<bool, 4> mirror_sides(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m) {
    std::array<bool, 4> mirrors = {};
    for (int side = 0; side < 4; ++side) {
        if (domain.shape == DomainShape::Round && (side == East || side == North || domain.low[side / 2] < 0))
            continue;
        const auto kind = domain.side[static_cast<std::size_t>(side)];
        mirrors[static_cast<std::size_t>(side)] =
            kind == BoundaryKind::Symmetry ||
            (kind == BoundaryKind::RigidSmooth &&
             std::any_of(centers.begin(), centers.end(), [&](const Vec2& center) {
                 return distance_to_side(center, domain, side) <= cell_side_in_diameters * diameter_m;
             }));
    }
    return mirrors;
}

bool is_round_cell(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m) {
    return domain.shape == DomainShape::Round && centers.size() == 1 && centers[0].norm() < same_place_m &&
           domain.side[East] != BoundaryKind::ConstantStress &&
           domain.high.x() <= cell_side_in_diameters * diameter_m;
}

std::vector<Vec2> centers_with_images(const std::vector<Vec2>& centers, const Domain& domain,
                                      double diameter_m) {
    const auto mirrors = mirror_sides(centers, domain, diameter_m);
    std::vector<Vec2> all = centers;
    for (int side = 0; side < 4; ++side) {
        if (!mirrors[static_cast<std::size_t>(side)])
            continue;
        for (std::size_t i = 0, n = all.size(); i < n; ++i) {
            const double distance = distance_to_side(all[i], domain, side);
            if (std::abs(distance) < same_place_m) // on the line: it is its own image
                continue;
            Vec2 image = all[i];
            image[side / 2] += (side % 2 == 0 ? -2 : 2) * distance;
            all.push_back(image);
        }
    }
    return all;
}

double neighbor_distance_m(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m) {
    if (is_round_cell(centers, domain, diameter_m))
        return 2 * domain.high.x();
    const auto mirrors = mirror_sides(centers, domain, diameter_m);
    double smallest = smallest_distance_m(centers);
    for (int side = 0; side < 4; ++side)
        for (const auto& center : centers)
            if (const double distance = distance_to_side(center, domain, side);
                mirrors[static_cast<std::size_t>(side)] && distance > same_place_m)
                smallest = std::min(smallest, 2 * distance);
    return smallest;
}

TreatedArea treated_area(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m) {
    if (is_round_cell(centers, domain, diameter_m)) {
        constexpr int corners = 64;
        const double around = domain.high.x() / std::cos(std::numbers::pi / corners); // encloses the circle
        std::vector<Vec2> polygon;
        for (int k = 0; k < corners; ++k) {
            const double angle = 2 * std::numbers::pi * k / corners;
            polygon.emplace_back(around * std::cos(angle), around * std::sin(angle));
        }
        return TreatedArea(polygon);
    }
    const double spacing = neighbor_distance_m(centers, domain, diameter_m);
    if (!std::isfinite(spacing))
        return {};
    const TreatedArea between(convex_hull(centers_with_images(centers, domain, diameter_m)));
    if (between.area_m2() > 1e-6 * spacing * spacing) // less is the rounding of a turned row
        return between;
    std::vector<Vec2> squares;
    for (const auto& center : centers)
        for (const auto& [x, y] : {std::pair{-1, -1}, {1, -1}, {1, 1}, {-1, 1}})
            squares.push_back(center + spacing / 2 * Vec2(x, y));
    return TreatedArea(convex_hull(std::move(squares)));
}

} // namespace interpile::mesh
