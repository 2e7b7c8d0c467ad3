#pragma once
// A cheap sound case and a study of it, and a folder for both.

#include "tests/support/program_run.h"

#include <string>

namespace interpile::testing {

/// A quarter of a pattern cell in Mohr-Coulomb soil, a fraction of a second.
inline const std::string cell_case = R"(# invented
[ground]
slice_depth_m = 6
vertical_stress_kPa = 70 # below ground
relative_density_pct = 40
[soil]
model = "mohr-coulomb"
shear_modulus_kPa = 9000
friction_angle_deg = 33
[pile]
diameter_m = 0.7
casing_diameter_m = 0.4
strokes = 1
[layout]
pattern = "square"
spacing_m = 1.6
rows = 1
columns = 1
[order]
kind = "together"
[domain]
shape = "pattern-cell"
part = "quarter"
[grid]
cells_per_diameter = 4
[output]
every_pile = false
)";

/// 2 x 2 members.
inline const std::string cell_study = R"([study]
title = "four members"
base = "case.toml"
[[factor]]
key = "layout.spacing_m"
values = [1.6, 2.0]
[[factor]]
key = "ground.relative_density_pct"
from = 40
to = 60
count = 2
)";

} // namespace interpile::testing
