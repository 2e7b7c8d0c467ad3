#include "solver/pile_growth.h"

#include "mesh/disc_fraction.h"

#include <numbers>
#include <stdexcept>
#include <string>

namespace interpile::solver {

PileDisc seed_disc(const mesh::Grid& grid, const mesh::Domain& domain, int pile, const mesh::Vec2& center,
                   double radius_m) {
    PileDisc disc;
    disc.pile = pile;
    disc.planned_fraction = domain.inside_share(center);
    double covered = 0;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corner = grid.corners(cell);
        const double reach = radius_m + (corner[2] - corner[0]).norm() + (corner[3] - corner[1]).norm();
        if ((corner[0] - center).squaredNorm() > reach * reach)
            continue;
        const double area = mesh::disc_area_in_quadrilateral(center, radius_m, corner);
        const double share = area / mesh::quadrilateral_area(corner);
        if (share > 1e-12) {
            disc.parts.push_back({cell, std::min(share, 1.0)});
            covered += area;
            disc.seed_middle += area * 0.25 * (corner[0] + corner[1] + corner[2] + corner[3]);
        }
    }
    const double planned = disc.planned_fraction * std::numbers::pi * radius_m * radius_m;
    if (!(planned > 0) || covered < 0.999 * planned)
        throw std::invalid_argument("pile " + std::to_string(pile + 1) + " at (" +
                                    std::to_string(center.x()) + ", " + std::to_string(center.y()) +
                                    ") m does not lie in the domain");
    disc.seed_middle /= covered;
    return disc;
}

} // namespace interpile::solver
