#include "postprocess/figures/plan_contour.h"

#include "postprocess/continuation.h"
#include "postprocess/figures/movement_arrows.h"
#include "postprocess/figures/nearly_liquefied.h"
#include "postprocess/ground.h"
#include "postprocess/ground_summary.h"
#include "postprocess/pile_marks.h"
#include "postprocess/plan_page.h"
#include "postprocess/weakest_mark.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

namespace interpile::postprocess {

namespace {

/// Everything computed once for all formats.
struct Content : PlanPage {
    io::ResultsHeader header;
    io::ResultsStage stage;
    std::vector<Arrow> arrows;
    std::optional<ArrowMeaning> arrow_meaning;
    std::optional<WeakestMark> weakest;
    NearlyLiquefied nearly_liquefied;
};

/// Numbers of the ground between the piles, and the place where it is least dense.
void add_ground_notes(Content& content, const mesh::FieldInfo& info) {
    const auto field = std::string(info.name);
    const auto ground = between_piles(content.header, content.stage, field);
    if (!ground || ground->is_uniform())
        return;
    const auto value = [&](double v) {
        const bool is_small = is_excess_pressure(field) && std::abs(v) < 2 * least_range(field);
        return (is_small ? number(v, info.unit == "-" ? 3 : 2) : rounded(v)) +
               (info.unit == "-" ? "" : fmt::format("\u00a0{}", info.unit)); // no line ends before the unit
    };
    auto& notes = content.text.notes;
    notes.push_back(plain(fmt::format(
        "Ground between the piles without pile material: mean {}; as drawn least {} at ({}, {}) m, most {}.",
        value(ground->mean), value(ground->least), number(ground->least_at_m.x(), 2),
        number(ground->least_at_m.y(), 2), value(ground->most))));
    std::string shares, values;
    for (const double share : told_shares) {
        shares += fmt::format("{}{:.0f}", shares.empty() ? "" : ", ", 100 * share);
        values += (values.empty() ? "" : ", ") + value(ground->distribution.quantile(share));
    }
    notes.push_back(plain(fmt::format("{} % of its area have less than {}.", shares, values)));
    const auto& target = content.header.target_relative_density_pct;
    if (field != "relative_density_pct")
        return;
    content.weakest = WeakestMark{ground->least_at_m, plain("weakest " + value(ground->least))};
    if (target)
        notes.push_back(plain(fmt::format("{:.1f} % of its area are below the target of {:.4g} %.",
                                          100 * ground->distribution.share_below(*target), *target)));
}

void add_notes(Content& content, const mesh::FieldInfo& info) {
    auto& text = content.text;
    text.subtitle = name_with_symbol(info) +
                    plain(fmt::format(" \u2013 {}, {:.4g} m below ground",
                                      stage_in_words(content.header, content.stage), content.header.depth_m));
    const auto field = std::string(info.name);
    if (!is_stepwise(field))
        add_ground_notes(content, info);
    if (is_excess_pressure(field))
        text.notes.push_back(sentence(
            content.nearly_liquefied.cells == 0
                ? "No cell of the ground has an r_u of 0.9 or more."
                : fmt::format(
                      "Hatched: r_u of 0.9 or more, nearly liquefied: {} cell{} of the ground, {} m\u00b2.",
                      content.nearly_liquefied.cells, content.nearly_liquefied.cells == 1 ? "" : "s",
                      rounded(content.nearly_liquefied.area_m2))));
    if (field == "excess_pressure_ratio")
        text.notes.push_back(sentence("r_u: excess pore pressure over the vertical effective stress before "
                                      "treatment, compression positive."));
    else if (!info.sign.empty() && field != "relative_density_pct")
        text.notes.push_back(plain(fmt::format("Sign: {}.", info.sign)));
    if (field == "major_direction_deg")
        text.notes.push_back(plain("The ends of the scale meet: \u221290 and 90 are the same direction."));
    if (content.header.monotonic_density && field == "relative_density_pct")
        text.warnings.emplace_back(no_prediction);
    if (!content.stage.converged)
        text.warnings.emplace_back(not_a_result);
}

void add_arrows(Content& content, const mesh::Grid& grid, const std::string& field) {
    if (field == "displacement_m") {
        content.arrows = movement_arrows(grid, content.stage, content.axes);
        if (!content.arrows.empty())
            content.arrow_meaning = ArrowMeaning{12, "direction of movement"};
    } else if (field == "excess_pore_pressure_kPa") {
        auto seepage = seepage_arrows(grid, content.stage, content.axes);
        // What is left of a pressure that is uniform as drawn moves no water worth showing.
        if (content.scale.most - content.scale.least > least_range(field))
            content.arrows = std::move(seepage.arrows);
        if (!content.arrows.empty())
            content.arrow_meaning = ArrowMeaning{seepage.key_length_pt, "seepage " + seepage.key_size};
    }
}

void draw(Canvas& canvas, const Content& content) {
    const auto& axes = content.axes;
    draw_plan_page(canvas, content, content.header, content.stage, content.stage.converged, [&] {
        draw_nearly_liquefied(canvas, axes, content.nearly_liquefied);
        for (const auto& arrow : content.arrows)
            draw_arrow(canvas, arrow);
        draw_piles(canvas, axes, content.header, content.stage);
    });
    if (content.weakest) // may lie on the border
        draw_weakest_mark(canvas, axes, content.header, content.stage, *content.weakest);
}

} // namespace

Drawing plan_contour(const io::ResultsHeader& header, const io::ResultsStage& stage, const std::string& field,
                     double margin_m) {
    const auto& info = mesh::field_info(field);
    const auto content = std::make_shared<Content>();
    content->header = header;
    content->stage = stage;
    content->text = page_text(header);
    const auto grid = current_grid(header, stage);
    const auto ground = ground_cells(stage);
    const auto value = continued_under_piles(grid, field_values(stage, field), ground);
    const auto view = visible_part(header, grid, margin_m);

    content->scale = plan_scale(field, shown_values(field, grid, value, ground, view));
    content->bands = plan_bands(field, grid, value, content->scale);
    content->bar_title = symbol_with_unit(info);
    if (is_excess_pressure(field))
        content->nearly_liquefied = nearly_liquefied(grid, stage);
    add_notes(*content, info);

    content->axes = plan_axes(content->text, view);
    add_arrows(*content, grid, field);
    content->key = mark_key(header, content->arrow_meaning);
    return {size_pt(*content), content->text.title + ": " + std::string(info.long_name), header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
