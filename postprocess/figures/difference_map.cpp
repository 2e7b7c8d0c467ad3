#include "postprocess/figures/difference_map.h"

#include "postprocess/continuation.h"
#include "postprocess/ground.h"
#include "postprocess/pile_marks.h"
#include "postprocess/plan_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

struct Content : PlanPage {
    NamedStage first, second;
    std::vector<Vec2> second_ground; ///< outline of the second result's grid at its stage [m]
};

std::vector<Vec2> outline_of(const mesh::Grid& grid) {
    std::vector<Vec2> outline;
    const int nx = grid.cells_x, ny = grid.cells_y;
    const auto add = [&](int i, int j) { outline.emplace_back(grid.node_m.col(grid.node_index(i, j))); };
    for (int i = 0; i < nx; ++i)
        add(i, 0);
    for (int j = 0; j < ny; ++j)
        add(nx, j);
    for (int i = nx; i > 0; --i)
        add(i, ny);
    for (int j = ny; j > 0; --j)
        add(0, j);
    return outline;
}

/// What both show.
PlanView common_view(const NamedStage& first, const NamedStage& second) {
    const auto a = visible_part(first.header, current_grid(first.header, first.stage));
    const auto b = visible_part(second.header, current_grid(second.header, second.stage));
    return {a.low.cwiseMax(b.low), a.high.cwiseMin(b.high)};
}

/// A difference with its sign.
std::string with_sign(double value, std::string_view unit) {
    const std::string size = rounded(value);
    const bool is_more = value > 0 && size.find_first_of("123456789") != std::string::npos;
    return (is_more ? "+" : "") + size + (unit == "-" ? "" : fmt::format("\u00a0{}", unit));
}

/// Points of relative density, so that nobody takes a difference of percentages for a share.
std::string_view unit_of_difference(const mesh::FieldInfo& info) {
    return info.unit == "%" ? "points" : info.unit;
}

PageText text_of(const NamedStage& first, const NamedStage& second, const mesh::FieldInfo& info,
                 const FieldDifference& difference) {
    PageText text = page_text(first.header);
    text.title = fmt::format("{} minus {}", second.run, first.run);
    text.source = fmt::format("interpile " INTERPILE_VERSION ", cases {} and {}", second.header.case_name,
                              first.header.case_name);
    text.subtitle = plain("Difference: ") + plain(std::string(info.long_name) + " ") + symbol(info.symbol) +
                    plain(fmt::format(" \u2013 {:.4g} m below ground", first.header.depth_m));
    const auto unit = unit_of_difference(info);
    const auto value = [&](double v) {
        return rounded(v) + (info.unit == "-" ? "" : fmt::format("\u00a0{}", info.unit));
    };
    const auto place = [](const Vec2& at) {
        return fmt::format("({}, {}) m", number(at.x(), 2), number(at.y(), 2));
    };
    std::vector<std::string> notes = {
        fmt::format("{}: {}. {}: {}.", second.run, stage_in_words(second.header, second.stage), first.run,
                    stage_in_words(first.header, first.stage)),
        fmt::format("Ground that both have{}, {} m\u00b2: mean {} minus {} = {}; away from the piles "
                    "least {} at {}, most {} at {}.",
                    first.header.treated.empty() || second.header.treated.empty() ? "" : " between the piles",
                    rounded(difference.area_m2), value(difference.second_mean), value(difference.first_mean),
                    with_sign(difference.mean(), unit), with_sign(difference.least, unit),
                    place(difference.least_at_m), with_sign(difference.most, unit),
                    place(difference.most_at_m)),
        fmt::format(
            "At places fixed in space. Gray: piles of either; numbers and dashed circles are those of "
            "{}.",
            first.run)};
    if (first.stage.stage != second.stage.stage)
        notes.emplace_back("The two stages differ in the work that is done.");
    for (const auto& note : notes)
        text.notes.push_back(plain(note));
    if (info.name == "relative_density_pct" &&
        (first.header.monotonic_density || second.header.monotonic_density))
        text.warnings.emplace_back(no_prediction);
    if (!first.stage.converged || !second.stage.converged)
        text.warnings.emplace_back(not_a_result);
    return text;
}

/// Everything that is not in the second result is left white.
void leave_out_other_ground(Canvas& canvas, const Axes& axes, const std::vector<Vec2>& ground) {
    const Vec2 low = axes.upper_left_pt - Vec2(1, 1), high = axes.lower_right_pt() + Vec2(1, 1);
    canvas.fill({{low, {high.x(), low.y()}, high, {low.x(), high.y()}}, axes.line_to_page(ground)},
                {1, 1, 1});
}

void draw(Canvas& canvas, const Content& content) {
    const auto& first = content.first;
    const auto& second = content.second;
    const bool converged = first.stage.converged && second.stage.converged;
    draw_plan_page(canvas, content, first.header, first.stage, converged, [&] {
        leave_out_other_ground(canvas, content.axes, content.second_ground);
        cover_discs(canvas, content.axes, second.header, second.stage);
        draw_piles(canvas, content.axes, first.header, first.stage);
    });
}

} // namespace

Drawing difference_map(const NamedStage& first, const NamedStage& second, const std::string& field,
                       const FieldDifference& difference) {
    if (is_stepwise(field))
        throw std::invalid_argument("states and directions have no differences: " + field);
    const auto& info = mesh::field_info(field);
    const auto content = std::make_shared<Content>();
    content->first = first;
    content->second = second;
    content->text = text_of(first, second, info, difference);
    content->bar_title =
        plain("\u0394") + symbol(info.symbol) +
        plain(fmt::format(" ({})", info.unit == "-" ? "\u2013" : std::string(unit_of_difference(info))));
    content->second_ground = outline_of(current_grid(second.header, second.stage));

    const auto grid = current_grid(first.header, first.stage);
    const auto value = continued_under_piles(grid, difference.value, difference.common);
    const auto view = common_view(first, second);
    const auto shown = shown_values(field, grid, value, difference.common, view);
    const auto count = static_cast<Eigen::Index>(shown.value.size());
    content->scale = difference_scale(Eigen::Map<const Eigen::ArrayXd>(shown.value.data(), count),
                                      Eigen::Map<const Eigen::ArrayXd>(shown.area_m2.data(), count),
                                      least_range(field) / 7, figure_style().most_bands);
    content->bands = plan_bands(field, grid, value, content->scale);

    content->axes = plan_axes(content->text, view);
    content->key = mark_key(first.header, {});
    return {size_pt(*content), content->text.title + ": " + std::string(info.long_name), first.header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
