#pragma once
// Hatching, so that areas differ without color.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Lines rising to the right at 45 degrees, `gap_pt` apart.
void hatch_rectangle(Canvas& canvas, const Vec2& low, const Vec2& high, double gap_pt, const Pen& pen);
void hatch_circle(Canvas& canvas, const Vec2& center, double radius_pt, double gap_pt, const Pen& pen);

} // namespace interpile::postprocess
