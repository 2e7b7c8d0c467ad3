#pragma once
// Dimensions of a pile pattern.

#include "postprocess/axes.h"

namespace interpile::postprocess {

/// The smallest center to center distance as a dimension below the group and, where the next direction has
/// another one (a rectangular pattern), that as well, left of the group. Nothing for one pile.
/// \param clearance_m  of the dimension line from the centers, at least the radius of a pile
void draw_spacings(Canvas& canvas, const Axes& axes, const std::vector<Vec2>& centers_m, double clearance_m);

} // namespace interpile::postprocess
