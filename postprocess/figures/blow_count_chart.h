#pragma once
// Blow count N after treatment over the area replacement ratio, by several methods.

#include "postprocess/canvas.h"

#include <limits>
#include <optional>

namespace interpile::postprocess {

struct BlowCountCurve {
    std::string name;
    std::vector<Vec2> points; ///< a_s [-] ascending, N
    /// a_s from which the method does not hold; the curve is dashed beyond
    double outside_from = std::numeric_limits<double>::infinity();
};

struct BlowCountFigure {
    std::string title;
    std::string subtitle;
    std::string source; ///< program and file, at the foot
    std::vector<std::string> warnings, notes;
    std::vector<BlowCountCurve> curves;
    std::optional<double> blow_count_before, target;
    std::vector<Vec2> measured; ///< a_s [-], N; drawn as circles; may be empty
    std::string measured_name;
    std::vector<Vec2> also_measured; ///< the same in another sense; drawn as open circles
    std::string also_measured_name;
    double largest_ratio = 0.3; ///< right end of the axis
};

/// \throws std::invalid_argument if no curve has a point on the axis, or if the axis is empty
Drawing blow_count_chart(const BlowCountFigure& figure);

} // namespace interpile::postprocess
