#pragma once
// Which share of the treated area is how dense.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Share of the treated area with less than a relative density, before the first pile and at a stage; the target and the
/// share below it where the case has one.
/// \throws std::invalid_argument if the layout has no treated area
Drawing density_distribution(const io::ResultsHeader& header, const io::ResultsStage& before,
                             const io::ResultsStage& stage);

} // namespace interpile::postprocess
