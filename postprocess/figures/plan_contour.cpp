#include "postprocess/figures/plan_contour.h"

#include "mesh/ground_area.h"
#include "postprocess/axes.h"
#include "postprocess/color_bar.h"
#include "postprocess/color_map.h"
#include "postprocess/continuation.h"
#include "postprocess/contours.h"
#include "postprocess/figures/movement_arrows.h"
#include "postprocess/figures/nearly_liquefied.h"
#include "postprocess/ground.h"
#include "postprocess/ground_summary.h"
#include "postprocess/page.h"
#include "postprocess/pile_marks.h"
#include "postprocess/smoothing.h"
#include "postprocess/weakest_mark.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

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
    std::optional<ArrowMeaning> arrow_meaning;
    std::optional<WeakestMark> weakest;
    NearlyLiquefied nearly_liquefied;
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

/// Fields of the pore water, on which the nearly liquefied ground is shown.
bool is_excess_pressure(const std::string& field) {
    return field == "excess_pore_pressure_kPa" || field == "excess_pressure_ratio";
}

/// What is left of a pressure after a long rest is not worth a scale of its own (own choice).
double least_range(const std::string& field) {
    return field == "excess_pore_pressure_kPa" ? 0.5 : field == "excess_pressure_ratio" ? 0.005 : 0;
}

/// States and directions have no values in between.
bool is_stepwise(const std::string& field) {
    return field == "yield_state" || field == "major_direction_deg";
}

/// Values in the visible ground and the areas they stand for.
struct Shown {
    std::vector<double> value, area_m2;

    void add_if_visible(const View& view, const Vec2& at, double v, double area) {
        if ((at.array() < view.low.array()).any() || (at.array() > view.high.array()).any())
            return;
        value.push_back(v);
        area_m2.push_back(area);
    }
};

/// Of a field that is drawn cell by cell.
Shown shown_cells(const mesh::Grid& grid, const Eigen::ArrayXd& value, const std::vector<bool>& ground,
                  const View& view) {
    const auto middle = mesh::cell_middles(grid);
    const auto area = mesh::cell_areas(grid);
    Shown shown;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (ground[cell])
            shown.add_if_visible(view, middle.col(cell), value[cell], area[cell]);
    return shown;
}

/// Of a smoothed field: at the nodes with ground all around, so that the ends of the scale are those of the picture.
Shown shown_nodes(const mesh::Grid& grid, const Eigen::ArrayXd& value, const std::vector<bool>& ground,
                  const View& view) {
    const auto at_nodes = node_averages(grid, value, ground);
    const auto cell_area = mesh::cell_areas(grid);
    Eigen::ArrayXd area = Eigen::ArrayXd::Zero(grid.node_count());
    std::vector<bool> beside_pile(grid.node_count(), false);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell)) {
            area[node] += cell_area[cell] / 4;
            beside_pile[node] = beside_pile[node] || !ground[cell];
        }
    Shown shown;
    for (int node = 0; node < grid.node_count(); ++node)
        if (!beside_pile[node])
            shown.add_if_visible(view, grid.node_m.col(node), at_nodes[node], area[node]);
    return shown;
}

BandScale scale_of(const std::string& field, const Eigen::ArrayXd& value, const std::vector<bool>& ground,
                   const mesh::Grid& grid, const View& view) {
    Shown shown;
    if (!is_stepwise(field))
        shown = shown_nodes(grid, value, ground, view);
    if (shown.value.empty()) // also a grid so coarse that no node is clear of piles
        shown = shown_cells(grid, value, ground, view);
    const Eigen::Map<Eigen::ArrayXd> values(shown.value.data(),
                                            static_cast<Eigen::Index>(shown.value.size()));
    if (field == "yield_state") {
        auto scale = fixed_scale({-0.5, 0.5, 1.5, 2.5}, 1, values);
        scale.name = {"0", "1", "2"};
        return scale;
    }
    if (field == "major_direction_deg")
        return fixed_scale({-90, -60, -30, 0, 30, 60, 90}, 0, values);
    return band_scale(values, Eigen::Map<Eigen::ArrayXd>(shown.area_m2.data(), values.size()),
                      least_range(field));
}

Label with_unit(const mesh::FieldInfo& info) {
    const auto unit = info.unit == "-" ? "\u2013" : info.unit;
    const auto letters = symbol(info.symbol);
    return letters.empty() ? plain(fmt::format("({})", unit)) : letters + plain(fmt::format(" ({})", unit));
}

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
    for (const auto& line :
         wrapped(fmt::format("Ground between the piles without pile material: mean {}; as drawn least {} at "
                             "({}, {}) m, most {}.",
                             value(ground->mean), value(ground->least), number(ground->least_at_m.x(), 2),
                             number(ground->least_at_m.y(), 2), value(ground->most)),
                 note_characters))
        notes.push_back(plain(line));
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
    auto name = std::string(info.long_name);
    name.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(name.front())));
    text.subtitle = plain(name + (info.symbol.empty() ? "" : " ")) + symbol(info.symbol) +
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
        draw_nearly_liquefied(canvas, axes, content.nearly_liquefied);
        for (const auto& arrow : content.arrows)
            draw_arrow(canvas, arrow);
        draw_piles(canvas, axes, content.header, content.stage);
    });
    draw_axes(canvas, axes, symbol("x") + plain(" (m)"), symbol("y") + plain(" (m)"));
    canvas.clipped(axes.upper_left_pt - Vec2(1, 1), axes.lower_right_pt() + Vec2(1, 1),
                   [&] { draw_domain_sides(canvas, axes, content.header, content.stage); });
    if (content.weakest) // may lie on the border
        draw_weakest_mark(canvas, axes, content.header, content.stage, *content.weakest);
    if (!content.stage.converged)
        draw_not_converged(canvas, axes.upper_left_pt, axes.size_pt);

    const double height = std::max(axes.size_pt.y(), least_bar_pt);
    draw_color_bar(canvas, content.scale, {axes.lower_right_pt().x() + 14, axes.upper_left_pt.y()}, height,
                   content.bar_title);
    const double below = axes.upper_left_pt.y() + std::max(axes.size_pt.y() + axis_height_pt, least_bar_pt);
    draw_mark_key(canvas, content.header, {page_margin_pt, below + 0.5 * key_row_pt}, content.arrow_meaning);
    draw_foot(canvas, content.text, below + key_row_pt);
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

    content->scale = scale_of(field, value, ground, grid, view);
    if (is_stepwise(field)) {
        content->bands = cell_bands(grid, value, content->scale);
    } else {
        content->bands = smooth_bands(grid, value, content->scale);
        content->lines = isolines(grid, value, content->scale);
    }
    content->bar_title = with_unit(info);
    if (is_excess_pressure(field))
        content->nearly_liquefied = nearly_liquefied(grid, stage);
    add_notes(*content, info);

    const double left = page_margin_pt + axis_width_pt, top = head_height_pt(content->text);
    const double width = page_width_pt - left - bar_column_pt - page_margin_pt;
    content->axes = equal_scale_axes(view.low, view.high, {left, top}, {width, largest_plan_pt});
    add_arrows(*content, grid, field);

    const double plan = std::max(content->axes.size_pt.y() + axis_height_pt, least_bar_pt);
    const Vec2 size(page_width_pt, top + plan + key_row_pt + foot_height_pt(content->text));
    return {size, content->text.title + ": " + std::string(info.long_name), header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
