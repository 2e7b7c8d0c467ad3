#include "postprocess/figures/plan_panels.h"

#include "postprocess/color_bar.h"
#include "postprocess/continuation.h"
#include "postprocess/ground.h"
#include "postprocess/ground_summary.h"
#include "postprocess/line_breaks.h"
#include "postprocess/pile_marks.h"
#include "postprocess/plan_page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <memory>
#include <set>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double gap_pt = 16; // numbers at the ends of two axes side by side do not touch
constexpr double head_size_pt = 7, head_line_pt = 8.5;
constexpr double least_panel_pt = 84;    // wide enough for a head of a few words
constexpr double largest_panel_pt = 230; // high

struct Panel {
    NamedStage of;
    PlanBands bands;
    Axes axes;
    std::vector<Label> head;
};

struct Content {
    PageText text;
    BandScale scale;
    Label bar_title;
    std::vector<Panel> panels;
    int columns = 1;
    io::ResultsHeader marks; ///< sides and diameters of all panels, for the key
};

std::string letter_of(std::size_t panel) {
    return fmt::format("({})", static_cast<char>('a' + panel));
}

PlanView view_of_all(const std::vector<NamedStage>& panels, double margin_m) {
    PlanView all{Vec2::Constant(HUGE_VAL), Vec2::Constant(-HUGE_VAL)};
    for (const auto& [header, stage, run] : panels) {
        const auto view = visible_part(header, current_grid(header, stage), margin_m);
        all = {all.low.cwiseMin(view.low), all.high.cwiseMax(view.high)};
    }
    return all;
}

io::ResultsHeader all_marks(const std::vector<NamedStage>& panels) {
    io::ResultsHeader marks = panels.front().header;
    for (const auto& [header, stage, run] : panels) {
        const auto before = marks.pile_diameter_m.size(), more = header.pile_diameter_m.size();
        marks.pile_diameter_m.conservativeResize(before + more);
        marks.pile_diameter_m.tail(more) = header.pile_diameter_m;
        for (std::size_t side = 0; side < 4; ++side)
            if (header.side[side] == "symmetry")
                marks.side[side] = "symmetry";
    }
    return marks;
}

/// "(a) 41.8, (b) 43.5 %" of one number of each panel.
std::string told(const std::vector<std::optional<GroundSummary>>& grounds, double GroundSummary::*what,
                 std::string_view unit) {
    std::vector<std::string> values;
    for (std::size_t k = 0; k < grounds.size(); ++k)
        if (grounds[k])
            values.push_back(fmt::format("{}\u00a0{}", letter_of(k), rounded((*grounds[k]).*what)));
    return fmt::format("{}{}", fmt::join(values, ", "), unit == "-" ? "" : fmt::format("\u00a0{}", unit));
}

void add_ground_notes(PageText& text, const std::vector<NamedStage>& panels, const mesh::FieldInfo& info) {
    std::vector<std::optional<GroundSummary>> grounds;
    for (const auto& [header, stage, run] : panels)
        grounds.push_back(between_piles(header, stage, std::string(info.name)));
    if (std::none_of(grounds.begin(), grounds.end(), [](const auto& ground) { return ground.has_value(); }))
        return;
    for (const auto& note :
         {fmt::format("Ground between the piles without pile material, mean: {}.",
                      told(grounds, &GroundSummary::mean, info.unit)),
          fmt::format("As drawn least: {}; most: {}.", told(grounds, &GroundSummary::least, info.unit),
                      told(grounds, &GroundSummary::most, info.unit))})
        text.notes.push_back(plain(note));
}

PageText text_of(const std::vector<NamedStage>& panels, const mesh::FieldInfo& info) {
    PageText text = page_text(panels.front().header);
    std::set<std::string> titles, cases;
    for (const auto& panel : panels) {
        titles.insert(page_text(panel.header).title);
        cases.insert(panel.header.case_name);
    }
    const bool several_runs = !panels.front().run.empty();
    if (titles.size() > 1)
        text.title = fmt::format("{} runs compared", panels.size());
    if (cases.size() > 1)
        text.source = fmt::format("interpile " INTERPILE_VERSION ", cases {}", fmt::join(cases, ", "));
    text.subtitle =
        name_with_symbol(info) + plain(fmt::format(" \u2013 {} {}, {:.4g} m below ground", panels.size(),
                                                   several_runs         ? "runs"
                                                   : panels.size() == 1 ? "stage"
                                                                        : "stages",
                                                   panels.front().header.depth_m));
    if (!is_stepwise(std::string(info.name)))
        add_ground_notes(text, panels, info);
    if (!info.sign.empty() && info.name != "relative_density_pct")
        text.notes.push_back(plain(fmt::format("Sign: {}.", info.sign)));
    const auto any = [&](auto&& holds) { return std::any_of(panels.begin(), panels.end(), holds); };
    if (info.name == "relative_density_pct" && any([](const auto& p) { return p.header.monotonic_density; }))
        text.warnings.emplace_back(no_prediction);
    if (any([](const auto& p) { return !p.stage.converged; }))
        text.warnings.emplace_back(not_a_result);
    return text;
}

/// The stage in words, without a break inside its time.
std::string stage_head(const NamedStage& panel) {
    auto words = stage_in_words(panel.header, panel.stage);
    for (auto at = words.find(", at ");
         at != std::string::npos && (at = words.find(' ', at + 2)) != std::string::npos;)
        words.replace(at, 1, "\u00a0");
    return words;
}

/// As many columns as there is room for, in rows as full as they can be.
int columns_for(std::size_t panels, double width_pt) {
    const auto most =
        static_cast<std::size_t>(std::clamp((width_pt + gap_pt) / (least_panel_pt + gap_pt), 1.0, 3.0));
    const std::size_t rows = (panels + most - 1) / most;
    return static_cast<int>((panels + rows - 1) / rows);
}

/// Places and heads of the panels.
/// \return height below the head of the page that they take [pt]
double arrange(Content& content, const PlanView& view) {
    const double left = page_margin_pt + axis_width_pt, top = head_height_pt(content.text);
    const double width = content.text.width_pt - left - bar_column_pt - page_margin_pt;
    content.columns = columns_for(content.panels.size(), width);
    const double panel_width = (width - (content.columns - 1) * gap_pt) / content.columns;
    std::size_t head_lines = 1;
    for (std::size_t k = 0; k < content.panels.size(); ++k) {
        auto& [of, bands, axes, head] = content.panels[k];
        head = worded_lines(
            plain(fmt::format("{} {}{}{}", letter_of(k), of.run, of.run.empty() ? "" : ", ", stage_head(of))),
            letters_within(panel_width, head_size_pt));
        head_lines = std::max(head_lines, head.size());
    }
    const double head_pt = head_line_pt * static_cast<double>(head_lines) + 3;
    double y = top;
    for (std::size_t k = 0; k < content.panels.size(); ++k) {
        const auto column = static_cast<double>(k % content.columns);
        auto& axes = content.panels[k].axes;
        axes = equal_scale_axes(view.low, view.high, {left, y + head_pt}, {panel_width, largest_panel_pt});
        axes.upper_left_pt.x() += column * (axes.size_pt.x() + gap_pt);
        if ((k + 1) % content.columns == 0 || k + 1 == content.panels.size())
            y = axes.lower_right_pt().y() + gap_pt;
    }
    return y - gap_pt + axis_height_pt - top;
}

void draw_panel(Canvas& canvas, const Content& content, std::size_t number) {
    const auto& [of, bands, axes, head] = content.panels[number];
    const auto columns = static_cast<std::size_t>(content.columns);
    double base = axes.upper_left_pt.y() - 3 - head_line_pt * static_cast<double>(head.size() - 1);
    for (const auto& line : head) {
        canvas.text(line, {axes.upper_left_pt.x(), base}, {head_size_pt, Align::Left, ink});
        base += head_line_pt;
    }
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        draw_plan_bands(canvas, axes, bands, content.scale);
        draw_piles(canvas, axes, of.header, of.stage);
    });
    const bool leftmost = number % columns == 0, lowest = number + columns >= content.panels.size();
    draw_axes(canvas, axes, lowest ? symbol("x") + plain(" (m)") : Label(),
              leftmost ? symbol("y") + plain(" (m)") : Label(), {lowest, leftmost});
    canvas.clipped(axes.upper_left_pt - Vec2(1, 1), axes.lower_right_pt() + Vec2(1, 1),
                   [&] { draw_domain_sides(canvas, axes, of.header, of.stage); });
    if (!of.stage.converged)
        draw_not_converged(canvas, axes.upper_left_pt, axes.size_pt);
}

void draw(Canvas& canvas, const Content& content, double below_pt) {
    draw_head(canvas, content.text);
    for (std::size_t k = 0; k < content.panels.size(); ++k)
        draw_panel(canvas, content, k);
    const auto& first = content.panels.front().axes;
    const auto& rightmost = content.panels[content.columns - 1].axes;
    const double height = content.panels.back().axes.lower_right_pt().y() - first.upper_left_pt.y();
    draw_color_bar(canvas, content.scale, {rightmost.lower_right_pt().x() + 14, first.upper_left_pt.y()},
                   std::clamp(height, least_bar_pt, 2 * least_bar_pt), content.bar_title);
    const auto key = mark_key(content.marks, {});
    draw_key(canvas, key, {page_margin_pt, below_pt}, content.text.text_width_pt());
    draw_foot(canvas, content.text, below_pt + key_height_pt(key, content.text.text_width_pt()));
}

} // namespace

Drawing plan_panels(const std::vector<NamedStage>& panels, const std::string& field, double margin_m) {
    if (panels.empty() || panels.size() > most_panels)
        throw std::invalid_argument(
            fmt::format("{} plans on a page; it takes 1 .. {}", panels.size(), most_panels));
    const auto& info = mesh::field_info(field);
    const auto content = std::make_shared<Content>();
    content->text = text_of(panels, info);
    content->bar_title = symbol_with_unit(info);
    content->marks = all_marks(panels);
    const auto view = view_of_all(panels, margin_m);

    std::vector<Eigen::ArrayXd> values;
    ShownValues shown;
    for (const auto& [header, stage, run] : panels) {
        const auto grid = current_grid(header, stage);
        const auto ground = ground_cells(stage);
        values.push_back(continued_under_piles(grid, field_values(stage, field), ground));
        shown.add(shown_values(field, grid, values.back(), ground, view));
    }
    content->scale = plan_scale(field, shown);
    for (std::size_t k = 0; k < panels.size(); ++k)
        content->panels.push_back(
            {panels[k],
             plan_bands(field, current_grid(panels[k].header, panels[k].stage), values[k], content->scale),
             {},
             {}});
    const double top = head_height_pt(content->text);
    const double below = top + std::max(arrange(*content, view), least_bar_pt + 20);
    const double key = key_height_pt(mark_key(content->marks, {}), content->text.text_width_pt());
    const Vec2 size(content->text.width_pt, below + key + foot_height_pt(content->text));
    return {size, content->text.title + ": " + std::string(info.long_name), panels.front().header.started,
            [content, below](Canvas& canvas) { draw(canvas, *content, below); }};
}

} // namespace interpile::postprocess
