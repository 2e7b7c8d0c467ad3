#pragma once
// A field in plan as areas of color and lines of equal value.

#include "postprocess/axes.h"
#include "postprocess/contours.h"

#include <string>
#include <vector>

namespace interpile::postprocess {

struct PlanBands {
    std::vector<BandArea> areas;
    std::vector<Ring> lines; ///< none of a field that has no values in between
};

/// \param value  per cell, all finite: continued under the piles
PlanBands plan_bands(const std::string& field, const mesh::Grid& grid, const Eigen::ArrayXd& value,
                     const BandScale& scale);

void draw_plan_bands(Canvas& canvas, const Axes& axes, const PlanBands& bands, const BandScale& scale);

} // namespace interpile::postprocess
