#include "solver/liquefaction/boulanger_idriss_2014.h"

#include <algorithm>
#include <cmath>

namespace interpile::solver::boulanger_idriss_2014 {
namespace {

void add_remarks(const BlowCountPoint& point, const Earthquake& quake, SafetyFactor& safety) {
    if (point.depth_m > 34)
        safety.remarks.push_back("deeper than 34 m: beyond the formula for r_d");
    else if (point.depth_m > 20)
        safety.remarks.push_back("deeper than 20 m: r_d poorly known, a site response analysis is advised");
    if (quake.moment_magnitude < 5.25 || quake.moment_magnitude > 9)
        safety.remarks.push_back("magnitude outside 5.25 .. 9, the range of the scaling factor");
    if (safety.intermediate("CRR_7.5") >= largest_resistance_ratio)
        safety.remarks.push_back("(N1)60cs of 37.5 or more: CRR held at 2");
}

} // namespace

double depth_factor(double depth_m, double moment_magnitude) {
    const double alpha = -1.012 - 1.126 * std::sin(depth_m / 11.73 + 5.133);
    const double beta = 0.106 + 0.118 * std::sin(depth_m / 11.28 + 5.142);
    return std::exp(alpha + beta * moment_magnitude);
}

double fines_increment(double fines_pct) {
    const double f = fines_pct + 0.01;
    return std::exp(1.63 + 9.7 / f - (15.7 / f) * (15.7 / f));
}

NormalizedBlowCount normalized_blow_count(double n60, double effective_stress_kPa, double fines_increment) {
    const auto exponent = [&](double c_n) {
        return 0.784 - 0.0768 * std::sqrt(std::min(46.0, c_n * n60 + fines_increment));
    };
    const auto factor = [&](double c_n) {
        return std::min(1.7, std::pow(reference_pressure_kPa / effective_stress_kPa, exponent(c_n)));
    };
    // Bisection on C_N: a fixed point may swing at large stress. factor(C) - C falls from positive to not
    // positive.
    double low = 0, high = 1.7;
    for (double middle = 0.5 * high; low < middle && middle < high; middle = 0.5 * (low + high))
        (factor(middle) > middle ? low : high) = middle;
    return {exponent(high), high, high * n60, high * n60 + fines_increment};
}

double resistance_ratio(double clean_sand_blow_count) {
    const double n = clean_sand_blow_count;
    if (n >= 37.5)
        return largest_resistance_ratio;
    return std::exp(n / 14.1 + std::pow(n / 126, 2) - std::pow(n / 23.6, 3) + std::pow(n / 25.4, 4) - 2.8);
}

double magnitude_scaling_limit(double clean_sand_blow_count) {
    return std::min(2.2, 1.09 + std::pow(clean_sand_blow_count / 31.5, 2));
}

double magnitude_scaling(double moment_magnitude, double limit) {
    return 1 + (limit - 1) * (8.64 * std::exp(-moment_magnitude / 4) - 1.325);
}

double magnitude_scaling_2008(double moment_magnitude) {
    return std::min(1.8, 6.9 * std::exp(-moment_magnitude / 4) - 0.058);
}

double overburden_coefficient(double clean_sand_blow_count) {
    return std::min(0.3, 1 / (18.9 - 2.55 * std::sqrt(std::min(37.0, clean_sand_blow_count))));
}

double overburden_scaling(double effective_stress_kPa, double coefficient) {
    return std::min(1.1, 1 - coefficient * std::log(effective_stress_kPa / reference_pressure_kPa));
}

SafetyFactor safety(const BlowCountPoint& point, const Earthquake& quake) {
    check_point(point);
    check_shaking(quake);
    const double n60 = point.blow_count * point.energy_ratio_pct / 60;
    const double delta_n = fines_increment(point.fines_pct);
    const auto [m, c_n, n1_60, n1_60cs] = normalized_blow_count(n60, point.effective_stress_kPa, delta_n);
    const double r_d = depth_factor(point.depth_m, quake.moment_magnitude);
    const double csr = 0.65 * quake.peak_acceleration_g * point.total_stress_quake_kPa /
                       point.effective_stress_quake_kPa * r_d;
    const double crr = resistance_ratio(n1_60cs);
    const double msf_max = magnitude_scaling_limit(n1_60cs);
    const double msf = magnitude_scaling(quake.moment_magnitude, msf_max);
    const double c_sigma = overburden_coefficient(n1_60cs);
    const double k_sigma = overburden_scaling(point.effective_stress_quake_kPa, c_sigma);

    SafetyFactor safety;
    safety.intermediates = {{"N60", n60},         {"m", m},
                            {"C_N", c_n},         {"N1_60", n1_60},
                            {"delta_N", delta_n}, {"N1_60cs", n1_60cs},
                            {"r_d", r_d},         {"CSR", csr},
                            {"CRR_7.5", crr},     {"MSF_max", msf_max},
                            {"MSF", msf},         {"C_sigma", c_sigma},
                            {"K_sigma", k_sigma}};
    safety.demand = csr;
    if (k_sigma <= 0) {
        safety.refused = "effective stress far beyond the data: K_sigma is not positive";
        return safety;
    }
    safety.resistance = crr * msf * k_sigma;
    safety.value = safety.resistance / safety.demand;
    add_remarks(point, quake, safety);
    return safety;
}

} // namespace interpile::solver::boulanger_idriss_2014
