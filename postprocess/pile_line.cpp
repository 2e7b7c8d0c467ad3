#include "postprocess/pile_line.h"

#include "postprocess/ground.h"
#include "postprocess/smoothing.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

PileLine line_through(const io::ResultsHeader& header, int pile, bool along_x) {
    PileLine line{along_x, 0, {}};
    line.at_m = line.across(header.pile_center_m.col(pile));
    for (int other = 0; other < header.pile_center_m.cols(); ++other)
        if (std::abs(line.across(header.pile_center_m.col(other)) - line.at_m) <=
            0.25 * header.pile_diameter_m[pile])
            line.piles.push_back(other);
    std::stable_sort(line.piles.begin(), line.piles.end(), [&](int a, int b) {
        return line.along(header.pile_center_m.col(a)) < line.along(header.pile_center_m.col(b));
    });
    return line;
}

/// Value at a point of a cell as contours show it: linear in the four triangles between its nodes and its middle, which
/// has their mean. Empty outside; a point on the rim counts as inside in spite of nodes stored with 7 digits.
std::optional<double> value_in_cell(const mesh::Grid& grid, int cell, const Eigen::ArrayXd& at_nodes,
                                    const mesh::Vec2& point) {
    constexpr double rounding = 1e-4; // of the size of the cell
    const auto node = grid.cell_nodes(cell);
    mesh::Vec2 middle_m(0, 0);
    double middle = 0;
    for (const int n : node) {
        middle_m += 0.25 * grid.node_m.col(n);
        middle += 0.25 * at_nodes[n];
    }
    for (int k = 0; k < 4; ++k) {
        const int a = node[k], b = node[(k + 1) % 4];
        Eigen::Matrix2d sides;
        sides << grid.node_m.col(a) - middle_m, grid.node_m.col(b) - middle_m;
        const mesh::Vec2 share = sides.inverse() * (point - middle_m);
        if (share.minCoeff() >= -rounding && share.sum() <= 1 + rounding)
            return middle + share.x() * (at_nodes[a] - middle) + share.y() * (at_nodes[b] - middle);
    }
    return {};
}

/// Cells that the line may pass through.
std::vector<int> cells_near(const PileLine& line, const mesh::Grid& grid) {
    std::vector<int> cells;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        double low = HUGE_VAL, high = -HUGE_VAL;
        for (const int n : grid.cell_nodes(cell)) {
            low = std::min(low, line.across(grid.node_m.col(n)));
            high = std::max(high, line.across(grid.node_m.col(n)));
        }
        const double rounding_m = 1e-4 * (high - low);
        if (low - rounding_m <= line.at_m && line.at_m <= high + rounding_m)
            cells.push_back(cell);
    }
    return cells;
}

} // namespace

PileLine fullest_pile_line(const io::ResultsHeader& header) {
    if (header.pile_center_m.cols() == 0)
        throw std::invalid_argument("the result has no piles for a line across them");
    const mesh::Vec2 middle =
        0.5 * (header.pile_center_m.rowwise().minCoeff() + header.pile_center_m.rowwise().maxCoeff());
    PileLine best;
    double best_offset_m = 0;
    for (const bool along_x : {true, false})
        for (int pile = 0; pile < header.pile_center_m.cols(); ++pile) {
            auto line = line_through(header, pile, along_x);
            const double offset_m = std::abs(line.at_m - line.across(middle));
            const bool nearer = offset_m < best_offset_m - 1e-6;
            if (line.piles.size() > best.piles.size() || (line.piles.size() == best.piles.size() && nearer)) {
                best = std::move(line);
                best_offset_m = offset_m;
            }
        }
    return best;
}

Eigen::ArrayXd ground_along(const PileLine& line, const io::ResultsHeader& header,
                            const io::ResultsStage& stage, const std::string& field,
                            const Eigen::ArrayXd& along_m) {
    const auto grid = current_grid(header, stage);
    const auto ground = ground_cells(stage);
    const auto at_nodes = node_averages(grid, field_values(stage, field), ground);
    const auto cells = cells_near(line, grid);
    Eigen::ArrayXd values =
        Eigen::ArrayXd::Constant(along_m.size(), std::numeric_limits<double>::quiet_NaN());
    for (Eigen::Index k = 0; k < along_m.size(); ++k)
        for (const int cell : cells)
            if (ground[cell])
                if (const auto value = value_in_cell(grid, cell, at_nodes, line.place(along_m[k]))) {
                    values[k] = *value;
                    break;
                }
    return values;
}

Stretch covered_by(const PileLine& line, const io::ResultsStage& stage, int pile) {
    const mesh::Vec2 center = stage.disc_center_m.col(pile);
    const double radius_m = stage.disc_radius_m[pile], offset_m = line.across(center) - line.at_m;
    if (std::abs(offset_m) >= radius_m)
        return {};
    const double half_m = std::sqrt(radius_m * radius_m - offset_m * offset_m);
    return {line.along(center) - half_m, line.along(center) + half_m};
}

} // namespace interpile::postprocess
