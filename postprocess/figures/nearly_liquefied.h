#pragma once
// Where the excess pore pressure has nearly used up the effective stress.

#include "io/results_reader.h"
#include "postprocess/axes.h"
#include "postprocess/contours.h"

#include <vector>

namespace interpile::postprocess {

/// r_u from which a cell counts as nearly liquefied; common practice, no source.
constexpr double nearly_liquefied_ratio = 0.9;

/// Cells of ground, pile material left out, with that ratio or more.
struct NearlyLiquefied {
    int cells = 0;
    double area_m2 = 0;
    std::vector<Ring> outlines; ///< borders and holes of their areas [m]
};

/// No cells where the stage lacks excess_pressure_ratio.
NearlyLiquefied nearly_liquefied(const mesh::Grid& grid, const io::ResultsStage& stage);

/// Hatched and outlined.
void draw_nearly_liquefied(Canvas& canvas, const Axes& axes, const NearlyLiquefied& ground);

} // namespace interpile::postprocess
