#pragma once
// Input and answer common to the liquefaction procedures.

#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace interpile::solver {

/// One blow count in saturated ground. Above water nothing liquefies: such points are the caller's to leave
/// out.
/// Two states of stress, since the water table of the boring and that of the earthquake may differ.
struct BlowCountPoint {
    double depth_m = 0;                                       ///< z below surface, >= 0
    double blow_count = 0;                                    ///< N as measured, blows per 0.3 m, >= 0
    double energy_ratio_pct = 78;                             ///< ER of the hammer, above 0 .. 100
    double fines_pct = 0;                                     ///< F_c, finer than 0.075 mm, 0 .. 100
    double d50_mm = std::numeric_limits<double>::quiet_NaN(); ///< > 0; NaN: unknown, taken as sand
    double total_stress_kPa = 0;                              ///< vertical, at the boring, >= effective
    double effective_stress_kPa = 0;       ///< vertical, at the boring, > 0: normalizes the blow count
    double total_stress_quake_kPa = 0;     ///< vertical, in the earthquake, >= effective: demand
    double effective_stress_quake_kPa = 0; ///< vertical, in the earthquake, > 0: demand, K_sigma
};

struct Earthquake {
    double peak_acceleration_g = 0; ///< at the surface, > 0; not used by the highway-bridge procedures
    double moment_magnitude = 7.5;  ///< 4 .. 10; not used by the highway-bridge procedures
    double design_coefficient_khg =
        0;               ///< > 0; used by the highway-bridge procedures only, regional factor in it
    bool inland = false; ///< level 2 type II, which raises c_w; false: level 1 and type I (plate boundary)
};

/// F_L = resistance/demand.
struct SafetyFactor {
    static constexpr double none = std::numeric_limits<double>::quiet_NaN();

    double resistance = none;     ///< cyclic stress ratio [-]; infinite if not liquefiable, NaN if refused
    double demand = none;         ///< cyclic stress ratio [-]
    double value = none;          ///< F_L [-]; infinite if not liquefiable, NaN if refused
    bool not_liquefiable = false; ///< the procedure gives no finite resistance
    std::string refused;          ///< why the procedure gives no answer; empty: it does
    std::vector<std::string> remarks; ///< outside the range of validity, limits in force
    std::vector<std::pair<std::string, double>> intermediates; ///< name with unit (none: [-]), as evaluated

    /// Value of one intermediate.
    /// \throws std::invalid_argument  no such name
    double intermediate(const std::string& name) const;
};

/// \throws std::invalid_argument  depth, blow count, energy ratio, fines, grain size or stress out of range
void check_point(const BlowCountPoint& point);

/// \throws std::invalid_argument  peak acceleration or magnitude out of range
void check_shaking(const Earthquake& quake);

} // namespace interpile::solver
