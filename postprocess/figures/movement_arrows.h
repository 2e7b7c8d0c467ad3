#pragma once
// Which way the ground has moved and the water flows, as sparse arrows over a plan.

#include "io/results_reader.h"
#include "postprocess/axes.h"

#include <string>
#include <vector>

namespace interpile::postprocess {

/// On the page [pt].
struct Arrow {
    Vec2 tail, tip;
};

/// Arrows on a lattice of the page, all of one length: how far the ground moved is told by the color below. None on piles,
/// none where the movement is below a hundredth of the largest. Empty if the stage lacks displacement_x_m or
/// displacement_y_m.
std::vector<Arrow> movement_arrows(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes);

/// Arrows whose length tells a size, and one of a round size for the key.
struct ScaledArrows {
    std::vector<Arrow> arrows;
    double key_length_pt = 0;
    std::string key_size; ///< "2×10⁻⁶ m/s"
};

/// Specific discharge on the same lattice; none on piles, none too short to be seen. Empty if the stage lacks
/// seepage_x_m_s or seepage_y_m_s, or where no water flows.
ScaledArrows seepage_arrows(const mesh::Grid& grid, const io::ResultsStage& stage, const Axes& axes);

void draw_arrow(Canvas& canvas, const Arrow& arrow);

} // namespace interpile::postprocess
