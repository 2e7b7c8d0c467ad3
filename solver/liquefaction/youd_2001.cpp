#include "solver/liquefaction/youd_2001.h"

#include <algorithm>
#include <cmath>

namespace interpile::solver::youd_2001 {
namespace {

void add_remarks(const BlowCountPoint& point, const Earthquake& quake, SafetyFactor& safety) {
    if (point.depth_m > 23)
        safety.remarks.push_back("deeper than 23 m: r_d is an extension, poorly known");
    if (quake.moment_magnitude < 5.5 || quake.moment_magnitude > 8.5)
        safety.remarks.push_back("magnitude outside 5.5 .. 8.5, the range of the scaling factor");
    if (safety.not_liquefiable)
        safety.remarks.push_back("(N1)60cs of 30 or more: not liquefiable by this procedure");
}

} // namespace

double depth_factor(double depth_m) {
    if (depth_m <= 9.15)
        return 1 - 0.00765 * depth_m;
    if (depth_m <= 23)
        return 1.174 - 0.0267 * depth_m;
    if (depth_m <= 30)
        return 0.744 - 0.008 * depth_m;
    return 0.5;
}

double overburden_factor(double effective_stress_kPa) {
    return std::min(1.7, std::sqrt(reference_pressure_kPa / effective_stress_kPa));
}

FinesCorrection fines_correction(double fines_pct) {
    if (fines_pct <= 5)
        return {0, 1};
    if (fines_pct < 35)
        return {std::exp(1.76 - 190 / (fines_pct * fines_pct)), 0.99 + std::pow(fines_pct, 1.5) / 1000};
    return {5, 1.2};
}

double resistance_ratio(double clean_sand_blow_count) {
    const double n = clean_sand_blow_count;
    if (n >= curve_end)
        return std::numeric_limits<double>::infinity();
    const double d = 10 * n + 45;
    return 1 / (34 - n) + n / 135 + 50 / (d * d) - 1.0 / 200;
}

double magnitude_scaling(double moment_magnitude) {
    return std::pow(10, 2.24) / std::pow(moment_magnitude, 2.56);
}

double relative_density_pct(double n1_60) {
    return 100 * std::sqrt(n1_60 / 46);
}

double overburden_exponent(double relative_density_pct) {
    return std::clamp(1 - 0.005 * relative_density_pct, 0.6, 0.8);
}

double overburden_scaling(double effective_stress_kPa, double exponent) {
    return std::min(1.0, std::pow(effective_stress_kPa / reference_pressure_kPa, exponent - 1));
}

SafetyFactor safety(const BlowCountPoint& point, const Earthquake& quake) {
    check_point(point);
    check_shaking(quake);
    const double n60 = point.blow_count * point.energy_ratio_pct / 60;
    const double c_n = overburden_factor(point.effective_stress_kPa);
    const double n1_60 = c_n * n60;
    const auto [alpha, beta] = fines_correction(point.fines_pct);
    const double n1_60cs = alpha + beta * n1_60;
    const double r_d = depth_factor(point.depth_m);
    const double csr = 0.65 * quake.peak_acceleration_g * point.total_stress_quake_kPa /
                       point.effective_stress_quake_kPa * r_d;
    const double crr = resistance_ratio(n1_60cs);
    const double msf = magnitude_scaling(quake.moment_magnitude);
    const double density_pct = relative_density_pct(n1_60);
    const double f = overburden_exponent(density_pct);
    const double k_sigma = overburden_scaling(point.effective_stress_quake_kPa, f);

    SafetyFactor safety;
    safety.resistance = crr * msf * k_sigma;
    safety.demand = csr;
    safety.value = safety.resistance / safety.demand;
    safety.not_liquefiable = std::isinf(crr);
    safety.intermediates = {{"N60", n60},
                            {"C_N", c_n},
                            {"N1_60", n1_60},
                            {"alpha", alpha},
                            {"beta", beta},
                            {"N1_60cs", n1_60cs},
                            {"r_d", r_d},
                            {"CSR", csr},
                            {"CRR_7.5", crr},
                            {"MSF", msf},
                            {"D_r_pct", density_pct},
                            {"f", f},
                            {"K_sigma", k_sigma}};
    add_remarks(point, quake, safety);
    return safety;
}

} // namespace interpile::solver::youd_2001
