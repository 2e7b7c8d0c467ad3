#pragma once
// Narrow strip of the layers of a boring with its water levels, beside plots over depth.

#include "postprocess/axes.h"
#include "postprocess/figures/depth_profile.h"
#include "postprocess/key.h"

namespace interpile::postprocess {

constexpr double soil_column_pt = 52;
constexpr double water_marks_pt = 20; ///< right of the column

/// \param axes  of the column, depth downward
void draw_soil_column(Canvas& canvas, const ProfileFigure& figure, const Axes& axes);

/// Kinds of ground and water levels that the figure shows.
std::vector<KeyEntry> soil_column_key(const ProfileFigure& figure);

/// The layers too thin for their names, in words; empty if there is none.
std::string unnamed_layers(const ProfileFigure& figure, double pt_per_m);

} // namespace interpile::postprocess
