#include "postprocess/figures/blow_count_chart.h"

#include "postprocess/axes.h"
#include "postprocess/curve_labels.h"
#include "postprocess/figure_text.h"
#include "postprocess/key.h"
#include "postprocess/markers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double plot_height_pt = 250, names_pt = 78, key_gap_pt = 5;
constexpr double marker_distance_pt = 56;
constexpr double least_width_pt = 300;
const std::vector<double> outside_dash = {3, 2};
const Pen before_pen{0.9, ink, {7, 2, 1.2, 2}};
const Pen target_pen{1.3, ink};
constexpr double measured_radius_pt = 2.6;
const Pen open_circle_pen{1.0, ink};

struct Content {
    BlowCountFigure figure;
    PageText text;
    double highest = 1; ///< upper end of the axis of N

    Axes axes() const {
        return {{0, 0},
                {figure.largest_ratio, highest},
                {page_margin_pt + axis_width_pt, head_height_pt(text) + 4},
                {text.text_width_pt() - axis_width_pt - names_pt, plot_height_pt}};
    }
};

bool on_axis(const BlowCountFigure& figure, const Vec2& point) {
    return point.allFinite() && point.x() >= 0 && point.x() <= figure.largest_ratio;
}

std::vector<Vec2> finite(const std::vector<Vec2>& points) {
    std::vector<Vec2> all;
    std::copy_if(points.begin(), points.end(), std::back_inserter(all),
                 [](const Vec2& point) { return point.allFinite(); });
    return all;
}

Vec2 at_ratio(const Vec2& from, const Vec2& to, double ratio) {
    return from + (ratio - from.x()) / (to.x() - from.x()) * (to - from);
}

/// The part of a curve where its method holds and the part beyond.
struct Parts {
    std::vector<Vec2> inside, outside;
};

Parts parts_of(const BlowCountCurve& curve) {
    Parts parts;
    const auto points = finite(curve.points);
    for (std::size_t k = 0; k < points.size(); ++k) {
        const bool out = points[k].x() > curve.outside_from;
        if (out && parts.outside.empty() && !parts.inside.empty()) {
            const Vec2 limit = at_ratio(points[k - 1], points[k], curve.outside_from);
            parts.inside.push_back(limit);
            parts.outside.push_back(limit);
        }
        (out ? parts.outside : parts.inside).push_back(points[k]);
    }
    return parts;
}

bool any_outside(const BlowCountFigure& figure) {
    return std::any_of(figure.curves.begin(), figure.curves.end(), [&](const BlowCountCurve& curve) {
        const auto points = finite(curve.points);
        return !points.empty() && curve.outside_from < std::min(points.back().x(), figure.largest_ratio);
    });
}

/// What a curve shows on the axis, its value at the end of the axis included.
std::vector<Vec2> shown_part(const BlowCountFigure& figure, const BlowCountCurve& curve) {
    std::vector<Vec2> shown;
    const auto points = finite(curve.points);
    for (std::size_t k = 0; k < points.size(); ++k)
        if (on_axis(figure, points[k]))
            shown.push_back(points[k]);
        else if (k > 0 && on_axis(figure, points[k - 1]))
            shown.push_back(at_ratio(points[k - 1], points[k], figure.largest_ratio));
    return shown;
}

/// Marks tell the curves apart in gray; staggered, so that curves close together do not hide them.
void draw_curve_marks(Canvas& canvas, const Content& content, std::size_t k) {
    const Axes axes = content.axes();
    const auto points = finite(content.figure.curves[k].points);
    if (points.size() == 1 && on_axis(content.figure, points[0]))
        draw_marker(canvas, axes.to_page(points[0]), k);
    const double share = (static_cast<double>(k) + 0.5) / static_cast<double>(content.figure.curves.size());
    double next_pt = axes.upper_left_pt.x() + share * marker_distance_pt;
    for (std::size_t i = 1; i < points.size(); ++i)
        for (const Vec2 from = axes.to_page(points[i - 1]), to = axes.to_page(points[i]);
             next_pt <= std::min(to.x(), axes.lower_right_pt().x()); next_pt += marker_distance_pt)
            if (next_pt >= from.x() && to.x() > from.x())
                draw_marker(canvas, at_ratio(from, to, next_pt), k);
}

void draw_levels(Canvas& canvas, const Content& content) {
    const Axes axes = content.axes();
    std::vector<CurveLabel> names;
    const auto level = [&](std::optional<double> blow_count, const Pen& pen, const char* name) {
        if (!blow_count)
            return;
        canvas.stroke(axes.line_to_page({{0, *blow_count}, {content.figure.largest_ratio, *blow_count}}),
                      pen);
        names.push_back(
            {axes.to_page({0, *blow_count}).y(), plain(fmt::format("{} {:.3g}", name, *blow_count)), ink});
    };
    level(content.figure.blow_count_before, before_pen, "before: N =");
    level(content.figure.target, target_pen, "target: N =");
    draw_curve_labels(canvas, names, axes.lower_right_pt().x(), axes.upper_left_pt.y(),
                      axes.lower_right_pt().y());
}

std::vector<KeyEntry> key_of(const BlowCountFigure& figure) {
    std::vector<KeyEntry> key;
    for (std::size_t k = 0; k < figure.curves.size(); ++k)
        key.push_back(
            {figure.curves[k].name, [k](Canvas& canvas, const Vec2& left) {
                 canvas.stroke({left, left + Vec2(key_symbol_pt, 0)}, {1.0, dashed_curve_pen(k).color});
                 draw_marker(canvas, left + Vec2(0.5 * key_symbol_pt, 0), k);
             }});
    if (any_outside(figure))
        key.push_back(line_entry("dashed: beyond the range of the method", {1.0, soft_ink, outside_dash}));
    if (figure.blow_count_before)
        key.push_back(line_entry("N before treatment", before_pen));
    if (figure.target)
        key.push_back(line_entry("target N", target_pen));
    if (!figure.measured.empty())
        key.push_back({figure.measured_name, [](Canvas& canvas, const Vec2& left) {
                           canvas.fill_circle(left + Vec2(0.5 * key_symbol_pt, 0), measured_radius_pt, ink);
                       }});
    if (!figure.also_measured.empty())
        key.push_back({figure.also_measured_name, [](Canvas& canvas, const Vec2& left) {
                           canvas.stroke_circle(left + Vec2(0.5 * key_symbol_pt, 0), measured_radius_pt,
                                                open_circle_pen);
                       }});
    return key;
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    const Axes axes = content.axes();
    draw_levels(canvas, content);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        for (std::size_t k = 0; k < content.figure.curves.size(); ++k) {
            const auto parts = parts_of(content.figure.curves[k]);
            const Color color = dashed_curve_pen(k).color;
            canvas.stroke(axes.line_to_page(parts.inside), {1.0, color});
            canvas.stroke(axes.line_to_page(parts.outside), {1.0, color, outside_dash});
        }
    });
    draw_axes(canvas, axes, plain("area replacement ratio ") + symbol("a_s") + plain(" (-)"),
              plain("blow count N after treatment (-)"));
    for (std::size_t k = 0; k < content.figure.curves.size(); ++k)
        draw_curve_marks(canvas, content, k);
    for (const auto& point : content.figure.measured)
        if (on_axis(content.figure, point))
            canvas.fill_circle(axes.to_page(point), measured_radius_pt, ink);
    for (const auto& point : content.figure.also_measured)
        if (on_axis(content.figure, point))
            canvas.stroke_circle(axes.to_page(point), measured_radius_pt, open_circle_pen);
    const auto key = key_of(content.figure);
    const double key_top = axes.lower_right_pt().y() + axis_height_pt + key_gap_pt;
    draw_key(canvas, key, {page_margin_pt, key_top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, key_top + key_height_pt(key, content.text.text_width_pt()));
}

std::shared_ptr<const Content> content_of(const BlowCountFigure& figure) {
    auto content = std::make_shared<Content>();
    content->figure = figure;
    double highest = std::max(figure.blow_count_before.value_or(0), figure.target.value_or(0));
    bool any = false;
    std::size_t not_shown = 0;
    for (const auto& curve : figure.curves)
        for (const auto& point : shown_part(figure, curve)) {
            highest = std::max(highest, point.y());
            any = true;
        }
    if (!any)
        throw std::invalid_argument("there is no curve of N to draw over the area replacement ratio");
    for (const auto* points : {&figure.measured, &figure.also_measured})
        for (const auto& point : *points)
            if (on_axis(figure, point))
                highest = std::max(highest, point.y());
            else
                ++not_shown;
    content->highest = highest > 0 ? 1.08 * highest : 1;
    auto noted = figure;
    if (not_shown > 0)
        noted.notes.push_back(fmt::format("{} of {} measured values lie beyond the axis of a_s.", not_shown,
                                          figure.measured.size() + figure.also_measured.size()));
    content->text = figure_text(noted);
    content->text.width_pt = page_width_pt(least_width_pt);
    return content;
}

} // namespace

Drawing blow_count_chart(const BlowCountFigure& figure) {
    if (!(figure.largest_ratio > 0))
        throw std::invalid_argument(
            fmt::format("the axis of the area replacement ratio ends at {}", figure.largest_ratio));
    const auto content = content_of(figure);
    const Vec2 size(content->text.width_pt, content->axes().lower_right_pt().y() + axis_height_pt +
                                                key_gap_pt +
                                                key_height_pt(key_of(figure), content->text.text_width_pt()) +
                                                foot_height_pt(content->text));
    return {size, figure.title + ": blow count over replacement", {}, [content](Canvas& canvas) {
                draw(canvas, *content);
            }};
}

} // namespace interpile::postprocess
