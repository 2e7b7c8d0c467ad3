#pragma once
// Which way the ground has moved, as sparse arrows over a plan.

#include "io/results_reader.h"
#include "postprocess/axes.h"

#include <vector>

namespace interpile::postprocess {

/// On the page [pt]; all of one length: how far the ground moved is told by the color below.
struct Arrow {
    Vec2 tail, tip;
};

/// Arrows on a lattice of the page, none on piles, none where the movement is below a hundredth of the
/// largest. Empty if the stage lacks displacement_x_m or displacement_y_m.
std::vector<Arrow> movement_arrows(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes);

void draw_arrow(Canvas& canvas, const Arrow& arrow);

} // namespace interpile::postprocess
