#pragma once
// What the piles had to push against while they grew.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Wall pressure against injected area, one small plot per pile, all with the same axes. At most six piles are
/// shown: first and last driven and others evenly between them in the order of work.
/// \throws std::invalid_argument if the history is empty
Drawing pressure_history(const io::ResultsHeader& header, const io::ResultsHistory& history);

} // namespace interpile::postprocess
