#include "postprocess/figures/depth_profile.h"

#include "postprocess/axes.h"
#include "postprocess/booklet.h"
#include "postprocess/figure_text.h"
#include "postprocess/key.h"
#include "postprocess/line_breaks.h"
#include "postprocess/markers.h"
#include "postprocess/soil_column.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double least_panel_pt = 62; // for a title of short lines
constexpr double plot_height_pt = 290, panel_gap_pt = 18, title_line_pt = 9, tick_numbers_pt = 11;
constexpr double title_size_pt = 7.5, key_gap_pt = 5;
constexpr double marker_distance_pt = 5, dense_marker_distance_pt = 26; ///< closer points share a mark
const Pen grid_pen{0.35, {0.86, 0.86, 0.86}};
const Pen ground_pen{0.7, ink};
const Pen limit_pen{1.0, ink, {6, 2.5}};

struct Content {
    ProfileFigure figure;
    PageText text;
    double top_m = 0, bottom_m = 1; ///< of the depth axis

    double panel_width_pt() const {
        const double count = static_cast<double>(figure.panels.size());
        const double room = text.text_width_pt() - axis_width_pt - soil_column_pt - water_marks_pt;
        return (room - panel_gap_pt * (count - 1) - 4) / count;
    }
    Axes column_axes() const {
        return {{0, bottom_m},
                {1, top_m},
                {page_margin_pt + axis_width_pt, head_height_pt(text) + 6},
                {soil_column_pt, plot_height_pt}};
    }
    Axes panel_axes(std::size_t panel) const {
        Axes axes = column_axes();
        axes.upper_left_pt.x() +=
            soil_column_pt + water_marks_pt + (panel_width_pt() + panel_gap_pt) * static_cast<double>(panel);
        axes.size_pt.x() = panel_width_pt();
        axes.low.x() = figure.panels[panel].low;
        axes.high.x() = figure.panels[panel].high;
        return axes;
    }
};

bool beyond(const ProfilePanel& panel, double value) {
    return value < panel.low || value > panel.high;
}

bool drawn(const Vec2& point) {
    return point.allFinite();
}

KeyEntry curve_entry(const std::string& name, std::size_t curve) {
    return {name, [curve](Canvas& canvas, const Vec2& left) {
                canvas.stroke({left, left + Vec2(key_symbol_pt, 0)}, dashed_curve_pen(curve));
                draw_marker(canvas, left + Vec2(0.5 * key_symbol_pt, 0), curve);
            }};
}

std::vector<KeyEntry> panel_key(const ProfilePanel& panel) {
    std::vector<KeyEntry> key;
    for (std::size_t k = 0; k < panel.curves.size(); ++k)
        key.push_back(curve_entry(panel.curves[k].name, k));
    if (panel.limit)
        key.push_back(line_entry(panel.limit_name + (beyond(panel, *panel.limit) ? " (beyond the axis)" : ""),
                                 limit_pen));
    return key;
}

std::vector<Label> title_lines(const Content& content, const ProfilePanel& panel) {
    return worded_lines(sentence(panel.x_title),
                        letters_within(content.panel_width_pt() + 10, title_size_pt));
}

/// Names that cannot be broken would reach into the key of the next panel, or off the page.
bool keys_fit_below_panels(const Content& content) {
    double longest_pt = 0;
    with_scratch_canvas([&](Canvas& canvas) {
        for (const auto& panel : content.figure.panels)
            for (const auto& entry : panel_key(panel))
                for (const auto& word : worded_lines(sentence(entry.text), 1))
                    longest_pt = std::max(longest_pt, canvas.text_width(word, {key_text_size_pt}));
    });
    const double beside_pt = std::min(panel_gap_pt, page_margin_pt + 4);
    return key_symbol_pt + 2 * key_text_gap_pt + longest_pt <= content.panel_width_pt() + beside_pt;
}

/// Below the plots: numbers, titles and keys of the panels, the keys below each other where they find no room in a row.
struct Below {
    double titles_pt = 0, keys_pt = 0;
    bool in_row;
    explicit Below(const Content& content) : in_row(keys_fit_below_panels(content)) {
        for (const auto& panel : content.figure.panels) {
            titles_pt =
                std::max(titles_pt, title_line_pt * static_cast<double>(title_lines(content, panel).size()));
            const auto key = panel_key(panel);
            if (in_row)
                keys_pt = std::max(keys_pt, key_column_height_pt(key, content.panel_width_pt() + 10));
            else
                keys_pt += title_line_pt + key_height_pt(key, content.text.text_width_pt());
        }
    }
    double height_pt() const { return tick_numbers_pt + titles_pt + key_gap_pt + keys_pt; }
};

/// A key each, under the title of its panel.
void draw_keys_below_each_other(Canvas& canvas, const Content& content) {
    double y = content.column_axes().lower_right_pt().y() + tick_numbers_pt + Below(content).titles_pt;
    for (const auto& panel : content.figure.panels) {
        canvas.text(sentence(panel.x_title), {page_margin_pt, y += title_line_pt},
                    {title_size_pt, Align::Left, ink});
        const auto key = panel_key(panel);
        draw_key(canvas, key, {page_margin_pt, y}, content.text.text_width_pt());
        y += key_height_pt(key, content.text.text_width_pt());
    }
}

/// The pieces of a curve between its gaps, values beyond the axis moved to its side.
std::vector<std::vector<Vec2>> pieces_of(const ProfilePanel& panel, const ProfileCurve& curve) {
    std::vector<std::vector<Vec2>> pieces(1);
    for (const auto& point : curve.points) {
        if (drawn(point))
            pieces.back().emplace_back(std::clamp(point.x(), panel.low, panel.high), point.y());
        else if (!pieces.back().empty())
            pieces.emplace_back();
    }
    return pieces;
}

/// Soundings with readings every few centimeters would be a chain of marks without a line between.
double mark_spacing_pt(const ProfileCurve& curve) {
    const auto count = std::count_if(curve.points.begin(), curve.points.end(), drawn);
    return marker_distance_pt * static_cast<double>(count) > 0.8 * plot_height_pt ? dense_marker_distance_pt
                                                                                  : marker_distance_pt;
}

void draw_marks(Canvas& canvas, const ProfilePanel& panel, std::size_t k, const Axes& axes) {
    const double spacing = mark_spacing_pt(panel.curves[k]);
    Vec2 last = Vec2::Constant(-1e9), last_beyond = last;
    for (const auto& point : panel.curves[k].points) {
        if (!drawn(point))
            continue;
        const Vec2 at = axes.to_page({std::clamp(point.x(), panel.low, panel.high), point.y()});
        if (beyond(panel, point.x())) {
            if ((at - last_beyond).norm() < marker_distance_pt)
                continue;
            last_beyond = at;
            const double toward = point.x() > panel.high ? 1 : -1;
            draw_beyond_mark(canvas, at, {toward, 0}, k);
        } else if ((at - last).norm() >= spacing) {
            draw_marker(canvas, at, k);
            last = at;
        }
    }
}

void draw_panel(Canvas& canvas, const Content& content, std::size_t index) {
    const auto& panel = content.figure.panels[index];
    const Axes axes = content.panel_axes(index);
    for (const double depth : y_tick_values(axes))
        canvas.stroke(axes.line_to_page({{panel.low, depth}, {panel.high, depth}}), grid_pen);
    if (content.top_m < 0)
        canvas.stroke(axes.line_to_page({{panel.low, 0}, {panel.high, 0}}), ground_pen);
    if (panel.limit && !beyond(panel, *panel.limit))
        canvas.stroke(axes.line_to_page({{*panel.limit, content.bottom_m}, {*panel.limit, content.top_m}}),
                      limit_pen);
    for (std::size_t k = 0; k < panel.curves.size(); ++k)
        for (const auto& piece : pieces_of(panel, panel.curves[k]))
            canvas.stroke(axes.line_to_page(piece), dashed_curve_pen(k));
    draw_axes(canvas, axes, {}, {}, {true, false});
    for (std::size_t k = 0; k < panel.curves.size(); ++k) // over the frame: marks at the side stay whole
        draw_marks(canvas, panel, k, axes);

    const double middle = axes.upper_left_pt.x() + 0.5 * axes.size_pt.x();
    double y = axes.lower_right_pt().y() + tick_numbers_pt;
    for (const auto& line : title_lines(content, panel))
        canvas.text(line, {middle, y += title_line_pt}, {title_size_pt, Align::Center, ink});
    const double key_top =
        axes.lower_right_pt().y() + tick_numbers_pt + Below(content).titles_pt + key_gap_pt;
    if (Below(content).in_row)
        draw_key_column(canvas, panel_key(panel), {axes.upper_left_pt.x() - 4, key_top},
                        axes.size_pt.x() + 10);
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    const Axes column = content.column_axes();
    draw_soil_column(canvas, content.figure, column);
    draw_axes(canvas, column, {}, plain("depth below ground (m)"), {false, true});
    if (content.top_m < 0)
        canvas.stroke(column.line_to_page({{0, 0}, {1, 0}}), ground_pen);
    for (std::size_t k = 0; k < content.figure.panels.size(); ++k)
        draw_panel(canvas, content, k);
    if (!Below(content).in_row)
        draw_keys_below_each_other(canvas, content);
    const auto key = soil_column_key(content.figure);
    const double key_top = column.lower_right_pt().y() + Below(content).height_pt() + key_gap_pt;
    draw_key(canvas, key, {page_margin_pt, key_top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, key_top + key_height_pt(key, content.text.text_width_pt()));
}

/// What stands at the sides of the panels, in words.
std::string values_beyond(const ProfileFigure& figure) {
    std::string text;
    for (const auto& panel : figure.panels)
        for (const auto& curve : panel.curves) {
            std::vector<double> outside;
            for (const auto& point : curve.points)
                if (drawn(point) && beyond(panel, point.x()))
                    outside.push_back(point.x());
            if (outside.empty())
                continue;
            const auto [least, most] = std::minmax_element(outside.begin(), outside.end());
            text += fmt::format("{}{}, {}: {} of {}", text.empty() ? "" : "; ", panel.x_title, curve.name,
                                outside.size(), rounded(*least));
            if (*most > *least)
                text += " to " + rounded(*most);
        }
    return text;
}

void require_drawable(const ProfileFigure& figure) {
    if (figure.panels.empty())
        throw std::invalid_argument("a depth profile needs a panel of values");
    if (figure.panels.size() > most_profile_panels)
        throw std::invalid_argument(fmt::format("a depth profile has room for {} panels, not for {}",
                                                most_profile_panels, figure.panels.size()));
    for (const auto& panel : figure.panels)
        if (!(panel.high > panel.low) || !std::isfinite(panel.high - panel.low))
            throw std::invalid_argument(fmt::format("the axis \"{}\" of a depth profile goes from {} to {}",
                                                    panel.x_title, panel.low, panel.high));
}

double least_width_pt(const ProfileFigure& figure) {
    const double panels = static_cast<double>(figure.panels.size());
    return 2 * page_margin_pt + axis_width_pt + soil_column_pt + water_marks_pt + least_panel_pt * panels +
           panel_gap_pt * (panels - 1) + 4;
}

std::shared_ptr<const Content> content_of(const ProfileFigure& figure) {
    auto content = std::make_shared<Content>();
    content->figure = figure;
    content->bottom_m = figure.deepest_m;
    const double highest_water_m = std::min(figure.water_depth_m, figure.quake_water_depth_m);
    content->top_m = std::min(0.0, highest_water_m);
    for (const auto& panel : figure.panels)
        for (const auto& curve : panel.curves)
            for (const auto& point : curve.points)
                if (drawn(point)) {
                    content->bottom_m = std::max(content->bottom_m, point.y());
                    content->top_m = std::min(content->top_m, point.y());
                }
    if (!(content->bottom_m > 0))
        throw std::invalid_argument("a depth profile needs a depth below ground");
    if (highest_water_m < 0) // room for the triangle above the water
        content->top_m -= 0.03 * (content->bottom_m - content->top_m);
    auto noted = figure;
    const double pt_per_m = plot_height_pt / (content->bottom_m - content->top_m);
    if (const auto layers = unnamed_layers(figure, pt_per_m); !layers.empty())
        noted.notes.insert(noted.notes.begin(), "Layers without room for their names: " + layers + ".");
    if (const auto outside = values_beyond(figure); !outside.empty())
        noted.notes.insert(noted.notes.begin(),
                           "Solid triangles at the side of a panel: values beyond its axis (" + outside +
                               ").");
    content->text = figure_text(noted);
    content->text.width_pt = page_width_pt(least_width_pt(figure));
    return content;
}

} // namespace

Drawing depth_profile(const ProfileFigure& figure) {
    require_drawable(figure);
    const auto content = content_of(figure);
    const auto key = soil_column_key(figure);
    const Vec2 size(content->text.width_pt,
                    content->column_axes().lower_right_pt().y() + Below(*content).height_pt() + key_gap_pt +
                        key_height_pt(key, content->text.text_width_pt()) + foot_height_pt(content->text));
    return {
        size, figure.title + ": depth profile", {}, [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
