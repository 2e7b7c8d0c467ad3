#include "postprocess/figures/movement_arrows.h"

#include "postprocess/ground.h"
#include "postprocess/interpolation.h"
#include "postprocess/page.h"

#include <algorithm>
#include <cmath>

namespace interpile::postprocess {

namespace {

constexpr double lattice_pt = 21, length_pt = 11, head_pt = 3.6;

bool is_at_a_pile(const io::ResultsStage& stage, const Vec2& at, double clearance_m) {
    for (Eigen::Index pile = 0; pile < stage.disc_radius_m.size(); ++pile)
        if ((at - stage.disc_center_m.col(pile)).norm() < stage.disc_radius_m[pile] + clearance_m)
            return true;
    return false;
}

} // namespace

std::vector<Arrow> movement_arrows(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes) {
    if (stage.fields.count("displacement_x_m") == 0 || stage.fields.count("displacement_y_m") == 0)
        return {};
    const auto& ux = field_values(stage, "displacement_x_m");
    const auto& uy = field_values(stage, "displacement_y_m");
    double largest = 0;
    for (Eigen::Index cell = 0; cell < ux.size(); ++cell)
        largest = std::max(largest, std::hypot(ux[cell], uy[cell]));

    const CellInterpolation interpolation(grid);
    const int columns = std::max(1, static_cast<int>(axes.size_pt.x() / lattice_pt));
    const int rows = std::max(1, static_cast<int>(axes.size_pt.y() / lattice_pt));
    std::vector<Arrow> arrows;
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column) {
            const Vec2 share((column + 0.5) / columns, (row + 0.5) / rows);
            const Vec2 at = axes.low + share.cwiseProduct(axes.high - axes.low);
            const auto weights = interpolation.at(at);
            if (!weights || is_at_a_pile(stage, at, 0.6 * length_pt / axes.pt_per_unit_x()))
                continue;
            const Vec2 movement(weights->apply(ux), weights->apply(uy));
            if (movement.norm() <= 0.01 * largest)
                continue;
            const Vec2 half =
                0.5 * length_pt * Vec2(movement.x(), -movement.y()).normalized(); // page y runs down
            arrows.push_back({axes.to_page(at) - half, axes.to_page(at) + half});
        }
    return arrows;
}

void draw_arrow(Canvas& canvas, const Arrow& arrow) {
    const Vec2 along = (arrow.tip - arrow.tail).normalized();
    canvas.arrow(arrow.tail - 0.8 * along, arrow.tip + 1.6 * along, head_pt + 2.4, {2.0, {1, 1, 1}});
    canvas.arrow(arrow.tail, arrow.tip, head_pt, {0.75, ink});
}

} // namespace interpile::postprocess
