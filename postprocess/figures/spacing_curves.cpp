#include "postprocess/figures/spacing_curves.h"

#include "postprocess/axes.h"
#include "postprocess/curve_labels.h"
#include "postprocess/figure_text.h"
#include "postprocess/key.h"
#include "postprocess/markers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double panel_height_pt = 150, panel_gap_pt = 8, names_pt = 84, key_gap_pt = 5;
constexpr double least_width_pt = 300;
const std::vector<double> weakest_dash = {3, 2};

struct Range {
    double low = HUGE_VAL, high = -HUGE_VAL;
    void include(double value) {
        if (std::isfinite(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
    /// With room, so that nothing touches the frame.
    Range widened(double share, double least) const {
        const double room = std::max(share * (high - low), 0.5 * (least - (high - low)));
        return {low >= 0 ? std::max(0.0, low - room) : low - room, high + room};
    }
    bool any() const { return low <= high; }
};

struct Content {
    SpacingFigure figure;
    PageText text;
    Range at, density, stress;

    /// Long names do not fit beside the curves and stand in the key.
    bool names_in_key() const {
        return std::any_of(figure.curves.begin(), figure.curves.end(),
                           [](const auto& curve) { return width_of(curve.name, 6.5) > names_pt - 4; });
    }
    double names_width_pt() const { return names_in_key() ? 12 : names_pt; }
};

/// Points with a value, in the order of the axis.
std::vector<Vec2> known(const SpacingCurve& curve, double SpacingPoint::*value) {
    std::vector<Vec2> points;
    for (const auto& point : curve.points)
        if (std::isfinite(point.at) && std::isfinite(point.*value))
            points.emplace_back(point.at, point.*value);
    std::sort(points.begin(), points.end(), [](const Vec2& a, const Vec2& b) { return a.x() < b.x(); });
    return points;
}

/// \param names  receives the names at the ends of the curves; null: none
void draw_curves(Canvas& canvas, const Content& content, const Axes& axes, double SpacingPoint::*value,
                 const std::vector<double>& dash, std::vector<CurveLabel>* names) {
    for (std::size_t k = 0; k < content.figure.curves.size(); ++k) {
        const auto& curve = content.figure.curves[k];
        const auto points = known(curve, value);
        if (points.empty())
            continue;
        const Color color = dashed_curve_pen(k).color;
        if (content.figure.joined)
            canvas.stroke(axes.line_to_page(points), {dash.empty() ? 1.1 : 0.8, color, dash});
        for (const auto& point : points)
            if (dash.empty())
                draw_marker(canvas, axes.to_page(point), k);
            else if (!content.figure.joined)
                canvas.stroke_circle(axes.to_page(point), 0.8, {0.6, color});
        if (names != nullptr && !curve.name.empty())
            names->push_back({axes.to_page(points.back()).y(), sentence(curve.name), color});
    }
}

void draw_names(Canvas& canvas, const std::vector<CurveLabel>& names, const Axes& axes) {
    draw_curve_labels(canvas, names, axes.lower_right_pt().x(), axes.upper_left_pt.y(),
                      axes.lower_right_pt().y());
}

Label axis_title(const SpacingFigure& figure) {
    return figure.over_replacement_ratio ? plain("area replacement ratio ") + symbol("a_s") + plain(" (-)")
                                         : plain("spacing ") + symbol("s") + plain(" (m)");
}

std::vector<KeyEntry> key_of_values(const SpacingFigure& figure) {
    if (figure.joined)
        return {line_entry("D_r, mean between the piles", {1.1, ink}),
                line_entry("D_r at the weakest place between the piles", {0.8, ink, weakest_dash})};
    const auto dot = [](double radius_pt) {
        return [radius_pt](Canvas& canvas, const Vec2& left) {
            canvas.stroke_circle(left + Vec2(0.5 * key_symbol_pt, 0), radius_pt, {0.7, ink});
        };
    };
    return {{"D_r, mean between the piles", dot(marker_radius_pt)},
            {"D_r at the weakest place between the piles", dot(0.8)}};
}

std::vector<KeyEntry> key_of(const Content& content) {
    auto key = key_of_values(content.figure);
    if (content.names_in_key())
        for (std::size_t k = 0; k < content.figure.curves.size(); ++k)
            key.push_back(
                {content.figure.curves[k].name, [k](Canvas& canvas, const Vec2& left) {
                     canvas.stroke({left, left + Vec2(key_symbol_pt, 0)}, {1.1, dashed_curve_pen(k).color});
                     draw_marker(canvas, left + Vec2(0.5 * key_symbol_pt, 0), k);
                 }});
    return key;
}

std::array<Axes, 2> axes_of(const Content& content) {
    const double left = page_margin_pt + axis_width_pt, top = head_height_pt(content.text) + 4;
    const Vec2 size(content.text.width_pt - left - content.names_width_pt() - page_margin_pt,
                    panel_height_pt);
    const double next = top + panel_height_pt + axis_height_pt + panel_gap_pt;
    const auto axes = [&](const Range& range, double upper) {
        return Axes{{content.at.low, range.low}, {content.at.high, range.high}, {left, upper}, size};
    };
    return {axes(content.density, top), axes(content.stress, next)};
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    const auto [density, stress] = axes_of(content);
    std::vector<CurveLabel> names;
    const bool beside = !content.names_in_key();
    draw_curves(canvas, content, density, &SpacingPoint::weakest_density_pct, weakest_dash, nullptr);
    draw_curves(canvas, content, density, &SpacingPoint::density_pct, {}, beside ? &names : nullptr);
    draw_names(canvas, names, density);
    draw_axes(canvas, density, axis_title(content.figure),
              plain("relative density ") + symbol("D_r") + plain(" (%)"));
    names.clear();
    draw_curves(canvas, content, stress, &SpacingPoint::stress_ratio, {}, beside ? &names : nullptr);
    draw_names(canvas, names, stress);
    draw_axes(canvas, stress, axis_title(content.figure),
              plain("lateral stress ratio ") + symbol("K") + plain(" (-)"));
    const auto key = key_of(content);
    const double key_top = stress.lower_right_pt().y() + axis_height_pt + key_gap_pt;
    draw_key(canvas, key, {page_margin_pt, key_top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, key_top + key_height_pt(key, content.text.text_width_pt()));
}

} // namespace

Drawing spacing_curves(const SpacingFigure& figure) {
    const auto content = std::make_shared<Content>();
    content->figure = figure;
    content->text = figure_text(figure);
    content->text.caution = simulated_caution;
    content->text.width_pt = page_width_pt(least_width_pt);
    for (const auto& curve : figure.curves) {
        for (const auto& point : known(curve, &SpacingPoint::density_pct)) {
            content->at.include(point.x());
            content->density.include(point.y());
        }
        for (const auto& point : known(curve, &SpacingPoint::weakest_density_pct))
            content->density.include(point.y());
        for (const auto& point : known(curve, &SpacingPoint::stress_ratio))
            content->stress.include(point.y());
    }
    if (!content->at.any())
        throw std::invalid_argument("there is no density to draw over the spacing");
    content->at = content->at.widened(0.05, figure.over_replacement_ratio ? 0.02 : 0.2);
    content->density = content->density.widened(0.08, 2);
    content->stress = (content->stress.any() ? content->stress : Range{0, 1}).widened(0.08, 0.2);
    const auto key = key_of(*content);
    const Vec2 size(content->text.width_pt,
                    axes_of(*content)[1].lower_right_pt().y() + axis_height_pt + key_gap_pt +
                        key_height_pt(key, content->text.text_width_pt()) + foot_height_pt(content->text));
    return {size, figure.title + ": density over spacing", {}, [content](Canvas& canvas) {
                draw(canvas, *content);
            }};
}

} // namespace interpile::postprocess
