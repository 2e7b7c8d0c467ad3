#include "postprocess/figures/prediction_scatter.h"

#include "postprocess/axes.h"
#include "postprocess/figure_text.h"
#include "postprocess/key.h"
#include "postprocess/markers.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double largest_side_pt = 320, line_names_pt = 12, line_names_width_pt = 26, key_gap_pt = 5;
constexpr double deviation = 0.3; ///< of the outer lines
const Pen equal_pen{0.9, ink};
const Pen deviation_pen{0.8, ink, {5, 2.5}};

/// Both values known.
std::vector<Vec2> pairs_of(const ScatterSeries& series) {
    std::vector<Vec2> all;
    std::copy_if(series.points.begin(), series.points.end(), std::back_inserter(all),
                 [](const Vec2& point) { return point.allFinite(); });
    return all;
}

struct Content {
    ScatterFigure figure;
    PageText text;
    double most = 1; ///< end of both axes

    Axes axes() const {
        const double side_pt =
            std::min(largest_side_pt, text.text_width_pt() - axis_width_pt - line_names_width_pt);
        const double left = std::max(0.5 * (text.width_pt - side_pt), page_margin_pt + axis_width_pt);
        return {{0, 0}, {most, most}, {left, head_height_pt(text) + line_names_pt}, {side_pt, side_pt}};
    }
};

std::vector<KeyEntry> key_of(const ScatterFigure& figure) {
    std::vector<KeyEntry> key;
    for (std::size_t k = 0; k < figure.series.size(); ++k) {
        const auto count = pairs_of(figure.series[k]).size();
        key.push_back({fmt::format("{} ({} point{})", figure.series[k].name, count, count == 1 ? "" : "s"),
                       [k](Canvas& canvas, const Vec2& left) {
                           draw_marker(canvas, left + Vec2(0.5 * key_symbol_pt, 0), k);
                       }});
    }
    key.push_back(line_entry("measured = predicted", equal_pen));
    key.push_back(line_entry(fmt::format("measured {:.0f} % above or below predicted", 100 * deviation),
                             deviation_pen));
    return key;
}

/// Lines through the origin; their names stand outside the frame, where no point is.
void draw_lines(Canvas& canvas, const Axes& axes, double most) {
    const double above = 1 + deviation, below = 1 - deviation;
    const Vec2 high(most / above, most), low(most, below * most);
    canvas.stroke(axes.line_to_page({{0, 0}, {most, most}}), equal_pen);
    canvas.stroke(axes.line_to_page({{0, 0}, high}), deviation_pen);
    canvas.stroke(axes.line_to_page({{0, 0}, low}), deviation_pen);
    const auto percent = [](int sign) { return plain(number(sign * 100 * deviation, 0) + " %"); };
    canvas.text(plain("+") + percent(1), axes.to_page(high) + Vec2(0, -3), {7, Align::Center, ink});
    canvas.text(plain("1 : 1"), axes.to_page({most, most}) + Vec2(0, -3), {7, Align::Center, ink});
    canvas.text(percent(-1), axes.to_page(low) + Vec2(3, 2.4), {7, Align::Left, ink});
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    const Axes axes = content.axes();
    draw_lines(canvas, axes, content.most);
    draw_axes(canvas, axes, plain("predicted N after treatment (-)"),
              plain("measured N after treatment (-)"));
    for (std::size_t k = 0; k < content.figure.series.size(); ++k)
        for (const auto& pair : pairs_of(content.figure.series[k]))
            draw_marker(canvas, axes.to_page(pair), k);
    const auto key = key_of(content.figure);
    const double key_top = axes.lower_right_pt().y() + axis_height_pt + key_gap_pt;
    draw_key(canvas, key, {page_margin_pt, key_top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, key_top + key_height_pt(key, content.text.text_width_pt()));
}

} // namespace

Drawing prediction_scatter(const ScatterFigure& figure) {
    const auto content = std::make_shared<Content>();
    content->figure = figure;
    content->text = figure_text(figure);
    double most = -1;
    for (const auto& series : figure.series)
        for (const auto& pair : pairs_of(series))
            most = std::max(most, pair.maxCoeff());
    if (most < 0)
        throw std::invalid_argument("there is no pair of predicted and measured N to draw");
    content->most = most > 0 ? 1.06 * most : 1;
    const Vec2 size(content->text.width_pt, content->axes().lower_right_pt().y() + axis_height_pt +
                                                key_gap_pt +
                                                key_height_pt(key_of(figure), content->text.text_width_pt()) +
                                                foot_height_pt(content->text));
    return {size, figure.title + ": measured against predicted", {}, [content](Canvas& canvas) {
                draw(canvas, *content);
            }};
}

} // namespace interpile::postprocess
