#include "mesh/ground_area.h"

#include "mesh/disc_fraction.h"

#include <algorithm>
#include <limits>

namespace interpile::mesh {

Eigen::ArrayXd cell_areas(const Grid& grid) {
    Eigen::ArrayXd area(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        area[cell] = quadrilateral_area(grid.corners(cell));
    return area;
}

Eigen::Matrix2Xd cell_middles(const Grid& grid) {
    Eigen::Matrix2Xd middle = Eigen::Matrix2Xd::Zero(2, grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell))
            middle.col(cell) += 0.25 * grid.node_m.col(node);
    return middle;
}

Eigen::ArrayXd ground_area_m2(const Grid& grid, const Eigen::ArrayXd& pile_share, const TreatedArea& region) {
    Eigen::ArrayXd area = Eigen::ArrayXd::Zero(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        if (pile_share[cell] >= largest_pile_share)
            continue;
        const auto corner = grid.corners(cell);
        if (region.contains(0.25 * (corner[0] + corner[1] + corner[2] + corner[3])))
            area[cell] = quadrilateral_area(corner);
    }
    return area;
}

Eigen::ArrayXd ground_area_m2(const Grid& grid, const Eigen::ArrayXd& pile_share, const Vec2& center,
                              double radius_m) {
    Eigen::ArrayXd area = Eigen::ArrayXd::Zero(grid.cell_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        if (pile_share[cell] >= largest_pile_share)
            continue;
        const auto corner = grid.corners(cell);
        const Vec2 middle = 0.25 * (corner[0] + corner[1] + corner[2] + corner[3]);
        double reach = radius_m; // beyond it the cell cannot touch the circle
        for (const auto& c : corner)
            reach = std::max(reach, radius_m + (c - middle).norm());
        if ((middle - center).norm() < reach)
            area[cell] = std::max(0.0, disc_area_in_quadrilateral(center, radius_m, corner));
    }
    return area;
}

double area_mean(const Eigen::ArrayXd& area_m2, const Eigen::ArrayXd& value) {
    const double total = area_m2.sum();
    return total > 0 ? (area_m2 * value).sum() / total : std::numeric_limits<double>::quiet_NaN();
}

double lateral_stress_ratio(const Eigen::ArrayXd& area_m2, const Eigen::ArrayXd& lateral_stress_kPa,
                            const Eigen::ArrayXd& vertical_stress_kPa) {
    const double vertical = area_mean(area_m2, vertical_stress_kPa);
    return vertical < 1e-9 ? 0 : area_mean(area_m2, lateral_stress_kPa) / vertical;
}

} // namespace interpile::mesh
