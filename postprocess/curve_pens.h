#pragma once
// Pens of curves that share a plot.

#include "postprocess/canvas.h"

#include <array>

namespace interpile::postprocess {

/// Colors that differ in lightness too, so that curves can be told apart in gray.
inline constexpr std::array<Color, 6> curve_colors = {Color{0.10, 0.28, 0.52}, Color{0.80, 0.40, 0.05},
                                                      Color{0.05, 0.50, 0.40}, Color{0.62, 0.10, 0.30},
                                                      Color{0.45, 0.45, 0.48}, Color{0.35, 0.60, 0.85}};

/// After the last color dashes begin.
inline Pen curve_pen(std::size_t curve) {
    Pen pen{0.9, curve_colors[curve % curve_colors.size()]};
    if (curve >= curve_colors.size())
        pen.dash_pt = {3, 1.5};
    return pen;
}

} // namespace interpile::postprocess
