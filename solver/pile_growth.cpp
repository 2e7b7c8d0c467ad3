#include "solver/pile_growth.h"

#include "mesh/disc_fraction.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

namespace interpile::solver {
namespace {

// A sharp edge leaves cells that just miss the circle between two that grow fully: pulled both ways they open, and in sand
// they stay open. The edge is spread over this many cell widths to each side (measured: DEVELOPERS.md), less in a coarse grid.
constexpr double edge_width = 1;
constexpr double widest_edge = 0.45; ///< of the radius
constexpr int edge_rings = 8;

/// Half the width of the edge: from the mean size of the cells that the circle meets [m].
double edge_half_width(const mesh::Grid& grid, const mesh::Vec2& center, double radius_m) {
    double area = 0;
    int count = 0;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corner = grid.corners(cell);
        const auto inside = [&](const mesh::Vec2& c) { return (c - center).norm() < radius_m; };
        const auto within = std::count_if(corner.begin(), corner.end(), inside);
        if (within > 0 && within < 4) {
            area += mesh::quadrilateral_area(corner);
            ++count;
        }
    }
    const double widest = widest_edge * radius_m;
    return count == 0 ? 0 : std::min(edge_width * std::sqrt(area / count), widest);
}

/// Mean over circles around the radius, of the same mean area, of the area they cover [m2].
double spread_disc_area(const mesh::Vec2& center, double radius_m, double half_width_m,
                        const std::array<mesh::Vec2, 4>& corner) {
    double sum = 0;
    for (int ring = 0; ring < edge_rings; ++ring) {
        const double place = (2.0 * ring + 1) / edge_rings - 1; // in -1 .. 1
        sum += mesh::disc_area_in_quadrilateral(
            center, std::sqrt(radius_m * radius_m + 2 * radius_m * half_width_m * place), corner);
    }
    return sum / edge_rings;
}

} // namespace

PileDisc seed_disc(const mesh::Grid& grid, const mesh::Domain& domain, int pile, const mesh::Vec2& center,
                   double radius_m) {
    PileDisc disc;
    disc.pile = pile;
    disc.planned_fraction = domain.inside_share(center);
    const double half_width = edge_half_width(grid, center, radius_m);
    double covered = 0;
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corner = grid.corners(cell);
        const double reach = 1.4 * radius_m + (corner[2] - corner[0]).norm() + (corner[3] - corner[1]).norm();
        if ((corner[0] - center).squaredNorm() > reach * reach)
            continue;
        const double area = spread_disc_area(center, radius_m, half_width, corner);
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
