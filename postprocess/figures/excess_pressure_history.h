#pragma once
// How the excess pore pressure rises while piles are driven and what the rests leave of it.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Whether water flows in time in these results.
bool is_in_time(const io::ResultsHistory& history);

/// Over the time since the first pile was begun: excess pore pressure at the points and mean of the treated ground, largest
/// excess pressure ratio of any cell, mean relative density. Spans in which piles are driven are shaded; a final rest that
/// is long beside the work has a column of its own over the logarithm of time.
/// \throws std::invalid_argument for results without flow in time
Drawing excess_pressure_history(const io::ResultsHeader& header, const io::ResultsStage& before,
                                const io::ResultsHistory& history, const io::ResultsHalfStrokes& record);

} // namespace interpile::postprocess
