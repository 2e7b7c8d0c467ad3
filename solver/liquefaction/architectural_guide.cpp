#include "solver/liquefaction/architectural_guide.h"

#include <cmath>

namespace interpile::solver::architectural_guide {

double fines_increment(double fines_pct) {
    if (fines_pct <= 5)
        return 0;
    if (fines_pct <= 10)
        return 1.2 * (fines_pct - 5);
    if (fines_pct <= 20)
        return 6 + 0.2 * (fines_pct - 10);
    if (fines_pct <= 50)
        return 8 + 0.1 * (fines_pct - 20);
    return 11;
}

double resistance_ratio(double adjusted_blow_count, double strain_constant) {
    const double s = 16 * std::sqrt(adjusted_blow_count);
    return 0.45 * 0.57 * (s / 100 + std::pow(s / strain_constant, 14));
}

SafetyFactor safety(const BlowCountPoint& point, const Earthquake& quake) {
    check_point(point);
    check_shaking(quake);
    const double c_n = std::sqrt(98 / point.effective_stress_kPa);
    const double increment = fines_increment(point.fines_pct);
    const double n_a = c_n * point.blow_count + increment;
    const double r = resistance_ratio(n_a);
    const double r_n = 0.1 * (quake.moment_magnitude - 1);
    const double r_d = 1 - 0.015 * point.depth_m;
    const double l = r_n * quake.peak_acceleration_g * point.total_stress_quake_kPa /
                     point.effective_stress_quake_kPa * r_d;

    SafetyFactor safety;
    safety.intermediates = {
        {"C_N", c_n}, {"delta_N_f", increment}, {"N_a", n_a}, {"R", r}, {"r_n", r_n}, {"r_d", r_d}, {"L", l}};
    if (l <= 0) {
        safety.refused = "deeper than 66 m: the depth factor 1 - 0.015 z is not positive";
        return safety;
    }
    safety.resistance = r;
    safety.demand = l;
    safety.value = r / l;
    if (point.depth_m > 20)
        safety.remarks.push_back("deeper than 20 m: this procedure does not judge such ground");
    if (point.fines_pct > 35)
        safety.remarks.push_back("fines above 35 %: judged only if of low plasticity, or made ground");
    return safety;
}

} // namespace interpile::solver::architectural_guide
