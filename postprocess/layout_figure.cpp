#include "postprocess/layout_figure.h"

#include "io/results_reader.h"
#include "mesh/pile_layout.h"
#include "postprocess/axes.h"
#include "postprocess/dimension_line.h"
#include "postprocess/key.h"
#include "postprocess/page.h"
#include "postprocess/pile_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <optional>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double largest_plan_pt = 400;
constexpr double dimension_room_pt = 34;
constexpr Color order_blue{0.10, 0.32, 0.58};
constexpr Color pile_fill{0.93, 0.93, 0.93};
const Pen symmetry_pen{1.0, ink, {8, 2.5, 1.2, 2.5}};

double largest_diameter_m(const LayoutDrawing& layout) {
    return *std::max_element(layout.diameters_m.begin(), layout.diameters_m.end());
}

struct Plan {
    const LayoutDrawing& layout;
    Axes axes;
    double radius_pt(int pile) const { return 0.5 * layout.diameters_m[pile] * axes.pt_per_unit_x(); }
    Vec2 on_page(int pile) const { return axes.to_page(layout.centers_m[pile]); }
};

double typical_distance(const LayoutDrawing& layout) {
    return layout.centers_m.size() > 1 ? mesh::smallest_distance_m(layout.centers_m)
                                       : 2.5 * largest_diameter_m(layout);
}

Axes plan_axes(const LayoutDrawing& layout, double top_pt) {
    Vec2 low = layout.centers_m.front(), high = low;
    for (const auto& center : layout.centers_m) {
        low = low.cwiseMin(center);
        high = high.cwiseMax(center);
    }
    const double left = page_margin_pt + axis_width_pt;
    const Vec2 largest(page_width_pt() - left - 2 * page_margin_pt, largest_plan_pt);
    // Room for the dimension lines, also where a long row makes the scale small.
    const double room_m =
        (high - low).cwiseQuotient(largest - Vec2::Constant(2 * dimension_room_pt)).maxCoeff() *
        dimension_room_pt;
    const Vec2 margin =
        Vec2::Constant(std::max(1.1 * typical_distance(layout), room_m + largest_diameter_m(layout) / 2));
    return equal_scale_axes(low - margin, high + margin, {left, top_pt}, largest);
}

/// Outline of the domain; what lies outside the view is clipped.
void draw_domain(Canvas& canvas, const Plan& plan) {
    const auto& domain = plan.layout.domain;
    const Pen side{1.0, ink};
    const auto pen = [&](int which) {
        return domain.side[which] == mesh::BoundaryKind::Symmetry ? symmetry_pen : side;
    };
    if (domain.shape == mesh::DomainShape::Round) {
        const bool quarter = domain.low.x() >= 0;
        std::vector<Vec2> arc;
        for (int k = 0; k <= 180; ++k) {
            const double angle = (quarter ? 0.5 : 2.0) * std::numbers::pi * k / 180;
            arc.emplace_back(domain.high.x() * Vec2(std::cos(angle), std::sin(angle)));
        }
        canvas.stroke(plan.axes.line_to_page(arc), side);
        if (!quarter)
            return;
    }
    const Vec2 a = domain.low, c = domain.high, b(c.x(), a.y()), d(a.x(), c.y());
    canvas.stroke(plan.axes.line_to_page({a, d}), pen(mesh::West));
    canvas.stroke(plan.axes.line_to_page({a, b}), pen(mesh::South));
    if (domain.shape == mesh::DomainShape::Rectangle) {
        canvas.stroke(plan.axes.line_to_page({b, c}), pen(mesh::East));
        canvas.stroke(plan.axes.line_to_page({d, c}), pen(mesh::North));
    }
}

using Step = std::pair<int, int>; ///< from pile, to pile

/// From each place to the next. Places of several piles have no single way; an order that mostly jumps would
/// be a tangle of lines, so that its numbers alone are shown.
std::vector<Step> way_of_work(const LayoutDrawing& layout) {
    std::map<int, std::vector<int>> piles_at;
    for (int pile = 0; pile < static_cast<int>(layout.place_in_order.size()); ++pile)
        piles_at[layout.place_in_order[pile]].push_back(pile);
    std::vector<Step> way;
    std::size_t jumps = 0;
    std::optional<int> before;
    for (const auto& [place, piles] : piles_at) {
        const std::optional<int> here = piles.size() == 1 ? std::optional(piles.front()) : std::nullopt;
        if (before && here) {
            way.emplace_back(*before, *here);
            jumps +=
                (layout.centers_m[*here] - layout.centers_m[*before]).norm() > 1.6 * typical_distance(layout);
        }
        before = here;
    }
    return 2 * jumps > way.size() ? std::vector<Step>() : way;
}

void draw_way(Canvas& canvas, const Plan& plan) {
    for (const auto& [from_pile, to_pile] : way_of_work(plan.layout)) {
        const Vec2 from = plan.on_page(from_pile), to = plan.on_page(to_pile);
        const Vec2 along = (to - from).normalized();
        const double end_pt = plan.radius_pt(to_pile);
        canvas.arrow(from + plan.radius_pt(from_pile) * along, to - 1.1 * end_pt * along,
                     std::min(5.0, 0.7 * end_pt), {0.7, order_blue});
    }
}

void draw_piles(Canvas& canvas, const Plan& plan) {
    const int piles = static_cast<int>(plan.layout.centers_m.size());
    for (int pile = 0; pile < piles; ++pile) {
        canvas.fill_circle(plan.on_page(pile), plan.radius_pt(pile), pile_fill);
        canvas.stroke_circle(plan.on_page(pile), plan.radius_pt(pile), {0.8, ink});
        draw_pile_number(canvas, plan.axes, plan.layout.centers_m[pile], plan.layout.diameters_m[pile] / 2,
                         pile + 1, std::to_string(piles).size());
    }
}

/// Beside each circle, to the upper right, where neither rows nor columns of piles nor the way along them
/// pass.
void draw_places(Canvas& canvas, const Plan& plan) {
    const double gap_pt =
        (typical_distance(plan.layout) - largest_diameter_m(plan.layout)) * plan.axes.pt_per_unit_x();
    TextStyle style{std::clamp(0.3 * gap_pt, 4.0, 7.0), Align::Left, order_blue};
    style.halo_pt = 1;
    for (int pile = 0; pile < static_cast<int>(plan.layout.place_in_order.size()); ++pile) {
        const Vec2 rim = 0.74 * plan.radius_pt(pile) * Vec2(1, -1);
        canvas.text(plain(std::to_string(plan.layout.place_in_order[pile])),
                    plan.on_page(pile) + rim + Vec2(0.8, -0.8), style);
    }
}

bool shows_symmetry(const mesh::Domain& domain, const Axes& axes) {
    const std::array<double, 4> at = {domain.low.x(), domain.high.x(), domain.low.y(), domain.high.y()};
    for (int side = 0; side < 4; ++side)
        if (const int axis = side / 2; domain.side[side] == mesh::BoundaryKind::Symmetry &&
                                       at[side] >= axes.low[axis] && at[side] <= axes.high[axis])
            return true;
    return false;
}

/// What the marks mean; only what the figure shows.
std::vector<KeyEntry> key_of(const LayoutDrawing& layout, const Axes& axes) {
    const Vec2 middle(0.5 * key_symbol_pt, 0);
    const double most_m = largest_diameter_m(layout);
    const double least_m = *std::min_element(layout.diameters_m.begin(), layout.diameters_m.end());
    std::vector<KeyEntry> key = {
        {least_m == most_m
             ? fmt::format("pile number, diameter {:.2f} m to scale", most_m)
             : fmt::format("pile number, diameter {:.2f} to {:.2f} m to scale", least_m, most_m),
         [middle](Canvas& canvas, const Vec2& left) {
             canvas.fill_circle(left + middle, 4, pile_fill);
             canvas.stroke_circle(left + middle, 4, {0.8, ink});
         }}};
    if (!layout.place_in_order.empty())
        key.push_back({"place in the order of work",
                       [with_way = !way_of_work(layout).empty()](Canvas& canvas, const Vec2& left) {
                           if (with_way)
                               canvas.arrow(left, left + Vec2(12, 0), 4, {0.7, order_blue});
                           canvas.text(plain("7"), left + Vec2(15, 2.4), {7, Align::Left, order_blue});
                       }});
    if (shows_symmetry(layout.domain, axes))
        key.push_back(line_entry("line of symmetry", symmetry_pen));
    return key;
}

void draw(Canvas& canvas, const LayoutDrawing& layout, const PageText& text) {
    const Plan plan{layout, plan_axes(layout, head_height_pt(text))};
    draw_head(canvas, text);
    canvas.clipped(plan.axes.upper_left_pt, plan.axes.lower_right_pt(), [&] {
        draw_domain(canvas, plan);
        draw_way(canvas, plan);
        draw_piles(canvas, plan);
        draw_places(canvas, plan);
        draw_spacings(canvas, plan.axes, layout.centers_m, largest_diameter_m(layout) / 2);
    });
    draw_axes(canvas, plan.axes, symbol("x") + plain(" (m)"), symbol("y") + plain(" (m)"));
    draw_key(canvas, key_of(layout, plan.axes),
             {page_margin_pt, plan.axes.lower_right_pt().y() + axis_height_pt}, text.text_width_pt());
}

FigureFormat format_of(const std::filesystem::path& file) {
    for (const auto format : {FigureFormat::Pdf, FigureFormat::Svg, FigureFormat::Png})
        if (file.extension() == file_ending(format))
            return format;
    throw io::FileTrouble(file.string() + " has no ending of a figure; give .pdf, .svg or .png");
}

} // namespace

void draw_layout(const LayoutDrawing& layout, const std::filesystem::path& file) {
    if (layout.centers_m.empty())
        throw std::invalid_argument("a layout without piles cannot be drawn");
    if (layout.diameters_m.size() != layout.centers_m.size())
        throw std::invalid_argument("every pile of a layout needs a diameter");
    PageText text;
    text.title = layout.title;
    const auto count = layout.centers_m.size();
    text.subtitle = plain(fmt::format("Plan of {} pile{}", count, count == 1 ? "" : "s"));
    const auto axes = plan_axes(layout, head_height_pt(text));
    const Vec2 size(text.width_pt, axes.lower_right_pt().y() + axis_height_pt +
                                       key_height_pt(key_of(layout, axes), text.text_width_pt()) +
                                       page_margin_pt);
    save({size, layout.title, "", [&](Canvas& canvas) { draw(canvas, layout, text); }}, file,
         format_of(file));
}

} // namespace interpile::postprocess
