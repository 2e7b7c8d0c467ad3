#include "solver/smear.h"

#include "mesh/disc_fraction.h"
#include "solver/number_check.h"
#include "solver/wall_pressure.h"

#include <algorithm>
#include <limits>

namespace interpile::solver {

namespace {

constexpr double round_off = 1e-12; // of an area over that of its cell

} // namespace

Eigen::ArrayXd smear_share(const Momentum& momentum, const std::vector<PlacedDisc>& discs,
                           double diameter_ratio) {
    require_between("diameter_ratio", diameter_ratio, 1, std::numeric_limits<double>::max());
    const mesh::Grid& grid = momentum.current();
    Eigen::ArrayXd clean = Eigen::ArrayXd::Ones(grid.cell_count());
    if (diameter_ratio == 1)
        return 1 - clean;
    for (const auto& [disc, planned_center_m] : discs) {
        Eigen::ArrayXd pile = Eigen::ArrayXd::Zero(grid.cell_count());
        for (const auto& part : disc->parts)
            pile(part.cell) = PileDisc::pile_share(part.share, disc->log_growth);
        const mesh::Vec2 center = disc_center(momentum, *disc, planned_center_m);
        const double radius = diameter_ratio * disc_radius(momentum, *disc);
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            const double inside = mesh::disc_area_in_quadrilateral(center, radius, grid.corners(cell)) /
                                  momentum.cell_area(cell);
            if (inside > pile(cell) + round_off && pile(cell) < 1)
                clean(cell) *= 1 - std::min(1.0, (inside - pile(cell)) / (1 - pile(cell)));
        }
    }
    return 1 - clean;
}

} // namespace interpile::solver
