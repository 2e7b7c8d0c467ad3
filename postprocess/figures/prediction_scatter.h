#pragma once
// Measured against predicted blow counts N after treatment.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

struct ScatterSeries {
    std::string name;
    std::vector<Vec2> points; ///< predicted, measured N
};

struct ScatterFigure {
    std::string title;
    std::string subtitle;
    std::string source; ///< program and file, at the foot
    std::vector<std::string> warnings, notes;
    std::vector<ScatterSeries> series; ///< one for each method
};

/// Equal axes, line of equality and lines of 30 % more and less measured than predicted.
/// \throws std::invalid_argument if there is no point
Drawing prediction_scatter(const ScatterFigure& figure);

} // namespace interpile::postprocess
