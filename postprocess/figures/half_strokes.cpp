#include "postprocess/figures/half_strokes.h"

#include "postprocess/axes.h"
#include "postprocess/curve_labels.h"
#include "postprocess/curve_pens.h"
#include "postprocess/ground_summary.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double panel_height_pt = 128, panel_gap_pt = 8, pile_row_pt = 11, label_column_pt = 72;
constexpr double least_width_pt = 300;
constexpr int withdrawal = 1; // as in /half_strokes/phase
constexpr Color stripe{0.945, 0.945, 0.95};
const Pen mean_pen{1.2, ink};
const Pen target_pen{0.7, warning_ink, {4, 2.5}};

/// Half strokes first..last (from 1) of one place in the order of work.
struct Work {
    int first = 0, last = 0;
    std::string piles; ///< their numbers
};

struct Curve {
    std::string name;
    Pen pen;
    std::vector<double> value; ///< before the first pile, then per half stroke; not a number where unknown
};

struct Panel {
    Label title;
    std::vector<Curve> curves;
    std::optional<double> target;
    double low = 0, high = 1;
};

struct Content {
    PageText text;
    std::vector<Work> works;
    int count = 0;            ///< half strokes
    std::vector<bool> loaded; ///< per value of a curve: no withdrawal has just ended
    std::array<Panel, 2> panels;
};

/// One row of each half stroke, though piles driven together have a row each; of a rest, which has a row per time step,
/// the last.
std::vector<Eigen::Index> half_strokes_in_order(const io::ResultsHalfStrokes& record,
                                                std::vector<Work>& works) {
    std::vector<Eigen::Index> rows;
    for (Eigen::Index row = 0; row < record.pile.size(); ++row) {
        const bool new_place = row == 0 || record.place_in_order[row] != record.place_in_order[row - 1];
        const bool new_half_stroke = new_place || record.stroke[row] != record.stroke[row - 1] ||
                                     record.phase[row] != record.phase[row - 1];
        if (new_half_stroke)
            rows.push_back(row);
        else if (record.phase[row] == io::rest_phase)
            rows.back() = row;
        const int at = static_cast<int>(rows.size());
        if (new_place)
            works.push_back({at, at, {}});
        works.back().last = at;
        if (works.back().first == at) // the first half stroke names the piles
            works.back().piles +=
                fmt::format("{}{}", works.back().piles.empty() ? "" : "+", record.pile[row] + 1);
    }
    return rows;
}

/// Values before the first pile, then at the end of every half stroke.
Curve curve_of(const std::string& name, const Pen& pen, double before, const std::vector<Eigen::Index>& rows,
               const Eigen::ArrayXd& recorded) {
    Curve curve{name, pen, {before}};
    for (const auto row : rows)
        curve.value.push_back(recorded[row]);
    return curve;
}

/// A point that never had ground has no curve.
void add_if_known(Panel& panel, Curve curve) {
    if (std::any_of(curve.value.begin() + 1, curve.value.end(), [](double v) { return std::isfinite(v); }))
        panel.curves.push_back(std::move(curve));
}

void add_curves(std::array<Panel, 2>& panels, const io::ResultsHeader& header, const io::ResultsStage& before,
                const io::ResultsHalfStrokes& record, const std::vector<Eigen::Index>& rows) {
    auto& [density, stress] = panels;
    const auto at_points = points_at(header, before);
    for (std::size_t k = 0; k < header.points.size(); ++k) {
        const auto point = static_cast<Eigen::Index>(k);
        const auto& name = header.points[k].name;
        add_if_known(density, curve_of(name, curve_pen(k), at_points.density_pct[point], rows,
                                       record.point_density_pct.row(point).transpose()));
        add_if_known(stress, curve_of(name, curve_pen(k), at_points.stress_ratio[point], rows,
                                      record.point_stress_ratio.row(point).transpose()));
    }
    if (const auto ground = ground_at(header, before)) {
        add_if_known(density,
                     curve_of("mean", mean_pen, ground->density.mean, rows, record.relative_density_pct));
        add_if_known(
            stress, curve_of("mean", mean_pen, ground->mean_stress_ratio, rows, record.lateral_stress_ratio));
    }
}

/// Limits of the values, with room so that nothing touches the frame.
void set_range(Panel& panel, double least_range) {
    double low = HUGE_VAL, high = -HUGE_VAL;
    const auto include = [&](double v) {
        if (std::isfinite(v)) {
            low = std::min(low, v);
            high = std::max(high, v);
        }
    };
    for (const auto& curve : panel.curves)
        for (const double v : curve.value)
            include(v);
    if (panel.target)
        include(*panel.target);
    if (!(low <= high))
        low = 0, high = least_range;
    const double room = std::max(0.08 * (high - low), 0.5 * (least_range - (high - low)));
    panel.low = low >= 0 ? std::max(0.0, low - room) : low - room;
    panel.high = high + room;
}

/// The parts of a curve between unknown values; `with` chooses the values that are joined.
template <class With>
std::vector<std::vector<Vec2>> known_parts(const std::vector<double>& value, const With& with) {
    std::vector<std::vector<Vec2>> parts(1);
    for (std::size_t k = 0; k < value.size(); ++k)
        if (!std::isfinite(value[k]))
            parts.emplace_back();
        else if (with(k))
            parts.back().emplace_back(static_cast<double>(k), value[k]);
    return parts;
}

/// Many strokes make a saw of every curve: a fine line goes through all half strokes, a full one over the withdrawals.
void draw_curve(Canvas& canvas, const Curve& curve, const std::vector<bool>& loaded, const Axes& axes) {
    Pen fine{0.45, curve.pen.color};
    fine.color.opacity = 0.4;
    for (const auto& part : known_parts(curve.value, [](std::size_t) { return true; }))
        canvas.stroke(axes.line_to_page(part), fine);
    for (const auto& part : known_parts(curve.value, [&](std::size_t k) { return loaded[k]; }))
        canvas.stroke(axes.line_to_page(part), curve.pen);
}

void draw_works(Canvas& canvas, const Content& content, const Axes& axes, bool with_numbers) {
    const double bottom = axes.lower_right_pt().y();
    double free_from = 0; // numbers that would touch are left out
    for (std::size_t k = 0; k < content.works.size(); ++k) {
        const auto& work = content.works[k];
        const double left = axes.to_page({work.first - 1.0, 0}).x(),
                     right = axes.to_page({1.0 * work.last, 0}).x();
        if (k % 2 == 0)
            canvas.fill({{{left, axes.upper_left_pt.y()},
                          {right, axes.upper_left_pt.y()},
                          {right, bottom},
                          {left, bottom}}},
                        stripe);
        const auto label = plain(work.piles);
        const TextStyle style{6.5, Align::Center, ink};
        const double half = 0.5 * canvas.text_width(label, style), middle = 0.5 * (left + right);
        if (!with_numbers || middle - half < free_from)
            continue;
        canvas.text(label, {middle, axes.upper_left_pt.y() - 3}, style);
        free_from = middle + half + 4;
    }
}

void draw_panel(Canvas& canvas, const Panel& panel, const std::vector<bool>& loaded, const Axes& axes) {
    std::vector<CurveLabel> labels;
    const auto label_at = [&](double value, const std::string& name, const Color& color) {
        labels.push_back({axes.to_page({axes.high.x(), value}).y(), plain(name), color});
    };
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        if (panel.target)
            canvas.stroke(axes.line_to_page({{axes.low.x(), *panel.target}, {axes.high.x(), *panel.target}}),
                          target_pen);
        for (const auto& curve : panel.curves)
            draw_curve(canvas, curve, loaded, axes);
    });
    for (const auto& curve : panel.curves)
        if (std::isfinite(curve.value.back()))
            label_at(curve.value.back(), curve.name, curve.pen.color);
    if (panel.target)
        label_at(*panel.target, fmt::format("target {:.4g} %", *panel.target), target_pen.color);
    draw_curve_labels(canvas, std::move(labels), axes.lower_right_pt().x(), axes.upper_left_pt.y(),
                      axes.lower_right_pt().y());
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    const double left = page_margin_pt + axis_width_pt;
    const double width = content.text.width_pt - left - label_column_pt - page_margin_pt;
    double top = head_height_pt(content.text) + pile_row_pt;
    canvas.text(plain("pile"), {left - 4, top - 3}, {6.5, Align::Right, ink});
    for (const auto& panel : content.panels) {
        const Axes axes{
            {0, panel.low}, {1.0 * content.count, panel.high}, {left, top}, {width, panel_height_pt}};
        draw_works(canvas, content, axes, &panel == content.panels.data());
        draw_panel(canvas, panel, content.loaded, axes);
        draw_axes(canvas, axes, plain("half strokes since the start"), panel.title);
        top += panel_height_pt + axis_height_pt + panel_gap_pt;
    }
    draw_foot(canvas, content.text, top - panel_gap_pt);
}

} // namespace

Drawing half_stroke_curves(const io::ResultsHeader& header, const io::ResultsStage& before,
                           const io::ResultsHalfStrokes& record) {
    if (record.pile.size() == 0)
        throw std::invalid_argument("the results have no half strokes, so that there is no course to draw");
    const auto content = std::make_shared<Content>();
    const auto rows = half_strokes_in_order(record, content->works);
    content->count = static_cast<int>(rows.size());
    content->loaded = {true};
    for (const auto row : rows)
        content->loaded.push_back(record.phase[row] != withdrawal);
    add_curves(content->panels, header, before, record, rows);
    auto& [density, stress] = content->panels;
    if (density.curves.empty())
        throw std::invalid_argument("the layout has neither treated ground nor observation points to draw");
    density.title = plain("relative density ") + symbol("D_r") + plain(" (%)");
    density.target = header.target_relative_density_pct;
    stress.title = plain("lateral stress ratio ") + symbol("K") + plain(" (\u2013)");
    set_range(density, 2);
    set_range(stress, 0.2);

    content->text = page_text(header);
    content->text.width_pt = page_width_pt(least_width_pt);
    content->text.subtitle = plain(fmt::format(
        "Ground between the piles after every half stroke, {:.4g} m below ground", header.depth_m));
    auto& notes = content->text.notes;
    std::string places;
    for (const auto& point : header.points)
        places += fmt::format("{}{} ({}, {}) m", places.empty() ? "" : "; ", point.name,
                              number(point.at_m.x(), 2), number(point.at_m.y(), 2));
    if (!places.empty())
        notes.push_back(plain(fmt::format("Points fixed in space, mean of the ground within {:.2f} m: {}.",
                                          header.sampling_radius_m, places)));
    notes.push_back(plain("Mean of the treated area. Full lines pass over the withdrawals, fine lines show "
                          "every half stroke."));
    if ((record.phase == io::rest_phase).any())
        notes.push_back(plain("Each rest counts as one, shown as it ends."));
    if (header.monotonic_density)
        content->text.warnings.emplace_back(no_prediction);

    const Vec2 size(content->text.width_pt, head_height_pt(content->text) + pile_row_pt +
                                                2 * (panel_height_pt + axis_height_pt) + panel_gap_pt +
                                                foot_height_pt(content->text));
    return {size, content->text.title + ": half strokes", header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
