#pragma once
// Which depth got the sand of a record.

#include "solver/works/as_built.h"
#include "solver/works/legs.h"

namespace interpile::solver {

/// A volume spread evenly over a depth range, from < to.
struct PlacedSand {
    double from_depth_m = 0;
    double to_depth_m = 0;
    double volume_m3 = 0; ///< as recorded, > 0
};

/// The sand of the samples by the rule of SandPlace; sums up to the recorded volume.
std::vector<PlacedSand> placed_sand(const std::vector<AsBuiltSample>& samples, const std::vector<Leg>& legs,
                                    SandPlace rule);

/// Share of the placed sand between two depths [m3].
double sand_between(const std::vector<PlacedSand>& sand, double top_depth_m, double bottom_depth_m);

} // namespace interpile::solver
