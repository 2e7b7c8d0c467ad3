#include "postprocess/pile_marks.h"

#include "postprocess/ground.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::postprocess {

namespace {

const Pen disc_edge{0.6, {0.25, 0.25, 0.25}};
const Pen planned_edge{0.6, ink, {2.2, 1.6}};
const Pen symmetry_line{0.9, ink, {8, 2.5, 1.2, 2.5}};
const Pen side_line{0.6, ink};

/// Share of the radius by which the middle of a half disc lies inside: 4/(3 pi).
constexpr double half_disc_middle = 0.424;

bool any_symmetry(const io::ResultsHeader& header) {
    return std::count(header.side.begin(), header.side.end(), "symmetry") > 0;
}

} // namespace

void draw_pile_number(Canvas& canvas, const Axes& axes, const Vec2& center_m, double radius_m, int number,
                      std::size_t digits) {
    Vec2 at = center_m;
    double room = 1;
    for (int axis = 0; axis < 2; ++axis)
        for (const auto& [edge, inwards] : {std::pair{axes.low[axis], 1.0}, {axes.high[axis], -1.0}})
            if (inwards * (center_m[axis] - edge) < 0.6 * radius_m) {
                at[axis] = edge + inwards * (half_disc_middle * radius_m +
                                             std::max(0.0, 0.5 * inwards * (center_m[axis] - edge)));
                room = 0.5;
            }
    const double radius_pt = radius_m * axes.pt_per_unit_x();
    const auto label = plain(std::to_string(number));
    TextStyle style{8, Align::Center, ink};
    style.size_pt =
        std::min(8.0, 8 * 1.45 * room * radius_pt /
                          std::max(canvas.text_width(plain(std::string(digits, '8')), style), 8.0));
    canvas.text(label, axes.to_page(at) + Vec2(0, 0.36 * style.size_pt), style);
}

void draw_piles(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                const io::ResultsStage& stage) {
    const double scale = axes.pt_per_unit_x();
    const int piles = static_cast<int>(header.pile_diameter_m.size());
    for (int pile = 0; pile < piles; ++pile) {
        const Vec2 center_m = stage.disc_center_m.col(pile);
        const Vec2 center = axes.to_page(center_m);
        const double planned_m = header.pile_diameter_m[pile] / 2;
        if (is_begun(header, stage, pile)) {
            canvas.fill_circle(center, stage.disc_radius_m[pile] * scale, pile_gray);
            canvas.stroke_circle(center, stage.disc_radius_m[pile] * scale, disc_edge);
            canvas.stroke_circle(center, planned_m * scale, planned_edge);
            draw_pile_number(canvas, axes, center_m, planned_m, pile + 1, std::to_string(piles).size());
        } else {
            canvas.stroke_circle(center, planned_m * scale, {1.6, {1, 1, 1}});
            canvas.stroke_circle(center, planned_m * scale, planned_edge);
        }
    }
}

void cover_discs(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                 const io::ResultsStage& stage) {
    for (int pile = 0; pile < stage.disc_radius_m.size(); ++pile) {
        if (!is_begun(header, stage, pile))
            continue;
        const Vec2 center = axes.to_page(stage.disc_center_m.col(pile));
        canvas.fill_circle(center, stage.disc_radius_m[pile] * axes.pt_per_unit_x(), pile_gray);
        canvas.stroke_circle(center, stage.disc_radius_m[pile] * axes.pt_per_unit_x(), disc_edge);
    }
}

void draw_domain_sides(Canvas& canvas, const Axes& axes, const io::ResultsHeader& header,
                       const io::ResultsStage& stage) {
    const auto grid = current_grid(header, stage);
    for (int side = 0; side < 4; ++side) {
        std::vector<Vec2> line;
        for (int node : grid.side_nodes(static_cast<mesh::Side>(side)))
            line.emplace_back(grid.node_m.col(node));
        const auto on_page = axes.line_to_page(line);
        if (header.side[side] == "symmetry") {
            canvas.stroke(on_page, {2.0, {1, 1, 1}}); // wipes out a frame line below
            canvas.stroke(on_page, symmetry_line);
        } else {
            canvas.stroke(on_page, side_line);
        }
    }
}

void draw_mark_key(Canvas& canvas, const io::ResultsHeader& header, const Vec2& left_pt,
                   const std::optional<ArrowMeaning>& arrows) {
    const TextStyle style{6.5, Align::Left, ink};
    double x = left_pt.x();
    const double y = left_pt.y();
    const auto entry = [&](double symbol_width, const std::string& text) {
        const auto label = plain(text);
        canvas.text(label, {x + symbol_width + 4, y + 2.4}, style);
        x += symbol_width + 4 + canvas.text_width(label, style) + 12;
    };
    canvas.fill_circle({x + 5, y}, 4.2, pile_gray);
    canvas.stroke_circle({x + 5, y}, 4.2, disc_edge);
    entry(10, "pile in the computation");
    canvas.stroke_circle({x + 5, y}, 4.2, planned_edge);
    const double least = *std::min_element(header.pile_diameter_m.begin(), header.pile_diameter_m.end());
    const double most = *std::max_element(header.pile_diameter_m.begin(), header.pile_diameter_m.end());
    entry(10, least == most ? fmt::format("planned diameter {:.2f} m", most)
                            : fmt::format("planned diameter {:.2f} to {:.2f} m", least, most));
    if (any_symmetry(header)) {
        canvas.stroke({{x, y}, {x + 22, y}}, symmetry_line);
        entry(22, "line of symmetry");
    }
    if (arrows) {
        canvas.arrow({x, y}, {x + arrows->length_pt, y}, std::min(4.0, 0.6 * arrows->length_pt), {0.7, ink});
        entry(arrows->length_pt, arrows->text);
    }
}

} // namespace interpile::postprocess
