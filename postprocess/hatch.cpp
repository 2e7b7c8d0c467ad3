#include "postprocess/hatch.h"

#include <cmath>
#include <numbers>

namespace interpile::postprocess {

void hatch_rectangle(Canvas& canvas, const Vec2& low, const Vec2& high, double gap_pt, const Pen& pen) {
    const Vec2 size = high - low;
    const double step = gap_pt * std::numbers::sqrt2; // along the upper side
    canvas.clipped(low, high, [&] {
        for (double x = low.x() + step; x < high.x() + size.y(); x += step)
            canvas.stroke({{x, low.y()}, {x - size.y(), high.y()}}, pen);
    });
}

void hatch_circle(Canvas& canvas, const Vec2& center, double radius_pt, double gap_pt, const Pen& pen) {
    const Vec2 along = Vec2(1, -1).normalized(), across = Vec2(1, 1).normalized();
    const int lines = static_cast<int>(radius_pt / gap_pt);
    for (int k = -lines; k <= lines; ++k) {
        const double away = k * gap_pt;
        const double half = std::sqrt(std::max(0.0, radius_pt * radius_pt - away * away));
        canvas.stroke({center + away * across - half * along, center + away * across + half * along}, pen);
    }
}

} // namespace interpile::postprocess
