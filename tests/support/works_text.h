#pragma once
// A small sound works file of an invented site.

#include <string>

namespace interpile::testing {

/// 2 x 3 piles of 0.7 m from 10 m to 1 m in 30 strokes of 0.3 m; a place 4 m east of the group.
inline const std::string sound_works = R"(# invented site
[works]
title = "six piles"

[pile]
casing_diameter_m = 0.4
diameter_m = 0.7
top_depth_m = 1.0
bottom_depth_m = 10.0
net_rise_m = 0.3

[layout]
pattern = "square"
spacing_m = 2.0
rows = 2
columns = 3

[order]
kind = "alternating"
rest_h = 0.5

[surroundings]
border_distance_m = 20
work_start_h = 8
work_end_h = 17.5

[[place]]
name = "wall"
x_m = 8
y_m = 1
)";

} // namespace interpile::testing
