#include "postprocess/plan_page.h"

#include "postprocess/color_bar.h"
#include "postprocess/pile_marks.h"

#include <algorithm>

namespace interpile::postprocess {

namespace {

constexpr double largest_plan_pt = 350; // high

/// Where the key begins.
double below_pt(const Axes& axes) {
    return axes.upper_left_pt.y() + std::max(axes.size_pt.y() + axis_height_pt, least_bar_pt);
}

} // namespace

Axes plan_axes(const PageText& text, const PlanView& view) {
    const Vec2 upper_left(page_margin_pt + axis_width_pt, head_height_pt(text));
    const double width = text.width_pt - upper_left.x() - bar_column_pt - page_margin_pt;
    return equal_scale_axes(view.low, view.high, upper_left, {width, largest_plan_pt});
}

Vec2 size_pt(const PlanPage& page) {
    return {page.text.width_pt, below_pt(page.axes) + key_height_pt(page.key, page.text.text_width_pt()) +
                                    foot_height_pt(page.text)};
}

void draw_plan_page(Canvas& canvas, const PlanPage& page, const io::ResultsHeader& header,
                    const io::ResultsStage& stage, bool converged,
                    const std::function<void()>& draw_over_bands) {
    const auto& axes = page.axes;
    draw_head(canvas, page.text);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        draw_plan_bands(canvas, axes, page.bands, page.scale);
        draw_over_bands();
    });
    draw_axes(canvas, axes, symbol("x") + plain(" (m)"), symbol("y") + plain(" (m)"));
    canvas.clipped(axes.upper_left_pt - Vec2(1, 1), axes.lower_right_pt() + Vec2(1, 1),
                   [&] { draw_domain_sides(canvas, axes, header, stage); });
    if (!converged)
        draw_not_converged(canvas, axes.upper_left_pt, axes.size_pt);
    draw_color_bar(canvas, page.scale, {axes.lower_right_pt().x() + 14, axes.upper_left_pt.y()},
                   std::max(axes.size_pt.y(), least_bar_pt), page.bar_title);
    const double below = below_pt(axes);
    draw_key(canvas, page.key, {page_margin_pt, below}, page.text.text_width_pt());
    draw_foot(canvas, page.text, below + key_height_pt(page.key, page.text.text_width_pt()));
}

} // namespace interpile::postprocess
