#include "postprocess/figures/density_distribution.h"

#include "postprocess/axes.h"
#include "postprocess/curve_pens.h"
#include "postprocess/ground.h"
#include "postprocess/ground_summary.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double plot_height_pt = 190, label_row_pt = 12;
constexpr double end_share = 0.002;
const Pen before_pen{1.0, soft_ink}, after_pen{1.2, curve_colors[0]};
const Pen target_pen{0.7, warning_ink, {4, 2.5}};

struct Content {
    PageText text;
    Axes axes;
    std::vector<Vec2> before, after; ///< D_r [%], share of the area with less [%]
    std::vector<Vec2> told;          ///< points of `after`
    std::string after_name;
    double median_before = 0;
    std::optional<double> target;
    double share_below_target = 0;
};

/// Corners of the curve, from 0 to 100 % of the area.
std::vector<Vec2> curve_of(const AreaDistribution& distribution) {
    std::vector<Vec2> curve = {{distribution.steps().front().first, 0}};
    for (const auto& [value, share] : distribution.steps())
        curve.emplace_back(value, 100 * share);
    return curve;
}

/// Names above the frame, each over its curve, moved apart where they would touch.
void draw_names(Canvas& canvas, const Content& content) {
    struct Name {
        double at;
        std::string text;
        Color color;
    };
    std::vector<Name> names = {{content.median_before, "before", before_pen.color},
                               {content.told[2].x(), content.after_name, after_pen.color}};
    if (content.target)
        names.push_back({*content.target, fmt::format("target {:.4g} %", *content.target), target_pen.color});
    std::sort(names.begin(), names.end(), [](const Name& a, const Name& b) { return a.at < b.at; });
    double free_from = page_margin_pt;
    for (const auto& name : names) {
        const double width = canvas.text_width(plain(name.text), {6.5});
        const double left = std::max(free_from, content.axes.to_page({name.at, 0}).x() - width / 2);
        canvas.text(plain(name.text), {left, content.axes.upper_left_pt.y() - 3.5},
                    {6.5, Align::Left, name.color});
        free_from = left + width + 6;
    }
}

void draw(Canvas& canvas, const Content& content) {
    const auto& axes = content.axes;
    draw_head(canvas, content.text);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        if (content.target)
            canvas.stroke(axes.line_to_page({{*content.target, 0}, {*content.target, axes.high.y()}}),
                          target_pen);
        canvas.stroke(axes.line_to_page(content.before), before_pen);
        canvas.stroke(axes.line_to_page(content.after), after_pen);
        if (content.target)
            canvas.fill_circle(axes.to_page({*content.target, 100 * content.share_below_target}), 1.9,
                               warning_ink);
        TextStyle style{6.5, Align::Left, after_pen.color};
        style.halo_pt = 1.2;
        for (const auto& point : content.told) {
            const Vec2 at = axes.to_page(point);
            const auto label = plain(fmt::format("{:.1f}", point.x()));
            const bool has_room = at.x() + 4.5 + canvas.text_width(label, style) < axes.lower_right_pt().x();
            style.align = has_room ? Align::Left : Align::Right;
            canvas.fill_circle(at, 1.9, after_pen.color);
            canvas.text(label, at + (has_room ? Vec2(4.5, 6) : Vec2(-4.5, -2)), style);
        }
    });
    draw_names(canvas, content);
    draw_axes(canvas, axes, plain("relative density ") + symbol("D_r") + plain(" (%)"),
              plain("area with less than this (%)"));
    draw_foot(canvas, content.text, axes.lower_right_pt().y() + axis_height_pt);
}

} // namespace

Drawing density_distribution(const io::ResultsHeader& header, const io::ResultsStage& before,
                             const io::ResultsStage& stage) {
    const std::string field = "relative_density_pct";
    const auto first = between_piles(header, before, field), last = between_piles(header, stage, field);
    if (!first || !last)
        throw std::invalid_argument(
            "the layout has no ground between piles, so that nothing can be told of it");
    const auto content = std::make_shared<Content>();
    content->before = curve_of(first->distribution);
    content->after = curve_of(last->distribution);
    for (const double share : told_shares)
        content->told.emplace_back(last->distribution.quantile(share), 100 * share);
    content->after_name = stage_in_words(header, stage);
    content->median_before = first->distribution.quantile(0.5);
    content->target = header.target_relative_density_pct;

    content->text = page_text(header);
    auto& text = content->text;
    text.subtitle = plain("Relative density ") + symbol("D_r") +
                    plain(fmt::format(" over the treated area of {:.4g} m\u00b2, {:.4g} m below ground",
                                      last->area_m2, header.depth_m));
    text.notes.push_back(
        plain(fmt::format("Pile material left out, smoothed as in the contours: least {:.1f} %, most "
                          "{:.1f} %. Mean {:.1f} % before, {:.1f} % now.",
                          last->least, last->most, first->mean, last->mean)));
    text.notes.push_back(plain("Dots: 5, 25, 50, 75 and 95 % of the area have less."));
    if (content->target) {
        content->share_below_target = last->distribution.share_below(*content->target);
        text.notes.push_back(plain(fmt::format("{:.1f} % of the area is below the target of {:.4g} %.",
                                               100 * content->share_below_target, *content->target)));
    }
    if (header.monotonic_density)
        text.warnings.emplace_back(no_prediction);
    if (!stage.converged)
        text.warnings.emplace_back(not_a_result);

    // The ends of the curve, a few cells, would take most of the width.
    double low = std::min(first->distribution.quantile(end_share), last->distribution.quantile(end_share));
    double high =
        std::max(first->distribution.quantile(1 - end_share), last->distribution.quantile(1 - end_share));
    if (content->target) {
        low = std::min(low, *content->target);
        high = std::max(high, *content->target);
    }
    const double room = std::max(0.06 * (high - low), 0.5);
    const double left = page_margin_pt + axis_width_pt;
    content->axes = {{low - room, 0},
                     {high + room, 100},
                     {left, head_height_pt(text) + label_row_pt},
                     {text.width_pt - left - page_margin_pt - 6, plot_height_pt}};
    const Vec2 size(text.width_pt,
                    content->axes.lower_right_pt().y() + axis_height_pt + foot_height_pt(text));
    return {size, text.title + ": distribution of relative density", header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
