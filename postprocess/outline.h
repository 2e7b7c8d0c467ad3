#pragma once
// The border of many polygons that touch.

#include "mesh/domain.h"

#include <vector>

namespace interpile::postprocess {

using Polygon = std::vector<int>; ///< indices of points, counterclockwise

/// Closed border lines of the union: edges that two polygons share (in opposite directions) cancel. One path
/// per band instead of one per polygon makes files about twenty times smaller and leaves no hairlines inside
/// a band.
/// \return outer borders counterclockwise, holes clockwise, in an order that depends only on the
/// input
std::vector<std::vector<mesh::Vec2>> outline(const std::vector<Polygon>& polygons,
                                             const std::vector<mesh::Vec2>& points);

/// Area of a closed line, counterclockwise positive [m2].
double ring_area(const std::vector<mesh::Vec2>& ring);

} // namespace interpile::postprocess
