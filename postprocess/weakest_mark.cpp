#include "postprocess/weakest_mark.h"

#include "postprocess/page.h"

#include <algorithm>
#include <array>

namespace interpile::postprocess {

namespace {

constexpr double arm_pt = 3.4, distance_pt = 6, text_pt = 6.5;

struct Box {
    Vec2 low, high; ///< [pt]
    double gap_to(const Vec2& point) const { return (point.cwiseMax(low).cwiseMin(high) - point).norm(); }
};

/// How much of the label is hidden or hides: outside the axes, over piles [pt].
double trouble_of(const Box& box, const Axes& axes, const io::ResultsHeader& header,
                  const io::ResultsStage& stage) {
    const Vec2 beyond = (axes.upper_left_pt - box.low).cwiseMax(box.high - axes.lower_right_pt());
    double trouble = 10 * beyond.cwiseMax(0.0).sum();
    for (Eigen::Index pile = 0; pile < header.pile_diameter_m.size(); ++pile) {
        const double radius =
            std::max(stage.disc_radius_m[pile], header.pile_diameter_m[pile] / 2) * axes.pt_per_unit_x();
        trouble += std::max(0.0, radius - box.gap_to(axes.to_page(stage.disc_center_m.col(pile))));
    }
    return trouble;
}

} // namespace

void draw_weakest_mark(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                       const io::ResultsStage& stage, const WeakestMark& mark) {
    const Vec2 at = axes.to_page(mark.at_m);
    for (const Pen& pen : {Pen{2.6, {1, 1, 1}}, Pen{1.0, ink}})
        for (const Vec2& arm : {Vec2(arm_pt, arm_pt), Vec2(arm_pt, -arm_pt)})
            canvas.stroke({at - arm, at + arm}, pen);

    TextStyle style{text_pt, Align::Left, ink, true};
    style.halo_pt = 1.3;
    const double width = canvas.text_width(mark.text, style), half = 0.36 * text_pt;
    // Left end of the base line: right and left of the cross; above and below it, in the middle, to the left, to the right.
    const double above = -distance_pt, below = distance_pt + 2 * half, to_left = -width - 1;
    const std::array<Vec2, 8> places = {at + Vec2(distance_pt, half), at + Vec2(-distance_pt - width, half),
                                        at + Vec2(-width / 2, above), at + Vec2(-width / 2, below),
                                        at + Vec2(to_left, above),    at + Vec2(to_left, below),
                                        at + Vec2(1, above),          at + Vec2(1, below)};
    const auto trouble = [&](const Vec2& place) {
        return trouble_of({place - Vec2(1, 2 * half + 1), place + Vec2(width + 1, 1.5)}, axes, header, stage);
    };
    const auto best = std::min_element(places.begin(), places.end(), [&](const Vec2& a, const Vec2& b) {
        return trouble(a) < trouble(b) - 0.1;
    });
    canvas.text(mark.text, *best, style);
}

} // namespace interpile::postprocess
