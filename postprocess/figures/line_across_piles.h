#pragma once
// The ground along a line of piles, as it changed from stage to stage.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

#include <vector>

namespace interpile::postprocess {

/// Density, lateral stress ratio and, if asked for, excess pore pressure of the ground along the line with the most
/// piles, fixed in space; the discs of the last stage are shaded, curves are broken at the pile material of their own
/// stage.
/// \param stages  in their order, at least one; the first in gray, the others darker the later they are
/// \throws std::invalid_argument without piles or stages
Drawing line_across_piles(const io::ResultsHeader& header, const std::vector<io::ResultsStage>& stages,
                          bool with_pressure);

} // namespace interpile::postprocess
