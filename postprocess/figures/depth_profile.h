#pragma once
// One boring over depth: soil column and curves of values in panels side by side.

#include "postprocess/canvas.h"

#include <optional>

namespace interpile::postprocess {

struct ProfileCurve {
    std::string name;
    std::vector<Vec2> points; ///< value, depth [m] downward positive; a value of NaN breaks the line
};

struct ProfilePanel {
    std::string x_title; ///< with unit
    std::vector<ProfileCurve> curves;
    double low = 0, high = 1; ///< range of the value axis; values beyond are marked at its side
    std::optional<double> limit;
    std::string limit_name;
};

struct ProfileBand {
    double top_m = 0, bottom_m = 0; ///< depth
    std::string name;
    bool sand = true;
};

struct ProfileFigure {
    std::string title;
    std::string subtitle;
    std::string source; ///< program and file, at the foot
    std::vector<std::string> warnings, notes;
    double water_depth_m = 0, quake_water_depth_m = 0; ///< negative: above the ground surface
    double deepest_m = 0;                              ///< shown at least
    std::vector<ProfileBand> bands;
    std::vector<ProfilePanel> panels;
};

constexpr std::size_t most_profile_panels = 4; ///< that leave room for numbers and names

/// Depth downward on a shared axis: soil column with water levels at the left, panels of values right of it.
/// \throws std::invalid_argument without panels, with too many, or if a range of values or of depth is empty
Drawing depth_profile(const ProfileFigure& figure);

} // namespace interpile::postprocess
