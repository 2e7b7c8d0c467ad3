#include "solver/liquefaction/safety_factor.h"

#include "solver/number_check.h"

#include <cmath>
#include <stdexcept>

namespace interpile::solver {

double SafetyFactor::intermediate(const std::string& name) const {
    for (const auto& [known, value] : intermediates)
        if (known == name)
            return value;
    throw std::invalid_argument("this safety factor has no intermediate \"" + name + "\"");
}

void check_point(const BlowCountPoint& point) {
    constexpr double any = std::numeric_limits<double>::max();
    require_between("depth_m", point.depth_m, 0, any);
    require_between("blow_count", point.blow_count, 0, any);
    require_positive("energy_ratio_pct", point.energy_ratio_pct);
    require_between("energy_ratio_pct", point.energy_ratio_pct, 0, 100);
    require_between("fines_pct", point.fines_pct, 0, 100);
    if (!std::isnan(point.d50_mm))
        require_positive("d50_mm", point.d50_mm);
    require_positive("effective_stress_kPa", point.effective_stress_kPa);
    require_between("total_stress_kPa", point.total_stress_kPa, point.effective_stress_kPa, any);
    require_positive("effective_stress_quake_kPa", point.effective_stress_quake_kPa);
    require_between("total_stress_quake_kPa", point.total_stress_quake_kPa, point.effective_stress_quake_kPa,
                    any);
}

void check_shaking(const Earthquake& quake) {
    require_positive("peak_acceleration_g", quake.peak_acceleration_g);
    require_between("moment_magnitude", quake.moment_magnitude, 4, 10);
}

} // namespace interpile::solver
