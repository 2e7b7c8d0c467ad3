#include "postprocess/ground.h"

#include "mesh/disc_fraction.h"
#include "mesh/pile_layout.h"

#include <algorithm>
#include <stdexcept>

namespace interpile::postprocess {

using mesh::Vec2;

namespace {

constexpr double largest_pile_share = 0.01;

double cross(const Vec2& o, const Vec2& a, const Vec2& b) {
    return (a - o).x() * (b - o).y() - (a - o).y() * (b - o).x();
}

/// Convex hull counterclockwise, by the monotone chain of Andrew (1979).
std::vector<Vec2> convex_hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(),
              [](const Vec2& a, const Vec2& b) { return std::pair(a.x(), a.y()) < std::pair(b.x(), b.y()); });
    std::vector<Vec2> hull;
    for (int pass = 0; pass < 2; ++pass) {
        const std::size_t start = hull.size();
        for (const auto& point : points) {
            while (hull.size() >= start + 2 && cross(hull[hull.size() - 2], hull.back(), point) <= 0)
                hull.pop_back();
            hull.push_back(point);
        }
        hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return hull;
}

bool is_inside(const std::vector<Vec2>& hull, const Vec2& point) {
    for (std::size_t i = 0; i < hull.size(); ++i)
        if (cross(hull[i], hull[(i + 1) % hull.size()], point) < 0)
            return false;
    return true;
}

/// Planned centers and their images at the symmetry sides of the initial grid.
std::vector<Vec2> mirrored_centers(const io::ResultsHeader& header) {
    const Vec2 low = header.grid.node_m.rowwise().minCoeff(), high = header.grid.node_m.rowwise().maxCoeff();
    std::vector<Vec2> centers;
    for (Eigen::Index pile = 0; pile < header.pile_center_m.cols(); ++pile)
        centers.emplace_back(header.pile_center_m.col(pile));
    const std::array<double, 4> line = {low.x(), high.x(), low.y(), high.y()};
    for (int side = 0; side < 4; ++side) {
        if (header.side[side] != "symmetry")
            continue;
        const int axis = side < 2 ? 0 : 1;
        for (std::size_t i = 0, n = centers.size(); i < n; ++i) {
            Vec2 image = centers[i];
            image[axis] = 2 * line[side] - image[axis];
            centers.push_back(image);
        }
    }
    return centers;
}

} // namespace

mesh::Grid current_grid(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    return {header.grid.cells_x, header.grid.cells_y, stage.node_m};
}

const Eigen::ArrayXd& field_values(const io::ResultsStage& stage, const std::string& field) {
    if (const auto found = stage.fields.find(field); found != stage.fields.end())
        return found->second;
    std::string names;
    for (const auto& [name, values] : stage.fields)
        names += (names.empty() ? "" : ", ") + name;
    throw std::out_of_range("the results have no field \"" + field + "\"; they have: " + names);
}

std::vector<bool> ground_cells(const io::ResultsStage& stage) {
    const auto& share = field_values(stage, "pile_share");
    std::vector<bool> ground(share.size());
    for (Eigen::Index cell = 0; cell < share.size(); ++cell)
        ground[cell] = share[cell] < largest_pile_share;
    return ground;
}

bool is_begun(const io::ResultsHeader& header, const io::ResultsStage& stage, int pile) {
    return stage.disc_radius_m[pile] > 1.02 * header.seed_radius_m;
}

int piles_finished(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    const auto seed = header.seed_radius_m * header.seed_radius_m;
    int finished = 0;
    for (Eigen::Index pile = 0; pile < stage.disc_radius_m.size(); ++pile) {
        const double planned = header.pile_diameter_m[pile] * header.pile_diameter_m[pile] / 4;
        const double grown = stage.disc_radius_m[pile] * stage.disc_radius_m[pile] - seed;
        const bool stopped_here = !stage.converged && pile == stage.pile;
        finished += grown > 0.5 * planned && !stopped_here;
    }
    return finished;
}

double typical_spacing_m(const io::ResultsHeader& header) {
    std::vector<Vec2> centers;
    for (Eigen::Index pile = 0; pile < header.pile_center_m.cols(); ++pile)
        centers.emplace_back(header.pile_center_m.col(pile));
    return centers.size() > 1 ? mesh::smallest_distance_m(centers) : 4 * header.pile_diameter_m[0];
}

Eigen::ArrayXd cell_areas(const mesh::Grid& grid) {
    Eigen::ArrayXd area(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        area[cell] = mesh::quadrilateral_area(grid.corners(cell));
    return area;
}

Eigen::Matrix2Xd cell_middles(const mesh::Grid& grid) {
    Eigen::Matrix2Xd middle = Eigen::Matrix2Xd::Zero(2, grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell))
            middle.col(cell) += 0.25 * grid.node_m.col(node);
    return middle;
}

std::optional<GroundSummary> between_piles(const io::ResultsHeader& header, const io::ResultsStage& stage,
                                           const std::string& field) {
    const auto hull = convex_hull(mirrored_centers(header));
    if (hull.size() < 3)
        return {};
    const auto grid = current_grid(header, stage);
    const auto middle = cell_middles(grid);
    const auto area = cell_areas(grid);
    const auto ground = ground_cells(stage);
    const auto& value = field_values(stage, field);
    std::optional<GroundSummary> summary;
    double sum = 0, total = 0;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        if (!ground[cell] || !is_inside(hull, middle.col(cell)))
            continue;
        if (!summary)
            summary = GroundSummary{0, value[cell], value[cell]};
        summary->least = std::min(summary->least, value[cell]);
        summary->most = std::max(summary->most, value[cell]);
        sum += area[cell] * value[cell];
        total += area[cell];
    }
    if (summary)
        summary->mean = sum / total;
    return summary;
}

} // namespace interpile::postprocess
