#pragma once
// Invented results that look like those of a run, so that drawing and export need no run.

#include "io/results_reader.h"

#include <vector>

namespace interpile::tests {

struct InventedResult {
    io::ResultsHeader header;
    io::ResultsStage stage;
    io::ResultsHistory history;
};

/// A rectangular uniform grid, all piles driven in the order of their numbers; density and stress decay from
/// the discs, the ground moves away from them, pile cells carry values far from those of the ground.
InventedResult invented_result(const std::vector<mesh::Vec2>& centers, double diameter_m,
                               const mesh::Vec2& low, const mesh::Vec2& high, double cell_m);

/// Casing pass and two strokes of every pile, one after another: density and stress ratio rise, withdrawals take some of
/// it back; a little more at each further point.
io::ResultsHalfStrokes invented_half_strokes(const io::ResultsHeader& header);

/// 3 x 3 piles of 0.70 m at 1.70 m.
InventedResult invented_three_by_three(double cell_m = 0.17);

} // namespace interpile::tests
