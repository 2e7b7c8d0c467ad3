#include "postprocess/label_places.h"

#include <limits>

namespace interpile::postprocess {

namespace {

/// Cost of 1 pt away from the circle, in terms of covering 1 pt2 of a mark.
constexpr double distance_cost = 0.8;
/// Share of a word that may lie over marks.
constexpr double most_covering = 0.03;
constexpr double line_step_pt = 2;

std::vector<PageBox> boxes_at(const Vec2& center, double radius, const Vec2& size, double away) {
    std::vector<PageBox> boxes;
    const auto add = [&](const Vec2& middle) { boxes.push_back({middle - 0.5 * size, middle + 0.5 * size}); };
    for (const double side : {1.0, -1.0})
        add(center + Vec2(side * (radius + away + 0.5 * size.x()), 0));
    for (const double side : {-1.0, 1.0})
        for (const double shift : {1.0, 0.5, 0.0, -0.5, -1.0})
            add(center + Vec2(shift * (radius + 0.5 * size.x()), side * (radius + away + 0.5 * size.y())));
    return boxes;
}

double covered(const PageBox& box, const std::vector<PageBox>& others) {
    double sum = 0;
    for (const auto& other : others)
        sum += overlap_area(box, other);
    return sum;
}

/// The line to a word as a chain of small boxes.
std::vector<PageBox> chain(const Polyline& line) {
    std::vector<PageBox> boxes;
    const Vec2 way = line[1] - line[0];
    for (double at = 0.5 * line_step_pt; at < way.norm(); at += line_step_pt) {
        const Vec2 middle = line[0] + at * way.normalized();
        boxes.push_back({middle - Vec2::Constant(0.5), middle + Vec2::Constant(0.5)});
    }
    return boxes;
}

} // namespace

double overlap_area(const PageBox& a, const PageBox& b) {
    const Vec2 common = (a.high.cwiseMin(b.high) - a.low.cwiseMax(b.low)).cwiseMax(0);
    return common.prod();
}

Polyline leading_line(const Vec2& center_pt, double radius_pt, const PageBox& box) {
    const Vec2 end = box.nearest(center_pt);
    const double length = (end - center_pt).norm();
    return {length > radius_pt ? Vec2(center_pt + radius_pt / length * (end - center_pt)) : end, end};
}

std::optional<PageBox> LabelPlaces::place(const Vec2& center_pt, double radius_pt, const Vec2& size_pt) {
    const double area = size_pt.prod();
    std::optional<PageBox> best;
    double least = std::numeric_limits<double>::infinity();
    for (const double away_pt : {1.5, 4.0, 8.0, 13.0, 19.0, 26.0, 34.0, 43.0})
        for (const auto& box : boxes_at(center_pt, radius_pt, size_pt, away_pt)) {
            const double on_marks = covered(box, marks_);
            double on_words = covered(box, taken_), line_on_marks = 0;
            for (const auto& link : chain(leading_line(center_pt, radius_pt, box))) {
                on_words += covered(link, taken_);
                line_on_marks += covered(link, marks_);
            }
            const bool inside = overlap_area(box, frame_) > 0.999 * area;
            const bool legible = on_words == 0 && line_on_marks == 0 && on_marks <= most_covering * area;
            const double cost = on_marks + distance_cost * away_pt;
            if (inside && legible && cost < least) {
                least = cost;
                best = box;
            }
        }
    if (best) {
        taken_.push_back(*best);
        for (const auto& link : chain(leading_line(center_pt, radius_pt, *best)))
            taken_.push_back(link);
    }
    return best;
}

} // namespace interpile::postprocess
