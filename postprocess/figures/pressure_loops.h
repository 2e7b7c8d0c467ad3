#pragma once
// The loops of withdrawal and re-driving of one pile.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// Wall pressure against injected area of one pile, withdrawals in a color of their own, strokes numbered where the
/// re-driving ends.
/// \param pile  index from 0; -1: the last one driven. Of piles driven together the history has the first.
/// \throws std::invalid_argument if the history has no increment of the pile
Drawing pressure_loops(const io::ResultsHeader& header, const io::ResultsHistory& history, int pile = -1);

/// Injected area [m2] of a full disc of this area: without the soil of the seed.
double injected_area_m2(const io::ResultsHeader& header, double disc_area_m2);

} // namespace interpile::postprocess
