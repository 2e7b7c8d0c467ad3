#include "solver/surroundings/ground_displacement.h"

#include "solver/number_check.h"

#include <cmath>
#include <limits>

namespace interpile::solver {
namespace {

constexpr double no_end = std::numeric_limits<double>::max();

void check(const PileBody& body) {
    require_positive("radius_m", body.radius_m);
    require_between("bottom_depth_m", body.bottom_depth_m, 0, no_end);
    require_between("top_depth_m", body.top_depth_m, 0, body.bottom_depth_m);
    require_positive("bottom_depth_m - top_depth_m", body.bottom_depth_m - body.top_depth_m);
}

/// A line of sources from the surface to depth L; 0 for L = 0.
SurfaceDisplacement from_surface_to(double L, double r, double R) {
    const double s = std::hypot(r, L);
    return {R * R * L / (2 * r * s),
            R * R / 2 * (L / r) * (L / s) / (r + s)}; // (1/r - 1/s) without the difference
}

SurfaceDisplacement unchecked(double r, const PileBody& body) {
    const auto whole = from_surface_to(body.bottom_depth_m, r, body.radius_m);
    const auto above = from_surface_to(body.top_depth_m, r, body.radius_m);
    return {whole.outward_m - above.outward_m, whole.heave_m - above.heave_m};
}

} // namespace

SurfaceDisplacement surface_displacement(double distance_m, const PileBody& body) {
    check(body);
    require_between("distance_m", distance_m, body.radius_m, no_end);
    return unchecked(distance_m, body);
}

double deep_displacement_m(double distance_m, double radius_m) {
    require_between("distance_m", distance_m, 0, no_end);
    require_positive("radius_m", radius_m);
    return radius_m * radius_m / (distance_m + std::hypot(distance_m, radius_m)); // without the difference
}

GroupDisplacement group_displacement(const Vec2& at_m, const std::vector<Vec2>& centers_m,
                                     const PileBody& body, double efficiency) {
    check(body);
    require_between("efficiency", efficiency, 0, 1);
    GroupDisplacement sum;
    for (const Vec2& center : centers_m) {
        const Vec2 from_pile = at_m - center;
        const double r = from_pile.norm();
        require_between("distance_m", r, body.radius_m, no_end);
        const auto one = unchecked(r, body);
        sum.shift_m += (1 - efficiency) * one.outward_m / r * from_pile;
        sum.heave_m += (1 - efficiency) * one.heave_m;
    }
    return sum;
}

} // namespace interpile::solver
