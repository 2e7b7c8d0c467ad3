#include "postprocess/markers.h"

#include <algorithm>
#include <array>

namespace interpile::postprocess {

namespace {

constexpr Color white{1, 1, 1};

/// Corners in units of the radius; the first shape is a circle and has none.
const std::array<std::vector<Vec2>, 6> corners = {std::vector<Vec2>{},
                                                  {{-0.9, -0.9}, {0.9, -0.9}, {0.9, 0.9}, {-0.9, 0.9}},
                                                  {{0, -1.25}, {1.1, 0.75}, {-1.1, 0.75}},
                                                  {{0, -1.3}, {1.1, 0}, {0, 1.3}, {-1.1, 0}},
                                                  {{-0.9, -0.9}, {0.9, -0.9}, {0.9, 0.9}, {-0.9, 0.9}},
                                                  {{0, 1.25}, {1.1, -0.75}, {-1.1, -0.75}}};

} // namespace

Pen dashed_curve_pen(std::size_t curve) {
    static const std::array<std::vector<double>, 6> dashes = {
        std::vector<double>{}, {5, 1.8},   {1.2, 1.4},
        {6, 1.6, 1.2, 1.6},    {2.6, 1.2}, {7, 1.4, 1, 1.4, 1, 1.4}};
    return {1.0, curve_colors[curve % curve_colors.size()], dashes[curve % dashes.size()]};
}

void draw_marker(Canvas& canvas, const Vec2& at, std::size_t curve) {
    const Color color = curve_colors[curve % curve_colors.size()];
    const Color inside = curve % 2 == 1 ? color : white;
    const Pen edge{0.8, color};
    const auto& shape = corners[curve % corners.size()];
    if (shape.empty()) {
        canvas.fill_circle(at, marker_radius_pt, inside);
        canvas.stroke_circle(at, marker_radius_pt, edge);
        return;
    }
    Polyline outline;
    for (const auto& corner : shape)
        outline.push_back(at + marker_radius_pt * corner);
    canvas.fill({outline}, inside);
    canvas.stroke(outline, edge, true);
}

void draw_beyond_mark(Canvas& canvas, const Vec2& at, const Vec2& toward, std::size_t curve) {
    const Vec2 across(-toward.y(), toward.x());
    const double half = std::max(1.6, 3.6 - 1.0 * static_cast<double>(curve));
    canvas.fill({{at + 2 * half * toward, at + half * across, at - half * across}},
                curve_colors[curve % curve_colors.size()]);
}

} // namespace interpile::postprocess
