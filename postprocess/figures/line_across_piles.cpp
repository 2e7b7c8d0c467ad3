#include "postprocess/figures/line_across_piles.h"

#include "postprocess/axes.h"
#include "postprocess/color_map.h"
#include "postprocess/ground.h"
#include "postprocess/key.h"
#include "postprocess/page.h"
#include "postprocess/pile_line.h"
#include "postprocess/pile_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double panel_height_pt = 112, panel_gap_pt = 9, pile_row_pt = 11;
constexpr double margin_spacings = 1.5; // ground beyond the outermost piles, as in the plans
constexpr int places = 401;
const Pen target_pen{0.7, warning_ink, {4, 2.5}};
const Pen zero_pen{0.4, soft_ink};

struct Panel {
    Label title;
    std::vector<Eigen::ArrayXd> values; ///< of each stage, along the line
    double low = 0, high = 1;
    std::optional<double> target;
};

struct Content {
    io::ResultsHeader header;
    io::ResultsStage last;
    PileLine line;
    PageText text;
    Eigen::ArrayXd along_m;
    std::vector<Panel> panels;
    std::vector<Pen> pens; ///< of each stage
    std::vector<KeyEntry> key;
};

Eigen::ArrayXd places_along(const PileLine& line, const io::ResultsHeader& header) {
    const double margin_m = margin_spacings * typical_spacing_m(header);
    const Vec2 first = header.pile_center_m.col(line.piles.front()),
               last = header.pile_center_m.col(line.piles.back());
    const auto& node_m = header.grid.node_m;
    return Eigen::ArrayXd::LinSpaced(
        places, std::max(line.along(first) - margin_m, line.along(node_m.rowwise().minCoeff())),
        std::min(line.along(last) + margin_m, line.along(node_m.rowwise().maxCoeff())));
}

/// Gray and dashed before the work, then darker and darker; the last is the widest.
Pen pen_of(std::size_t stage, std::size_t count) {
    if (stage == 0 && count > 1)
        return {0.9, soft_ink, {3, 1.5}};
    const double share = count > 2 ? static_cast<double>(stage - 1) / static_cast<double>(count - 2) : 1;
    return {stage + 1 == count ? 1.4 : 0.9, magnitude_color(0.4 + 0.6 * share)};
}

/// Extremes of the curves and what else must show, with room so that nothing touches the frame.
void set_range(Panel& panel, double least_span) {
    double low = HUGE_VAL, high = -HUGE_VAL;
    const auto take = [&](double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    };
    for (const auto& curve : panel.values)
        for (const double value : curve)
            if (std::isfinite(value))
                take(value);
    if (panel.target)
        take(*panel.target);
    if (low > high) // no ground along the line
        low = high = 0;
    const double room = 0.07 * std::max(high - low, least_span);
    panel.low = low - room;
    panel.high = std::max(high, low + least_span) + room;
}

Panel panel_of(const Content& content, const std::vector<io::ResultsStage>& stages, const std::string& field,
               const std::string& words, double least_span) {
    const auto& info = mesh::field_info(field);
    Panel panel;
    panel.title = plain(words + (words.empty() ? "" : " ")) + symbol(info.symbol) +
                  plain(fmt::format(" ({})", info.unit == "-" ? "\u2013" : info.unit));
    for (const auto& stage : stages)
        panel.values.push_back(ground_along(content.line, content.header, stage, field, content.along_m));
    if (field == "relative_density_pct")
        panel.target = content.header.target_relative_density_pct;
    set_range(panel, least_span);
    return panel;
}

std::string pile_numbers(const std::vector<int>& piles) {
    std::string numbers;
    for (const int pile : piles)
        numbers += fmt::format("{}{}", numbers.empty() ? "" : ", ", pile + 1);
    return numbers;
}

/// "D_r 48.1 to 66.0 %, mean 57.3 %" of the last stage.
std::string range_in_words(const Panel& panel, const std::string& name, const std::string& unit,
                           std::string (*told)(double) = rounded) {
    double low = HUGE_VAL, high = -HUGE_VAL, sum = 0;
    int count = 0;
    for (const double value : panel.values.back())
        if (std::isfinite(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
            sum += value;
            ++count;
        }
    if (count == 0)
        return name + " nowhere";
    return fmt::format("{} {} to {}{}, mean {}{}", name, told(low), told(high), unit, told(sum / count),
                       unit);
}

void add_text(Content& content, bool with_pressure) {
    auto& text = content.text;
    text = page_text(content.header);
    const auto& line = content.line;
    const std::string plural = line.piles.size() > 1 ? "s" : "";
    text.subtitle = plain(
        fmt::format("Ground {:.4g} m below the surface, along {} = {} m through the center{} of pile{} {}",
                    content.header.depth_m, line.along_x ? "y" : "x", number(line.at_m, 2), plural, plural,
                    pile_numbers(line.piles)));
    std::string values = range_in_words(content.panels[0], "D_r", "\u00a0%") + "; " +
                         range_in_words(content.panels[1], "lateral stress ratio", "");
    if (with_pressure)
        values += "; " + range_in_words(content.panels[2], "excess pore pressure", "\u00a0kPa",
                                        [](double kPa) { return number(kPa, 1); }); // may have drained away
    for (const auto& note :
         {fmt::format("Along the line {}: {}.", stage_in_words(content.header, content.last), values),
          std::string(
              "The line is fixed in space; values are those of the ground, as in the plans; curves are "
              "broken at cells with pile material at their stage.")})
        text.notes.push_back(sentence(note));
    if (content.header.monotonic_density)
        text.warnings.emplace_back(no_prediction);
    if (!content.last.converged)
        text.warnings.emplace_back(not_a_result);
}

void draw_discs(Canvas& canvas, const Content& content, const Axes& axes, bool with_numbers) {
    for (const int pile : content.line.piles) {
        const auto covered = covered_by(content.line, content.last, pile);
        if (!is_begun(content.header, content.last, pile) || covered.from_m >= covered.to_m)
            continue;
        const double left = std::max(axes.to_page({covered.from_m, 0}).x(), axes.upper_left_pt.x()),
                     right = std::min(axes.to_page({covered.to_m, 0}).x(), axes.lower_right_pt().x());
        const double top = axes.upper_left_pt.y(), bottom = axes.lower_right_pt().y();
        canvas.fill({{{left, top}, {right, top}, {right, bottom}, {left, bottom}}}, pile_gray);
        if (with_numbers)
            canvas.text(plain(std::to_string(pile + 1)), {0.5 * (left + right), top - 3},
                        {6.5, Align::Center, ink});
    }
}

/// The stretches of a curve between places without a value.
std::vector<std::vector<Vec2>> parts_of(const Eigen::ArrayXd& along_m, const Eigen::ArrayXd& values) {
    std::vector<std::vector<Vec2>> parts(1);
    for (Eigen::Index k = 0; k < along_m.size(); ++k) {
        if (std::isfinite(values[k]))
            parts.back().emplace_back(along_m[k], values[k]);
        else if (!parts.back().empty())
            parts.emplace_back();
    }
    return parts;
}

void draw_panel(Canvas& canvas, const Content& content, const Panel& panel, double top) {
    const bool first = &panel == &content.panels.front(), last = &panel == &content.panels.back();
    const double left = page_margin_pt + axis_width_pt;
    const Axes axes{{content.along_m[0], panel.low},
                    {content.along_m[places - 1], panel.high},
                    {left, top},
                    {content.text.width_pt - left - page_margin_pt - 6, panel_height_pt}};
    draw_discs(canvas, content, axes, first);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        const auto level = [&](double value, const Pen& pen) {
            canvas.stroke(axes.line_to_page({{axes.low.x(), value}, {axes.high.x(), value}}), pen);
        };
        if (panel.low < 0)
            level(0, zero_pen);
        if (panel.target)
            level(*panel.target, target_pen);
        for (std::size_t k = 0; k < panel.values.size(); ++k)
            for (const auto& part : parts_of(content.along_m, panel.values[k]))
                canvas.stroke(axes.line_to_page(part), content.pens[k]);
    });
    const Label x_title = symbol(content.line.along_x ? "x" : "y") + plain(" (m)");
    draw_axes(canvas, axes, last ? x_title : Label(), panel.title, {last, true});
    if (!content.last.converged)
        draw_not_converged(canvas, axes.upper_left_pt, axes.size_pt);
}

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    double top = head_height_pt(content.text) + pile_row_pt;
    canvas.text(plain("pile"), {page_margin_pt + axis_width_pt - 4, top - 3}, {6.5, Align::Right, ink});
    for (const auto& panel : content.panels) {
        draw_panel(canvas, content, panel, top);
        top += panel_height_pt + panel_gap_pt;
    }
    top += axis_height_pt - panel_gap_pt;
    draw_key(canvas, content.key, {page_margin_pt, top}, content.text.text_width_pt());
    draw_foot(canvas, content.text, top + key_height_pt(content.key, content.text.text_width_pt()));
}

void add_key(Content& content, const std::vector<io::ResultsStage>& stages) {
    for (std::size_t k = 0; k < stages.size(); ++k) {
        content.pens.push_back(pen_of(k, stages.size()));
        content.key.push_back(line_entry(stage_in_words(content.header, stages[k]), content.pens[k]));
    }
    if (const auto target = content.header.target_relative_density_pct)
        content.key.push_back(line_entry(fmt::format("target D_r {:.4g} %", *target), target_pen));
    content.key.push_back(
        {"pile at the last stage drawn", [](Canvas& canvas, const Vec2& left) {
             const Vec2 low = left - Vec2(0, 3), high = left + Vec2(key_symbol_pt, 3);
             canvas.fill({{low, {high.x(), low.y()}, high, {low.x(), high.y()}}}, pile_gray);
         }});
}

} // namespace

Drawing line_across_piles(const io::ResultsHeader& header, const std::vector<io::ResultsStage>& stages,
                          bool with_pressure) {
    if (stages.empty())
        throw std::invalid_argument("line_across_piles needs a stage");
    const auto content = std::make_shared<Content>();
    content->header = header;
    content->last = stages.back();
    content->line = fullest_pile_line(header);
    content->along_m = places_along(content->line, header);
    content->panels = {panel_of(*content, stages, "relative_density_pct", "density", 5),
                       panel_of(*content, stages, "lateral_stress_ratio", "lateral stress ratio", 0.1)};
    if (with_pressure)
        content->panels.push_back(
            panel_of(*content, stages, "excess_pore_pressure_kPa", "excess pressure", 1));
    add_key(*content, stages);
    add_text(*content, with_pressure);

    const double panels = static_cast<double>(content->panels.size());
    const Vec2 size(content->text.width_pt, head_height_pt(content->text) + pile_row_pt +
                                                panels * (panel_height_pt + panel_gap_pt) - panel_gap_pt +
                                                axis_height_pt +
                                                key_height_pt(content->key, content->text.text_width_pt()) +
                                                foot_height_pt(content->text));
    return {size, content->text.title + ": ground along a line of piles", header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
