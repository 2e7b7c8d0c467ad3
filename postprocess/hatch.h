#pragma once
// Hatching, so that areas differ without color.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Lines rising to the right at 45 degrees, `gap_pt` apart.
void hatch_rectangle(Canvas& canvas, const Vec2& low, const Vec2& high, double gap_pt, const Pen& pen);
void hatch_circle(Canvas& canvas, const Vec2& center, double radius_pt, double gap_pt, const Pen& pen);
/// Inside of closed outlines, holes by the even-odd rule; areas apart are hatched as parts of one pattern.
void hatch_area(Canvas& canvas, const std::vector<Polyline>& outlines, double gap_pt, const Pen& pen);

} // namespace interpile::postprocess
