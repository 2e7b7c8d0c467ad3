#include "postprocess/figures/plan_contour.h"

#include "postprocess/axes.h"
#include "postprocess/color_bar.h"
#include "postprocess/color_map.h"
#include "postprocess/continuation.h"
#include "postprocess/contours.h"
#include "postprocess/figures/movement_arrows.h"
#include "postprocess/ground.h"
#include "postprocess/page.h"
#include "postprocess/pile_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>

namespace interpile::postprocess {

namespace {

constexpr double bar_column_pt = 62; // color bar with its numbers, right of the plan
constexpr double least_bar_pt = 130; // also beside a flat plan
constexpr double largest_plan_pt = 350;
constexpr double key_row_pt = 16;

/// Everything computed once for all formats.
struct Content {
    io::ResultsHeader header;
    io::ResultsStage stage;
    PageText text;
    Axes axes;
    BandScale scale;
    std::vector<BandArea> bands;
    std::vector<Ring> lines;
    Label bar_title;
    std::vector<Arrow> arrows;
};

struct View {
    Vec2 low, high;
};

View visible_part(const io::ResultsHeader& header, const mesh::Grid& grid, double margin_m) {
    if (margin_m < 0)
        margin_m = (header.pile_diameter_m.size() > 1 ? 1.5 : 1.0) * typical_spacing_m(header);
    const Vec2 low = header.pile_center_m.rowwise().minCoeff(),
               high = header.pile_center_m.rowwise().maxCoeff();
    const Vec2 margin = Vec2::Constant(margin_m);
    return {(low - margin).cwiseMax(grid.node_m.rowwise().minCoeff()),
            (high + margin).cwiseMin(grid.node_m.rowwise().maxCoeff())};
}

/// States and directions have no values in between.
bool is_stepwise(const std::string& field) {
    return field == "yield_state" || field == "major_direction_deg";
}

BandScale scale_of(const std::string& field, const Eigen::ArrayXd& value, const std::vector<bool>& ground,
                   const mesh::Grid& grid, const View& view) {
    const auto middle = cell_middles(grid);
    const auto area = cell_areas(grid);
    std::vector<double> shown, weight;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const Vec2 at = middle.col(cell);
        if (ground[cell] && (at.array() >= view.low.array()).all() &&
            (at.array() <= view.high.array()).all()) {
            shown.push_back(value[cell]);
            weight.push_back(area[cell]);
        }
    }
    const Eigen::Map<Eigen::ArrayXd> values(shown.data(), static_cast<Eigen::Index>(shown.size()));
    if (field == "yield_state") {
        auto scale = fixed_scale({-0.5, 0.5, 1.5, 2.5}, 1, values);
        scale.name = {"0", "1", "2"};
        return scale;
    }
    if (field == "major_direction_deg")
        return fixed_scale({-90, -60, -30, 0, 30, 60, 90}, 0, values);
    return band_scale(values, Eigen::Map<Eigen::ArrayXd>(weight.data(), values.size()));
}

std::string stage_in_words(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    const auto piles = header.pile_diameter_m.size();
    const int finished = piles_finished(header, stage);
    if (!stage.converged)
        return fmt::format("stopped in pile {}, {} of {} finished", stage.pile + 1, finished, piles);
    return stage.stage == 0 ? "before the first pile" : fmt::format("after pile {} of {}", finished, piles);
}

Label with_unit(const mesh::FieldInfo& info) {
    const auto unit = info.unit == "-" ? "\u2013" : info.unit;
    const auto letters = symbol(info.symbol);
    return letters.empty() ? plain(fmt::format("({})", unit)) : letters + plain(fmt::format(" ({})", unit));
}

void add_notes(Content& content, const mesh::FieldInfo& info) {
    auto& text = content.text;
    auto name = std::string(info.long_name);
    name.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(name.front())));
    text.subtitle = plain(name + (info.symbol.empty() ? "" : " ")) + symbol(info.symbol) +
                    plain(fmt::format(" \u2013 {}, {:.4g} m below ground",
                                      stage_in_words(content.header, content.stage), content.header.depth_m));
    const auto field = std::string(info.name);
    if (const auto ground = between_piles(content.header, content.stage, field);
        ground && !is_stepwise(field)) {
        const auto value = [&](double v) {
            return rounded(v) + (info.unit == "-" ? "" : fmt::format(" {}", info.unit));
        };
        text.notes.push_back(
            plain(fmt::format("Ground between the piles, pile material left out: mean {}, least {}, most {}.",
                              value(ground->mean), value(ground->least), value(ground->most))));
    }
    if (!info.sign.empty() && field != "relative_density_pct")
        text.notes.push_back(plain(fmt::format("Sign: {}.", info.sign)));
    if (field == "major_direction_deg")
        text.notes.push_back(plain("The ends of the scale meet: \u221290 and 90 are the same direction."));
    if (content.header.monotonic_density && field == "relative_density_pct")
        text.warnings.emplace_back(
            "This soil model does not densify under repeated strokes: D_r shows the effect of "
            "monotonic expansion only and is not a prediction.");
    if (!content.stage.converged)
        text.warnings.emplace_back("NOT CONVERGED: saved for inspection, not a result.");
}

void draw(Canvas& canvas, const Content& content) {
    const auto& axes = content.axes;
    draw_head(canvas, content.text);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        for (const auto& area : content.bands) {
            std::vector<Polyline> outlines;
            for (const auto& ring : area.rings)
                outlines.push_back(axes.line_to_page(ring));
            canvas.fill(outlines, band_color(area.band, content.scale.band_count()));
        }
        for (const auto& line : content.lines)
            canvas.stroke(axes.line_to_page(line), {0.3, {0.15, 0.2, 0.25, 0.7}});
        for (const auto& arrow : content.arrows)
            draw_arrow(canvas, arrow);
        draw_piles(canvas, axes, content.header, content.stage);
    });
    draw_axes(canvas, axes, symbol("x") + plain(" (m)"), symbol("y") + plain(" (m)"));
    canvas.clipped(axes.upper_left_pt - Vec2(1, 1), axes.lower_right_pt() + Vec2(1, 1),
                   [&] { draw_domain_sides(canvas, axes, content.header, content.stage); });
    if (!content.stage.converged)
        draw_not_converged(canvas, axes.upper_left_pt, axes.size_pt);

    const double height = std::max(axes.size_pt.y(), least_bar_pt);
    draw_color_bar(canvas, content.scale, {axes.lower_right_pt().x() + 14, axes.upper_left_pt.y()}, height,
                   content.bar_title);
    const double below = axes.upper_left_pt.y() + std::max(axes.size_pt.y() + axis_height_pt, least_bar_pt);
    draw_mark_key(canvas, content.header, {page_margin_pt, below + 0.5 * key_row_pt},
                  !content.arrows.empty());
    draw_foot(canvas, content.text, below + key_row_pt);
}

} // namespace

Drawing plan_contour(const io::ResultsHeader& header, const io::ResultsStage& stage, const std::string& field,
                     double margin_m) {
    const auto& info = mesh::field_info(field);
    const auto content =
        std::make_shared<Content>(Content{header, stage, page_text(header), {}, {}, {}, {}, {}, {}});
    const auto grid = current_grid(header, stage);
    const auto ground = ground_cells(stage);
    const auto value = continued_under_piles(grid, field_values(stage, field), ground);
    const auto view = visible_part(header, grid, margin_m);

    content->scale = scale_of(field, value, ground, grid, view);
    if (is_stepwise(field)) {
        content->bands = cell_bands(grid, value, content->scale);
    } else {
        content->bands = smooth_bands(grid, value, content->scale);
        content->lines = isolines(grid, value, content->scale);
    }
    content->bar_title = with_unit(info);
    add_notes(*content, info);

    const double left = page_margin_pt + axis_width_pt, top = head_height_pt(content->text);
    const double width = page_width_pt - left - bar_column_pt - page_margin_pt;
    content->axes = equal_scale_axes(view.low, view.high, {left, top}, {width, largest_plan_pt});
    if (field == "displacement_m")
        content->arrows = movement_arrows(grid, stage, content->axes);

    const double plan = std::max(content->axes.size_pt.y() + axis_height_pt, least_bar_pt);
    const Vec2 size(page_width_pt, top + plan + key_row_pt + foot_height_pt(content->text));
    return {size, content->text.title + ": " + std::string(info.long_name), header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
