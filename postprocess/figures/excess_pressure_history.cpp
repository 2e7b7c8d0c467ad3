#include "postprocess/figures/excess_pressure_history.h"

#include "postprocess/axes.h"
#include "postprocess/curve_pens.h"
#include "postprocess/figures/nearly_liquefied.h"
#include "postprocess/figures/work_spans.h"
#include "postprocess/ground_summary.h"
#include "postprocess/key.h"
#include "postprocess/page.h"
#include "postprocess/time_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double panel_height_pt = 108, panel_gap_pt = 9, pile_row_pt = 11, column_gap_pt = 16;
constexpr double work_share = 0.6; // of the width, beside a column of the final rest
constexpr double long_rest = 0.25; // of the time of the work: a final rest from here on has its own column
constexpr double least_width_pt = 400; // titles of two columns side by side
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
constexpr Color stripe{0.88, 0.90, 0.93};
const Pen mean_pen{1.2, ink};
const Pen limit_pen{0.7, warning_ink, {4, 2.5}};
const Pen zero_pen{0.4, soft_ink};
const Pen ratio_pen{0.8, {0.62, 0.10, 0.30}};

struct Curve {
    std::string name; ///< empty: not in the key
    Pen pen;
    std::vector<Vec2> points; ///< time [s], value; ascending in time, not a number where unknown
};

struct Panel {
    Label title;
    std::vector<Curve> curves;
    double low = 0, high = 1;
};

/// A stretch of time over which all panels are drawn side by side.
struct Column {
    double from_s = 0, to_s = 1;
    double origin_s = 0; ///< where its axis is zero
    bool logarithmic = false;
    TimeUnit unit;
    Label title;
    double left_pt = 0, width_pt = 0;

    double of(double time_s) const {
        const double time = (time_s - origin_s) / unit.seconds;
        return logarithmic ? std::log10(time) : time;
    }
};

struct Content {
    PageText text;
    std::vector<DrivingSpan> spans;
    std::vector<Column> columns;
    std::array<Panel, 3> panels;
    std::vector<KeyEntry> key;
};

Curve curve_of(const std::string& name, const Pen& pen, double before, const Eigen::ArrayXd& time_s,
               const Eigen::ArrayXd& value) {
    Curve curve{name, pen, {{0, before}}};
    for (Eigen::Index k = 0; k < time_s.size(); ++k)
        curve.points.emplace_back(time_s[k], value[k]);
    return curve;
}

/// A point that never had ground has no curve.
bool is_known(const Curve& curve) {
    return std::any_of(curve.points.begin() + 1, curve.points.end(),
                       [](const Vec2& at) { return std::isfinite(at.y()); });
}

void add_curves(std::array<Panel, 3>& panels, const io::ResultsHeader& header, const io::ResultsStage& before,
                const io::ResultsHistory& history, const io::ResultsHalfStrokes& record) {
    auto& [pressure, ratio, density] = panels;
    const auto at_points = points_at(header, before);
    for (std::size_t k = 0; k < header.points.size(); ++k) {
        const auto point = static_cast<Eigen::Index>(k);
        auto curve = curve_of(header.points[k].name, curve_pen(k), at_points.pressure_kPa[point],
                              record.time_s, record.point_pressure_kPa.row(point).transpose());
        if (is_known(curve))
            pressure.curves.push_back(std::move(curve));
    }
    if (const auto ground = ground_at(header, before)) {
        pressure.curves.push_back(curve_of("mean of the treated ground", mean_pen,
                                           ground->excess_pressure_kPa, record.time_s,
                                           record.excess_pressure_kPa));
        density.curves.push_back(
            curve_of("", mean_pen, ground->density.mean, record.time_s, record.relative_density_pct));
    } else {
        pressure.curves.push_back(curve_of("mean of the whole slice", mean_pen,
                                           before.mean_excess_pressure_kPa, history.time_s,
                                           history.mean_excess_pressure_kPa));
        density.curves.push_back(curve_of("", mean_pen, before.mean_relative_density_pct, history.time_s,
                                          history.mean_relative_density_pct));
    }
    ratio.curves.push_back(curve_of("largest r_u of any cell", ratio_pen, unknown, history.time_s,
                                    history.largest_excess_pressure_ratio));
}

/// Limits of the values, with room so that nothing touches the frame.
void set_range(Panel& panel, double low, double high, double room) {
    for (const auto& curve : panel.curves)
        for (const auto& at : curve.points)
            if (std::isfinite(at.y())) {
                low = std::min(low, at.y());
                high = std::max(high, at.y());
            }
    panel.low = low - (low < 0 || room > 0 ? std::max(room, 0.06 * (high - low)) : 0);
    panel.high = high + std::max(room, 0.06 * (high - low));
}

void set_ranges(std::array<Panel, 3>& panels) {
    auto& [pressure, ratio, density] = panels;
    set_range(pressure, 0, 1, 0);
    set_range(ratio, 0, 1, 0);
    const double first = density.curves.front().points.front().y();
    set_range(density, first, first, 1);
}

std::vector<Column> columns_of(const io::ResultsHistory& history, double work_end_s, double page_width) {
    const double end_s = history.time_s.maxCoeff(), left = page_margin_pt + axis_width_pt;
    const double width = page_width - left - page_margin_pt - 6;
    const auto since_start = [&](double to_s, double width_pt) {
        const TimeUnit unit = time_unit(to_s);
        return Column{0,    to_s,
                      0,    false,
                      unit, plain(fmt::format("time since the first pile was begun ({})", unit.name)),
                      left, width_pt};
    };
    if (end_s - work_end_s <= long_rest * work_end_s)
        return {since_start(end_s, width)};
    double first_s = end_s; // of the final rest
    for (Eigen::Index k = history.time_s.size(); k-- > 0 && history.time_s[k] > work_end_s;)
        first_s = history.time_s[k];
    if (first_s >= end_s) // a rest of one step is no course
        return {since_start(end_s, width)};
    Column work = since_start(work_end_s, work_share * (width - column_gap_pt));
    const TimeUnit unit = time_unit(end_s - work_end_s);
    const double rest_left = work.left_pt + work.width_pt + column_gap_pt;
    Column rest{first_s,    end_s,
                work_end_s, true,
                unit,       plain(fmt::format("time after the last pile ({})", unit.name)),
                rest_left,  left + width - rest_left};
    return {std::move(work), std::move(rest)};
}

/// The parts of a curve between unknown values that a column shows.
std::vector<std::vector<Vec2>> shown_parts(const Curve& curve, const Column& column) {
    std::vector<std::vector<Vec2>> parts(1);
    for (const auto& at : curve.points) {
        if (!std::isfinite(at.y()))
            parts.emplace_back();
        else if (at.x() >= column.from_s && at.x() <= column.to_s)
            parts.back().emplace_back(column.of(at.x()), at.y());
    }
    return parts;
}

void draw_spans(Canvas& canvas, const Content& content, const Column& column, const Axes& axes,
                bool with_numbers) {
    if (column.logarithmic) // nothing is driven in the final rest
        return;
    const double top = axes.upper_left_pt.y(), bottom = axes.lower_right_pt().y();
    double free_from = 0; // numbers that would touch are left out
    for (const auto& span : content.spans) {
        const double left = axes.to_page({column.of(span.from_s), 0}).x(),
                     right = std::max(left + 0.5, axes.to_page({column.of(span.to_s), 0}).x());
        canvas.fill({{{left, top}, {right, top}, {right, bottom}, {left, bottom}}}, stripe);
        const auto label = plain(span.piles);
        const TextStyle style{6.5, Align::Center, ink};
        const double half = 0.5 * canvas.text_width(label, style), middle = 0.5 * (left + right);
        if (!with_numbers || middle - half < free_from)
            continue;
        canvas.text(label, {middle, top - 3}, style);
        free_from = middle + half + 4;
    }
}

void draw_panel(Canvas& canvas, const Content& content, const Panel& panel, const Column& column,
                double top) {
    const bool first = &panel == &content.panels.front(), last = &panel == &content.panels.back();
    const bool leftmost = &column == &content.columns.front();
    const Axes axes{{column.of(column.from_s), panel.low},
                    {column.of(column.to_s), panel.high},
                    {column.left_pt, top},
                    {column.width_pt, panel_height_pt},
                    column.logarithmic};
    draw_spans(canvas, content, column, axes, first);
    if (first && column.logarithmic)
        canvas.text(plain("final rest"), {column.left_pt + 0.5 * column.width_pt, top - 3},
                    {6.5, Align::Center, ink});
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        const auto level = [&](double value, const Pen& pen) {
            canvas.stroke(axes.line_to_page({{axes.low.x(), value}, {axes.high.x(), value}}), pen);
        };
        if (panel.low < 0)
            level(0, zero_pen);
        if (&panel == &content.panels[1])
            level(nearly_liquefied_ratio, limit_pen);
        for (const auto& curve : panel.curves)
            for (const auto& part : shown_parts(curve, column))
                canvas.stroke(axes.line_to_page(part), curve.pen);
    });
    draw_axes(canvas, axes, last ? column.title : Label(), leftmost ? panel.title : Label(),
              {last, leftmost});
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    double top = head_height_pt(content.text) + pile_row_pt;
    canvas.text(plain("pile"), {content.columns.front().left_pt - 4, top - 3}, {6.5, Align::Right, ink});
    for (const auto& panel : content.panels) {
        for (const auto& column : content.columns)
            draw_panel(canvas, content, panel, column, top);
        top += panel_height_pt + panel_gap_pt;
    }
    top += axis_height_pt - panel_gap_pt;
    draw_key(canvas, content.key, {page_margin_pt, top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, top + key_height_pt(content.key, content.text.text_width_pt()));
}

std::vector<KeyEntry> key_of(const std::array<Panel, 3>& panels) {
    std::vector<KeyEntry> key;
    for (const auto& panel : panels)
        for (const auto& curve : panel.curves)
            if (!curve.name.empty())
                key.push_back(line_entry(curve.name, curve.pen));
    key.push_back(line_entry("r_u 0.9: nearly liquefied", limit_pen));
    key.push_back({"pile driven past the slice", [](Canvas& canvas, const Vec2& left) {
                       const Vec2 low = left - Vec2(0, 3), high = left + Vec2(key_symbol_pt, 3);
                       canvas.fill({{low, {high.x(), low.y()}, high, {low.x(), high.y()}}}, stripe);
                   }});
    return key;
}

/// "Largest values: mean 41.2 kPa at 12 min 5 s; r_u 1.52 at ..."
std::string largest_values(const io::ResultsHistory& history, const Curve& mean) {
    const auto most = std::max_element(mean.points.begin(), mean.points.end(),
                                       [](const Vec2& a, const Vec2& b) { return a.y() < b.y(); });
    Eigen::Index row = 0;
    const double ratio = history.largest_excess_pressure_ratio.maxCoeff(&row);
    return fmt::format(
        "Largest: mean {} kPa at {}, r_u {} at {} since the first pile was begun. At the end, {}: mean "
        "{} kPa, r_u {}.",
        number(most->y(), 1), time_in_words(most->x()), number(ratio, 2), time_in_words(history.time_s[row]),
        time_in_words(history.time_s[history.time_s.size() - 1]), number(mean.points.back().y(), 1),
        number(history.largest_excess_pressure_ratio[history.time_s.size() - 1], 2));
}

std::vector<std::string> notes_of(const io::ResultsHeader& header, const io::ResultsHistory& history,
                                  double work_end_s, const Curve& mean) {
    std::vector<std::string> notes = {largest_values(history, mean)};
    if (!header.work_begins.empty())
        notes.push_back(
            fmt::format("Clock of the site: first pile begun {}, last one past the slice {}, end {}.",
                        io::site_clock(header, 0), io::site_clock(header, work_end_s),
                        io::site_clock(header, history.time_s.maxCoeff())));
    std::string places;
    for (const auto& point : header.points)
        places += fmt::format("{}{} ({}, {}) m", places.empty() ? "" : "; ", point.name,
                              number(point.at_m.x(), 2), number(point.at_m.y(), 2));
    if (!places.empty())
        notes.push_back(fmt::format("Points fixed in space, mean of the ground within {:.2f} m: {}.",
                                    header.sampling_radius_m, places));
    notes.emplace_back(
        "r_u: excess pore pressure over the vertical effective stress before treatment; it passes 1 where "
        "the horizontal stress carries more. Points and means: at the ends of half strokes and of time "
        "steps of the rests.");
    return notes;
}

} // namespace

bool is_in_time(const io::ResultsHistory& history) {
    return history.time_s.size() > 0 && history.time_s.maxCoeff() > 0;
}

Drawing excess_pressure_history(const io::ResultsHeader& header, const io::ResultsStage& before,
                                const io::ResultsHistory& history, const io::ResultsHalfStrokes& record) {
    if (!is_in_time(history))
        throw std::invalid_argument(
            "excess_pressure_history needs results with flow of water in time, of a case "
            "with [water] drainage = \"coupled\"");
    const auto content = std::make_shared<Content>();
    content->spans = driving_spans(history, record);
    const double work_end_s = content->spans.empty() ? 0 : content->spans.back().to_s;
    content->columns = columns_of(history, work_end_s, page_width_pt(least_width_pt));
    add_curves(content->panels, header, before, history, record);
    set_ranges(content->panels);
    content->key = key_of(content->panels);
    auto& [pressure, ratio, density] = content->panels;
    pressure.title = plain("excess pressure ") + symbol("\u0394u") + plain(" (kPa)");
    ratio.title = plain("largest ratio ") + symbol("r_u") + plain(" (\u2013)");
    density.title = plain("mean ") + symbol("D_r") + plain(" (%)");

    auto& text = content->text;
    text = page_text(header);
    text.width_pt = page_width_pt(least_width_pt);
    text.subtitle = plain(fmt::format(
        "Pore water while piles are driven and in the rests, {:.4g} m below ground", header.depth_m));
    for (const auto& note : notes_of(header, history, work_end_s, pressure.curves.back()))
        text.notes.push_back(sentence(note));
    if (header.monotonic_density)
        text.warnings.emplace_back(no_prediction);

    const Vec2 size(text.width_pt, head_height_pt(text) + pile_row_pt + 3 * panel_height_pt +
                                       2 * panel_gap_pt + axis_height_pt +
                                       key_height_pt(content->key, content->text.text_width_pt()) +
                                       foot_height_pt(text));
    return {size, text.title + ": excess pore pressure", header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
