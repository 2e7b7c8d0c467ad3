#pragma once
// One boring in place of several.

#include "solver/site/boring.h"

#include <span>

namespace interpile::solver {

/// Means of all borings at the same depth, at every `step_m` from the shallowest to the deepest blow count. A boring
/// takes part at depths within its sample intervals. Where more than half of them are sand there, the sand is averaged,
/// else the rest. N is brought to the energy ratio of the first boring before; D50, D10, D20 and permeability have
/// geometric means; laboratory values are means of those measured.
/// A mean hides the loose places between: it suits a site that is even, and says nothing of one that is not.
/// \param borings  at least one
/// \param step_m   > 0
/// \throws std::invalid_argument  no boring; a step not positive; as sample_intervals
Boring mean_boring(std::span<const Boring> borings, double step_m = 1);

} // namespace interpile::solver
