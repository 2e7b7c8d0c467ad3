#include "postprocess/figures/pressure_history.h"

#include "postprocess/axes.h"
#include "postprocess/figures/pressure_loops.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

constexpr int most_plots = 6;
constexpr double plot_height_pt = 92, plot_title_pt = 14, least_cell_pt = 180;

/// Course of one pile: injected area [m2], wall pressure [kPa].
struct Course {
    int pile = 0, place = 0;
    std::vector<Vec2> points;
};

std::vector<Course> courses(const io::ResultsHeader& header, const io::ResultsHistory& history) {
    std::map<int, Course> by_place;
    for (Eigen::Index k = 0; k < history.pile.size(); ++k) {
        if (history.phase[k] == io::rest_phase) // no pile has a wall pressure then
            continue;
        auto& course = by_place[history.place_in_order[k]];
        course.pile = history.pile[k];
        course.place = history.place_in_order[k];
        course.points.emplace_back(injected_area_m2(header, history.disc_area_m2[k]),
                                   history.wall_pressure_kPa[k]);
    }
    std::vector<Course> all;
    for (auto& [place, course] : by_place)
        all.push_back(std::move(course));
    return all;
}

std::vector<Course> evenly_chosen(const std::vector<Course>& all) {
    const int count = static_cast<int>(all.size());
    if (count <= most_plots)
        return all;
    std::vector<Course> chosen;
    for (int k = 0; k < most_plots; ++k)
        chosen.push_back(all[k * (count - 1) / (most_plots - 1)]);
    return chosen;
}

struct Content {
    PageText text;
    std::vector<Course> courses;
    Vec2 high; ///< largest area and pressure on the axes

    int columns() const { return courses.size() > 1 && text.text_width_pt() >= 2 * least_cell_pt ? 2 : 1; }
    double rows() const { return std::ceil(static_cast<double>(courses.size()) / columns()); }
};

void draw(Canvas& canvas, const Content& content) {
    draw_head(canvas, content.text);
    const int columns = content.columns();
    const double cell_width = content.text.text_width_pt() / columns;
    const double cell_height = plot_title_pt + plot_height_pt + axis_height_pt;
    for (std::size_t k = 0; k < content.courses.size(); ++k) {
        const auto& course = content.courses[k];
        const double left = page_margin_pt + cell_width * static_cast<double>(k % columns) + axis_width_pt;
        const double top =
            head_height_pt(content.text) + cell_height * static_cast<double>(k / columns) + plot_title_pt;
        const Axes axes{{0, 0}, content.high, {left, top}, {cell_width - axis_width_pt - 8, plot_height_pt}};
        canvas.text(
            plain(fmt::format("Pile {}, number {} in the order of work", course.pile + 1, course.place)),
            {left, top - 4}, {6.5, Align::Left, ink});
        canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
            canvas.stroke(axes.line_to_page(course.points), {0.8, {0.10, 0.28, 0.52}});
        });
        draw_axes(canvas, axes, plain("injected area (m\u00b2)"), plain("wall pressure (kPa)"));
    }
    draw_foot(canvas, content.text, head_height_pt(content.text) + cell_height * content.rows());
}

} // namespace

Drawing pressure_history(const io::ResultsHeader& header, const io::ResultsHistory& history) {
    const auto all = courses(header, history);
    if (all.empty())
        throw std::invalid_argument(
            "the results have no increments yet, so that there is no pressure to draw");
    const auto content = std::make_shared<Content>();
    content->courses = evenly_chosen(all);
    content->text = page_text(header);
    content->text.subtitle = plain(
        fmt::format("Radial effective stress at the wall of the pile while it grows, {:.4g} m below ground",
                    header.depth_m));
    if (all.size() > content->courses.size())
        content->text.notes.push_back(
            plain(fmt::format("{} of {} piles are shown, evenly chosen in the order of work.",
                              content->courses.size(), all.size())));
    content->high = {1e-6, 1e-6};
    for (const auto& course : content->courses)
        for (const auto& point : course.points)
            content->high = content->high.cwiseMax(1.06 * point);

    const Vec2 size(content->text.width_pt,
                    head_height_pt(content->text) +
                        content->rows() * (plot_title_pt + plot_height_pt + axis_height_pt) +
                        foot_height_pt(content->text));
    return {size, content->text.title + ": wall pressure", header.started,
            [content](Canvas& canvas) { draw(canvas, *content); }};
}

} // namespace interpile::postprocess
