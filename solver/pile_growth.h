#pragma once
// A pile as a disc of cells that grows: which share of each cell is pile, how much growth strain a cell gets.

#include "mesh/grid.h"

#include <Eigen/Core>

#include <cmath>
#include <vector>

namespace interpile::solver {

/// One disc. A cell of which the share w (of its area when the disc was seeded) lies in the disc gets the
/// growth area ratio 1 + w (g^2 - 1), where g is the growth of the disc's own length; cells cut by the circle
/// grow in proportion, no hole is made and no cell is removed.
struct PileDisc {
    struct Part {
        int cell;
        double share; ///< w
    };
    int pile = 0;
    double planned_fraction = 1;     ///< of the disc inside the domain: 1, or 1/2, 1/4 on symmetry lines
    double log_growth = 0;           ///< ln g, since the seed
    mesh::Vec2 seed_middle = {0, 0}; ///< mean of the cells' middles when seeded, weighted by disc area [m]
    std::vector<Part> parts;

    /// Logarithmic area growth of a part at ln g.
    static double growth(double share, double log_growth) {
        return std::log1p(share * std::expm1(2 * log_growth));
    }
    /// Share of the cell's area that is this pile, at ln g: w g^2 / (1 + w (g^2 - 1)). Also d(growth)/2 d(ln
    /// g).
    static double pile_share(double share, double log_growth) {
        const double g2 = std::exp(2 * log_growth);
        return share * g2 / (1 + share * (g2 - 1));
    }
};

/// Seed a disc in the grid as it lies now. The shares are areas in straight-sided cells of a circle whose edge is spread
/// over about two cells; their sum is the area of the sharp circle.
/// \throws std::invalid_argument if less than 99.9 % of the planned part of the disc lies on the grid
PileDisc seed_disc(const mesh::Grid& grid, const mesh::Domain& domain, int pile, const mesh::Vec2& center,
                   double radius_m);

} // namespace interpile::solver
