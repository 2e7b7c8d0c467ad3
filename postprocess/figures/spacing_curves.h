#pragma once
// Density and lateral stress between the piles over the spacing or the area replacement ratio.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// What one simulation gave; not numbers where it gave nothing.
struct SpacingPoint {
    double at = 0;                  ///< spacing [m] or a_s [-]
    double density_pct = 0;         ///< D_r, mean between the piles
    double weakest_density_pct = 0; ///< D_r at the weakest place
    double stress_ratio = 0;        ///< K, mean between the piles
};

struct SpacingCurve {
    std::string name;
    std::vector<SpacingPoint> points; ///< in any order
};

struct SpacingFigure {
    std::string title;
    std::string subtitle;
    std::string source; ///< program and file, at the foot
    std::vector<std::string> warnings, notes;
    bool over_replacement_ratio = false; ///< else over the spacing
    bool joined = true;                  ///< false: points of a sample, without lines
    std::vector<SpacingCurve> curves;
};

/// Above D_r, mean (full) and weakest (dashed); below K.
/// \throws std::invalid_argument  if there is no point with a density
Drawing spacing_curves(const SpacingFigure& figure);

} // namespace interpile::postprocess
