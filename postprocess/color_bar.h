#pragma once
// Key of the bands: colors, limits, unit.

#include "postprocess/canvas.h"
#include "postprocess/scale.h"

namespace interpile::postprocess {

/// Vertical bar, most at the top; open ends are pointed and carry the extreme value of the ground.
/// \param title  stands above the bar, e.g. symbol and unit
void draw_color_bar(Canvas& canvas, const BandScale& scale, const Vec2& upper_left_pt, double height_pt,
                    const Label& title);

} // namespace interpile::postprocess
