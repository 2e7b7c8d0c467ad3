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

std::vector<KeyEntry> mark_key(const io::ResultsHeader& header, const std::optional<ArrowMeaning>& arrows) {
    const Vec2 middle(0.5 * key_symbol_pt, 0);
    std::vector<KeyEntry> key = {{"pile in the computation", [middle](Canvas& canvas, const Vec2& left) {
                                      canvas.fill_circle(left + middle, 4.2, pile_gray);
                                      canvas.stroke_circle(left + middle, 4.2, disc_edge);
                                  }}};
    const double least = header.pile_diameter_m.minCoeff(), most = header.pile_diameter_m.maxCoeff();
    key.push_back({least == most ? fmt::format("planned diameter {:.2f} m", most)
                                 : fmt::format("planned diameter {:.2f} to {:.2f} m", least, most),
                   [middle](Canvas& canvas, const Vec2& left) {
                       canvas.stroke_circle(left + middle, 4.2, planned_edge);
                   }});
    if (any_symmetry(header))
        key.push_back(line_entry("line of symmetry", symmetry_line));
    if (arrows)
        key.push_back(
            {arrows->text, [length = arrows->length_pt](Canvas& canvas, const Vec2& left) {
                 const Vec2 from = left + Vec2(std::max(0.0, key_symbol_pt - length), 0);
                 canvas.arrow(from, from + Vec2(length, 0), std::min(4.0, 0.6 * length), {0.7, ink});
             }});
    return key;
}

} // namespace interpile::postprocess
