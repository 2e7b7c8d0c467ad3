#pragma once
// A small sound site file of an invented site, its tables, and a folder that holds them.

#include "tests/support/program_run.h"

#include <string>

namespace interpile::testing {

/// Two borings in loose sand below water; a comment on a line, as users write it.
inline const std::string sound_site = R"(# invented site
[site]
title = "two borings"
water_depth_m = 1.5        # below ground
quake_water_depth_m = 1.0
energy_ratio_pct = 72

[[boring]]
name = "B-1"
table = "b1.csv"

[[boring]]
name = "B-2"
table = "b2.csv"
water_depth_m = 2.0
energy_ratio_pct = 60

[earthquake]
peak_acceleration_g = 0.2
moment_magnitude = 7.0
design_coefficient_khg = 0.18

[treatment]
diameter_m = 0.7
casing_diameter_m = 0.4
top_depth_m = 1.0
bottom_depth_m = 6.5
pattern = "square"
methods = ["B", "C", "D"]
spacing_by = "C"

[target]
safety_factor = 1.0
procedure = "boulanger-idriss-2014"

[relations]
relative_density_pct = "meyerhof-1957"
)";

inline const std::string sound_boring_one =
    "depth_m,blow_count,fines_pct,unit_weight_kN_m3,d50_mm,soil,kind\n"
    "1.3,6,8,18,0.2,fill,\n2.3,5,10,18.5,0.2,fine sand,sand\n3.3,7,12,18.5,,silty sand,\n"
    "4.3,4,70,17,,silt,silt\n5.3,9,6,19,0.25,sand,\n7.3,30,4,19.5,0.3,sand,\n";
inline const std::string sound_boring_two =
    "depth_m,blow_count,fines_pct,unit_weight_kN_m3\n1.5,7,9,18\n3,6,14,18.5\n4.5,8,10,18.5\n6,10,7,19\n";
inline const std::string sound_chart =
    "blow_count_before,replacement_ratio,blow_count_after\n0,0.03,3\n30,0.03,31\n0,0.2,22\n30,0.2,52\n";

/// The tables beside a site file; removed at the end of life.
struct SiteFolder {
    SiteFolder() {
        folder.write("b1.csv", sound_boring_one);
        folder.write("b2.csv", sound_boring_two);
        folder.write("chart.csv", sound_chart);
    }
    std::filesystem::path file() const { return folder.path() / "site.toml"; }

    WorkingFolder folder;
};

} // namespace interpile::testing
