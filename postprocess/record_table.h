#pragma once
// The record of half strokes and the ground at every stage as CSV.

#include "io/results_reader.h"
#include "postprocess/ground_summary.h"

#include <ostream>
#include <vector>

namespace interpile::postprocess {

/// One row per half stroke and pile driven in it, and per time step of a rest, in order; piles from 1, phases in words,
/// three columns per observation point. Empty values where there is no ground and for what was not recorded.
void write_half_strokes(const io::ResultsHeader& header, const io::ResultsHalfStrokes& record,
                        std::ostream& csv);

/// One row per stage; piles from 1, empty before the first; after_rest 1 at the end of a rest after that pile.
void write_ground(const io::ResultsHeader& header, const std::vector<StageGround>& stages, std::ostream& csv);

} // namespace interpile::postprocess
