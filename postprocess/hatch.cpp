#include "postprocess/hatch.h"

#include <algorithm>
#include <cmath>
#include <limits>
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

namespace {

/// Where a line of the pattern, at `away` along `across` from the origin, passes through the outlines: distances along it,
/// ascending.
std::vector<double> crossings(const std::vector<Polyline>& outlines, double away, const Vec2& along,
                              const Vec2& across) {
    std::vector<double> at;
    for (const auto& outline : outlines)
        for (std::size_t k = 0; k < outline.size(); ++k) {
            const Vec2 &from = outline[k], &to = outline[(k + 1) % outline.size()];
            const double a = from.dot(across) - away, b = to.dot(across) - away;
            if ((a < 0) != (b < 0))
                at.push_back((from + a / (a - b) * (to - from)).dot(along));
        }
    std::sort(at.begin(), at.end());
    return at;
}

} // namespace

void hatch_area(Canvas& canvas, const std::vector<Polyline>& outlines, double gap_pt, const Pen& pen) {
    const Vec2 along = Vec2(1, -1).normalized(), across = Vec2(1, 1).normalized();
    double first = std::numeric_limits<double>::infinity(), last = -first;
    for (const auto& outline : outlines)
        for (const auto& corner : outline) {
            first = std::min(first, corner.dot(across));
            last = std::max(last, corner.dot(across));
        }
    for (double away = gap_pt * std::ceil(first / gap_pt); away < last; away += gap_pt) {
        const auto at = crossings(outlines, away, along, across);
        for (std::size_t k = 0; k + 1 < at.size(); k += 2)
            canvas.stroke({away * across + at[k] * along, away * across + at[k + 1] * along}, pen);
    }
}

} // namespace interpile::postprocess
