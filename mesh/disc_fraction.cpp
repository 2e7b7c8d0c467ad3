#include "mesh/disc_fraction.h"

#include <algorithm>
#include <cmath>

namespace interpile::mesh {
namespace {

double cross(const Vec2& a, const Vec2& b) {
    return a.x() * b.y() - a.y() * b.x();
}

double sector(const Vec2& a, const Vec2& b, double radius) {
    return 0.5 * radius * radius * std::atan2(cross(a, b), a.dot(b));
}

/// Signed area that the disc about the origin shares with the triangle (origin, p, q).
double triangle_part(const Vec2& p, const Vec2& q, double radius) {
    const Vec2 d = q - p;
    const double length2 = d.squaredNorm();
    if (length2 == 0)
        return 0;
    // Points p + t d on the circle: length2 t^2 + 2 (p.d) t + p.p - r^2 = 0.
    const double half_b = p.dot(d);
    const double discriminant = half_b * half_b - length2 * (p.squaredNorm() - radius * radius);
    if (discriminant <= 0)
        return sector(p, q, radius);
    const double root = std::sqrt(discriminant);
    const double enter = std::clamp((-half_b - root) / length2, 0.0, 1.0);
    const double leave = std::clamp((-half_b + root) / length2, 0.0, 1.0);
    if (enter >= leave) // the chord lies outside the edge
        return sector(p, q, radius);
    const Vec2 a = p + enter * d;
    const Vec2 b = p + leave * d;
    return (enter > 0 ? sector(p, a, radius) : 0) + 0.5 * cross(a, b) +
           (leave < 1 ? sector(b, q, radius) : 0);
}

} // namespace

double disc_area_in_quadrilateral(const Vec2& center, double radius_m, const std::array<Vec2, 4>& corner) {
    double area = 0;
    for (int k = 0; k < 4; ++k)
        area += triangle_part(corner[k] - center, corner[(k + 1) % 4] - center, radius_m);
    return area;
}

double quadrilateral_area(const std::array<Vec2, 4>& corner) {
    return 0.5 * cross(corner[2] - corner[0], corner[3] - corner[1]);
}

} // namespace interpile::mesh
