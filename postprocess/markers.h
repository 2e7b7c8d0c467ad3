#pragma once
// Marks of points and lines of curves that stay apart in a gray print.

#include "postprocess/curve_pens.h"

namespace interpile::postprocess {

constexpr double marker_radius_pt = 2.1;

/// Color and dashes of a curve among others.
Pen dashed_curve_pen(std::size_t curve);

/// Mark of a curve among others: six shapes, open and solid by turns.
void draw_marker(Canvas& canvas, const Vec2& at, std::size_t curve);

/// Triangle at the side of a plot that points to a value of a curve beyond it; smaller for later curves, so that
/// triangles at one place all show.
/// \param toward  direction on the page, of length 1
void draw_beyond_mark(Canvas& canvas, const Vec2& at, const Vec2& toward, std::size_t curve);

} // namespace interpile::postprocess
