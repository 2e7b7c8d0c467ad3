#pragma once
// A small sound case file and ways to change it.

#include <stdexcept>
#include <string>

namespace interpile::testing {

/// A 2 x 2 group in Mohr-Coulomb sand under two layers, with a comment on a line, as users write it.
inline const std::string sound_case = R"(# invented ground
[case]
title = "four piles"

[ground]
slice_depth_m = 6.0        # below ground
water_table_depth_m = 1.5
K0 = 0.5
relative_density_pct = 40
vertical_condition = "shared"

[[layer]]
name = "fill"
thickness_m = 1.5
unit_weight_kN_m3 = 17.0

[[layer]]
name = "sand"
thickness_m = 8.5
unit_weight_kN_m3 = 19.0

[soil]
model = "mohr-coulomb"
shear_modulus_kPa = 8000
friction_angle_deg = 33

[pile]
casing_diameter_m = 0.4
diameter_m = 0.7
withdrawal_m = 0.6
redrive_m = 0.4

[layout]
pattern = "square"
spacing_m = 1.7
rows = 2
columns = 2

[order]
kind = "listed"
sequence = [1, 4, 2, 3]

[domain]
x_m = [-5, 7]
y_m = [-5, 7]
west = "rigid-smooth"
east = "constant-stress"

[grid]
cells_per_diameter = 6

[steps]
tolerance = 2e-3

[output]
every_pile = false
)";

/// The text with the first `from` replaced; an error of the test if it is not there.
inline std::string changed(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    if (at == std::string::npos)
        throw std::logic_error("the case text has no \"" + from + "\"");
    return text.replace(at, from.size(), to);
}

} // namespace interpile::testing
