#pragma once
// When what was driven, and when the work ends.

#include "io/results_reader.h"

#include <string>
#include <vector>

namespace interpile::postprocess {

/// Time in which the piles of one place in the order of work are driven past the slice [s].
struct DrivingSpan {
    double from_s = 0, to_s = 0;
    std::string piles; ///< their numbers: "3", "1+2"
};

/// In the order of work; empty without flow in time.
std::vector<DrivingSpan> driving_spans(const io::ResultsHistory& history,
                                       const io::ResultsHalfStrokes& record);

} // namespace interpile::postprocess
