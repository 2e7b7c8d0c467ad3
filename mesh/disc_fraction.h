#pragma once
// Exact area that a disc shares with a cell.

#include "mesh/domain.h"

#include <array>

namespace interpile::mesh {

/// Area of the disc (center, radius) inside a quadrilateral with straight edges [m2], exact to round-off.
/// \param corner counterclockwise; convex or not, but not self-crossing
double disc_area_in_quadrilateral(const Vec2& center, double radius_m, const std::array<Vec2, 4>& corner);

/// Area of a quadrilateral, counterclockwise positive [m2].
double quadrilateral_area(const std::array<Vec2, 4>& corner);

} // namespace interpile::mesh
