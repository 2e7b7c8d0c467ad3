#pragma once
// How density and lateral stress between the piles follow the work.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Relative density and lateral stress ratio against the half strokes in order: mean of the treated ground and every
/// observation point, from before the first pile; stripes and numbers show the piles, a dashed line the target.
/// \param before  the first stage
/// \throws std::invalid_argument if no half stroke or no ground is recorded
Drawing half_stroke_curves(const io::ResultsHeader& header, const io::ResultsStage& before,
                           const io::ResultsHalfStrokes& record);

} // namespace interpile::postprocess
