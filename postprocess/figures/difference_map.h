#pragma once
// The difference of one field between two results in plan.

#include "postprocess/canvas.h"
#include "postprocess/difference.h"

namespace interpile::postprocess {

/// Second minus first on the ground that both have, in colors that diverge from zero; the piles of both covered, those of
/// the first with their numbers.
/// \param difference  of the two stages, by difference_between
/// \throws std::invalid_argument for a state or direction, which has no differences
Drawing difference_map(const NamedStage& first, const NamedStage& second, const std::string& field,
                       const FieldDifference& difference);

} // namespace interpile::postprocess
