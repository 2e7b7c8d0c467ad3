#pragma once
// A gauge reading as legs between its turns, without the noise: depth of the tip, or sand level in the casing.

#include <cstddef>
#include <vector>

namespace interpile::solver {

/// Samples first .. last between two turns; neighbors share their turn.
struct Leg {
    std::size_t first = 0;
    std::size_t last = 0;
    bool rising = true; ///< the reading grows: the tip goes down, or the casing is charged
};

/// Legs rising and falling in turn. A dwell belongs to the leg it ends.
/// \param readings    at least two; taken to rise first (an empty first leg is left out)
/// \param least_turn  > 0; a reversal smaller than this is noise
std::vector<Leg> legs_between_turns(const std::vector<double>& readings, double least_turn);

} // namespace interpile::solver
