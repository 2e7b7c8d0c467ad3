#pragma once
// Fixed places in plan at which the ground is watched, set out as soundings after the work would be.

#include "mesh/domain.h"

#include <string>
#include <vector>

namespace interpile::mesh {

struct ObservationPoint {
    std::string name;
    Vec2 at_m = {0, 0};
};

/// Names of the points that every layout has.
inline constexpr const char* mid_span_name = "mid-span";
inline constexpr const char* centroid_name = "centroid";
inline constexpr const char* rim_name = "rim";

/// The places where ground between piles is usually tested, each the one nearest to the middle of the layout (among
/// equals the one of the lowest pile numbers):
/// mid-span: middle between two neighboring piles, that is with no other pile in the circle over their distance;
/// centroid: equally far from the three or four nearest piles, the middle of their square or triangle.
/// Images of piles at sides that act as lines of symmetry count as piles. One pile in a round cell: a point of the rim
/// (half the spacing of the pattern). A point is left out where the layout has none.
std::vector<ObservationPoint> usual_points(const std::vector<Vec2>& centers, const Domain& domain,
                                           double diameter_m);

} // namespace interpile::mesh
