#pragma once
// What a boring tells of the ground: blow counts, gradings and laboratory values by depth.

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace interpile::solver {

/// One blow count and what is known of the soil around it.
struct BoringSample {
    double depth_m = 0;                                       ///< of the blow count, below surface, >= 0
    double blow_count = 0;                                    ///< N as measured, blows per 0.3 m, 0 .. 100
    double fines_pct = 0;                                     ///< finer than 0.075 mm, 0 .. 100
    double d50_mm = std::numeric_limits<double>::quiet_NaN(); ///< > 0; NaN: not known
    double unit_weight_kN_m3 = 0;                             ///< total, as it lies
    std::string soil;                                         ///< as logged; may be empty
    bool sand = true; ///< judged and treated; false: clay or silt, shown but left out
    std::optional<double> e_max, e_min, void_ratio; ///< measured in the laboratory [-]
    std::optional<double> d10_mm, d20_mm;
    std::optional<double> overconsolidation_ratio;
    std::optional<double> friction_angle_deg, permeability_m_s, lateral_stress_ratio; ///< measured
};

struct Boring {
    std::string name;
    double energy_ratio_pct = 78;      ///< of the hammer, above 0 .. 100
    double water_depth_m = 0;          ///< when the blows were counted; negative: above the surface
    double quake_water_depth_m = 0;    ///< in the earthquake; negative: above the surface
    std::vector<BoringSample> samples; ///< depth rising, at least one
};

/// A part of the ground for which one sample stands.
struct DepthInterval {
    double top_m = 0;
    double bottom_m = 0;
};

/// Between the middles to the neighbors; the first from the surface, the last as far below its sample as above it.
/// \throws std::invalid_argument  no samples, or depths that do not rise
std::vector<DepthInterval> sample_intervals(const Boring& boring);

/// Vertical stress at the depth of every sample [kPa].
struct VerticalStress {
    double total_kPa = 0;     ///< water above the surface included
    double effective_kPa = 0; ///< hydrostatic water below the table, none above it
};

/// Each sample's unit weight holds in its interval, above and below the water alike.
/// \param water_depth_m  below the surface; negative: water stands above the ground
/// \throws std::invalid_argument  as sample_intervals; a unit weight not positive; an effective stress not positive
std::vector<VerticalStress> vertical_stresses(const Boring& boring, double water_depth_m);

} // namespace interpile::solver
