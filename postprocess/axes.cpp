#include "postprocess/axes.h"

#include "postprocess/scale.h"

#include <algorithm>
#include <cmath>

namespace interpile::postprocess {

namespace {

constexpr double tick_pt = 2.5;
const TextStyle number_style{6.5};
const TextStyle title_style{7.5, Align::Center};
const Pen frame_pen{0.6, {0.1, 0.1, 0.1}, {}};

/// Most ticks for a length on the page.
int tick_count(double length_pt, double distance_pt) {
    return std::clamp(static_cast<int>(length_pt / distance_pt), 2, 10);
}

struct Tick {
    double value;
    std::string text;
};

std::vector<Tick> x_ticks_of(const Axes& axes) {
    std::vector<Tick> all;
    if (!axes.log_x) {
        const auto ticks = round_ticks(axes.low.x(), axes.high.x(), tick_count(axes.size_pt.x(), 34));
        for (const double value : ticks.value)
            all.push_back({value, number(value, ticks.decimals)});
        return all;
    }
    const double decades = axes.high.x() - axes.low.x();
    const bool crowded = tick_count(axes.size_pt.x(), 20) < 3 * decades;
    for (double decade = std::floor(axes.low.x()); decade <= axes.high.x(); ++decade)
        for (const double digit : crowded ? std::vector{1.0} : std::vector{1.0, 2.0, 5.0})
            if (const double at = decade + std::log10(digit); at >= axes.low.x() && at <= axes.high.x())
                all.push_back(
                    {at, number(digit * std::pow(10, decade), std::max(0, -static_cast<int>(decade)))});
    return all;
}

Ticks y_ticks_of(const Axes& axes) {
    const auto [least, most] = std::minmax(axes.low.y(), axes.high.y());
    return round_ticks(least, most, tick_count(axes.size_pt.y(), 20));
}

} // namespace

Vec2 Axes::to_page(const Vec2& value) const {
    const Vec2 share = (value - low).cwiseQuotient(high - low);
    return {upper_left_pt.x() + share.x() * size_pt.x(), upper_left_pt.y() + (1 - share.y()) * size_pt.y()};
}

Polyline Axes::line_to_page(const std::vector<Vec2>& values) const {
    Polyline line;
    line.reserve(values.size());
    for (const auto& value : values)
        line.push_back(to_page(value));
    return line;
}

Axes equal_scale_axes(const Vec2& low, const Vec2& high, const Vec2& upper_left_pt, const Vec2& largest_pt) {
    const Vec2 extent = high - low;
    return {low, high, upper_left_pt, extent * largest_pt.cwiseQuotient(extent).minCoeff()};
}

std::vector<double> y_tick_values(const Axes& axes) {
    return y_ticks_of(axes).value;
}

void draw_axes(Canvas& canvas, const Axes& axes, const Label& x_title, const Label& y_title,
               const AxesMarks& marks) {
    const Vec2 low_pt = axes.upper_left_pt, high_pt = axes.lower_right_pt();
    TextStyle style = number_style;

    style.align = Align::Center;
    for (const auto& [value, text] : marks.x_ticks ? x_ticks_of(axes) : std::vector<Tick>()) {
        const double x = axes.to_page({value, axes.low.y()}).x();
        canvas.stroke({{x, high_pt.y()}, {x, high_pt.y() + tick_pt}}, frame_pen);
        canvas.text(plain(text), {x, high_pt.y() + tick_pt + 7}, style);
    }
    style.align = Align::Right;
    const auto y_ticks = y_ticks_of(axes);
    double widest = 0;
    for (double value : y_ticks.value) {
        const double y = axes.to_page({axes.low.x(), value}).y();
        canvas.stroke({{low_pt.x() - tick_pt, y}, {low_pt.x(), y}}, frame_pen);
        if (!marks.y_numbers)
            continue;
        const auto label = plain(number(value, y_ticks.decimals));
        widest = std::max(widest, canvas.text_width(label, style));
        canvas.text(label, {low_pt.x() - tick_pt - 1.5, y + 2.4}, style);
    }
    canvas.stroke({low_pt, {high_pt.x(), low_pt.y()}, high_pt, {low_pt.x(), high_pt.y()}}, frame_pen, true);

    canvas.text(x_title, {0.5 * (low_pt.x() + high_pt.x()), high_pt.y() + 20}, title_style);
    TextStyle upward = title_style;
    upward.upward = true;
    canvas.text(y_title, {low_pt.x() - tick_pt - widest - 6, 0.5 * (low_pt.y() + high_pt.y())}, upward);
}

} // namespace interpile::postprocess
