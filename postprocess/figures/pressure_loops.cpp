#include "postprocess/figures/pressure_loops.h"

#include "postprocess/axes.h"
#include "postprocess/curve_pens.h"
#include "postprocess/key.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr double plot_height_pt = 230;
constexpr int withdrawal = 1, relaxation = 3; // as in /history/phase
const Pen grow_pen{0.9, curve_colors[0]}, withdraw_pen{0.9, curve_colors[1]};

/// Increments of one half stroke, from where the one before ended.
struct Branch {
    int stroke = 0, phase = 0;
    std::vector<Vec2> points; ///< injected area [m2], wall pressure [kPa]

    bool shrinks() const { return phase == withdrawal || phase == relaxation; }
};

std::vector<Branch> branches_of(const io::ResultsHeader& header, const io::ResultsHistory& history,
                                int pile) {
    std::vector<Branch> branches;
    for (Eigen::Index k = 0; k < history.pile.size(); ++k) {
        if (history.pile[k] != pile || history.phase[k] == io::rest_phase)
            continue;
        const Vec2 point(injected_area_m2(header, history.disc_area_m2[k]), history.wall_pressure_kPa[k]);
        if (branches.empty() || branches.back().stroke != history.stroke[k] ||
            branches.back().phase != history.phase[k]) {
            std::vector<Vec2> start;
            if (!branches.empty())
                start.push_back(branches.back().points.back());
            branches.push_back({history.stroke[k], history.phase[k], std::move(start)});
        }
        branches.back().points.push_back(point);
    }
    return branches;
}

struct Content {
    PageText text;
    Axes axes;
    std::vector<Branch> branches;
    int strokes = 0;
};

void draw_stroke_numbers(Canvas& canvas, const Content& content) {
    const int step = content.strokes <= 10 ? 1 : 5; // many numbers would hide the loops
    for (const auto& branch : content.branches) {
        const bool told = branch.stroke == 1 || branch.stroke == content.strokes || branch.stroke % step == 0;
        if (branch.shrinks() || !told || (branch.stroke == 0 && content.strokes == 0))
            continue;
        const Vec2 end = content.axes.to_page(branch.points.back());
        canvas.fill_circle(end, 1.5, grow_pen.color);
        TextStyle style{6.5, Align::Center, ink};
        style.halo_pt = 1.2;
        if (branch.stroke > 0) {
            canvas.text(plain(std::to_string(branch.stroke)), end - Vec2(0, 4.5), style);
            continue;
        }
        style.align = Align::Left;
        canvas.text(plain("casing pass"), end + Vec2(3, -4.5), style);
    }
}

std::vector<KeyEntry> key_of(const Content& content) {
    std::vector<KeyEntry> key = {
        line_entry(content.strokes > 0 ? "growing: casing pass and re-driving" : "growing", grow_pen)};
    if (std::any_of(content.branches.begin(), content.branches.end(),
                    [](const Branch& b) { return b.shrinks(); }))
        key.push_back(line_entry("withdrawal", withdraw_pen));
    if (content.strokes > 0)
        key.push_back({"strokes, where the re-driving ends", [](Canvas& canvas, const Vec2& left) {
                           canvas.fill_circle(left + Vec2(4, 0), 1.5, grow_pen.color);
                           canvas.text(plain("1, 2"), left + Vec2(7.5, 2.4), {6.5, Align::Left, ink});
                       }});
    return key;
}

void draw(Canvas& canvas, const Content& content) {
    const auto& axes = content.axes;
    draw_head(canvas, content.text);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        for (const auto& branch : content.branches)
            canvas.stroke(axes.line_to_page(branch.points), branch.shrinks() ? withdraw_pen : grow_pen);
        draw_stroke_numbers(canvas, content);
    });
    draw_axes(canvas, axes, plain("injected area (m\u00b2)"), plain("wall pressure (kPa)"));
    const double below = axes.lower_right_pt().y() + axis_height_pt;
    const auto key = key_of(content);
    draw_key(canvas, key, {page_margin_pt, below}, content.text.text_width_pt());
    draw_foot(canvas, content.text, below + key_height_pt(key, content.text.text_width_pt()));
}

} // namespace

double injected_area_m2(const io::ResultsHeader& header, double disc_area_m2) {
    return disc_area_m2 - std::numbers::pi * header.seed_radius_m * header.seed_radius_m;
}

Drawing pressure_loops(const io::ResultsHeader& header, const io::ResultsHistory& history, int pile) {
    if (pile < 0 && history.pile.size() > 0)
        pile = history.pile[history.pile.size() - 1];
    const auto content = std::make_shared<Content>();
    content->branches = branches_of(header, history, pile);
    if (content->branches.empty())
        throw std::invalid_argument(fmt::format("the results have no increments of pile {}", pile + 1));
    Vec2 low(0, 0), high(1e-6, 1e-6);
    for (const auto& branch : content->branches) {
        content->strokes = std::max(content->strokes, branch.stroke);
        for (const auto& point : branch.points) {
            low = low.cwiseMin(point);
            high = high.cwiseMax(point);
        }
    }
    content->text = page_text(header);
    int place = 0;
    for (Eigen::Index k = 0; k < history.pile.size(); ++k)
        if (history.pile[k] == pile)
            place = history.place_in_order[k];
    content->text.subtitle = plain(
        fmt::format("Radial effective stress at the wall of pile {}, number {} in the order of work \u2013 "
                    "{:.4g} m below ground",
                    pile + 1, place, header.depth_m));
    const double left = page_margin_pt + axis_width_pt;
    content->axes = {low,
                     {1.05 * high.x(), 1.1 * high.y()},
                     {left, head_height_pt(content->text)},
                     {content->text.width_pt - left - page_margin_pt - 6, plot_height_pt}};
    const double key = key_height_pt(key_of(*content), content->text.text_width_pt());
    const Vec2 size(content->text.width_pt, content->axes.lower_right_pt().y() + axis_height_pt + key +
                                                foot_height_pt(content->text));
    return {size, content->text.title + ": pressure loops", header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
