#include "solver/liquefaction/highway_bridge.h"

#include "solver/number_check.h"

#include <cmath>

namespace interpile::solver::highway_bridge {
namespace {

bool is_gravel(const BlowCountPoint& point) {
    return point.d50_mm >= gravel_d50_mm;
} // false for NaN

/// N_a; notes the way to it.
double adjusted_blow_count(Edition edition, const BlowCountPoint& point, SafetyFactor& safety) {
    const double n1 = normalized_blow_count(point.blow_count, point.effective_stress_kPa);
    safety.intermediates.emplace_back("N1", n1);
    if (is_gravel(point)) {
        const double c = gravel_factor(point.d50_mm);
        safety.intermediates.emplace_back("c_gravel", c);
        return c * n1;
    }
    if (edition == Edition::Edition2017) {
        const double c_fc = fines_factor_2017(point.fines_pct);
        safety.intermediates.emplace_back("c_FC", c_fc);
        return c_fc * (n1 + 2.47) - 2.47;
    }
    const auto [c1, c2] = fines_correction_2012(point.fines_pct);
    safety.intermediates.emplace_back("c1", c1);
    safety.intermediates.emplace_back("c2", c2);
    return c1 * n1 + c2;
}

std::string refusal(Edition edition, const BlowCountPoint& point) {
    if (depth_factor(point.depth_m) <= 0)
        return "deeper than 66 m: the depth factor 1 - 0.015 z is not positive";
    if (is_gravel(point) && gravel_factor(point.d50_mm) <= 0)
        return "D50 too large: the factor for gravel, 1 - 0.36 log10(D50/2), is not positive";
    if (edition == Edition::Edition2017 && !is_gravel(point) && point.fines_pct >= fines_limit_2017_pct)
        return "fines of 40 % or more: the fines factor of 2017 grows without bound and is known from memory "
               "only";
    return {};
}

void add_remarks(const BlowCountPoint& point, SafetyFactor& safety) {
    if (point.depth_m > 20)
        safety.remarks.push_back("deeper than 20 m: this procedure does not judge such ground");
    if (point.fines_pct > 35)
        safety.remarks.push_back("fines above 35 %: judged only if the plasticity index is 15 or less");
    if (point.d50_mm > 10)
        safety.remarks.push_back("D50 above 10 mm: this procedure does not judge such ground");
}

} // namespace

double depth_factor(double depth_m) {
    return 1 - 0.015 * depth_m;
}

double normalized_blow_count(double blow_count, double effective_stress_kPa) {
    return 170 * blow_count / (effective_stress_kPa + 70);
}

FinesCorrection fines_correction_2012(double fines_pct) {
    const double c2 = fines_pct < 10 ? 0 : (fines_pct - 10) / 18;
    if (fines_pct < 10)
        return {1, c2};
    if (fines_pct < 60)
        return {(fines_pct + 40) / 50, c2};
    return {fines_pct / 20 - 1, c2};
}

double fines_factor_2017(double fines_pct) {
    if (fines_pct < 10)
        return 1;
    if (fines_pct < 40)
        return (fines_pct + 20) / 30;
    return (fines_pct - 16) / 12;
}

double gravel_factor(double d50_mm) {
    return 1 - 0.36 * std::log10(d50_mm / gravel_d50_mm);
}

double resistance_ratio(Edition edition, double adjusted_blow_count) {
    const double n = adjusted_blow_count;
    if (n >= 14)
        return 0.0882 * std::sqrt(n / 1.7) + 1.6e-6 * std::pow(n - 14, 4.5);
    const double counted = edition == Edition::Edition2017 ? 0.85 * n + 2.1 : n;
    return 0.0882 * std::sqrt(counted / 1.7);
}

double earthquake_factor(double resistance_ratio, bool inland) {
    if (!inland || resistance_ratio <= 0.1)
        return 1;
    return resistance_ratio <= 0.4 ? 3.3 * resistance_ratio + 0.67 : 2;
}

SafetyFactor safety(Edition edition, const BlowCountPoint& point, const Earthquake& quake) {
    check_point(point);
    require_positive("design_coefficient_khg", quake.design_coefficient_khg);
    const double r_d = depth_factor(point.depth_m);
    const double l =
        r_d * quake.design_coefficient_khg * point.total_stress_quake_kPa / point.effective_stress_quake_kPa;
    SafetyFactor safety;
    if (l > 0)
        safety.demand = l;
    safety.refused = refusal(edition, point);
    if (safety.refused.empty()) {
        const double n_a = adjusted_blow_count(edition, point, safety);
        const double r_l = resistance_ratio(edition, n_a);
        const double c_w = earthquake_factor(r_l, quake.inland);
        safety.intermediates.insert(safety.intermediates.end(),
                                    {{"N_a", n_a}, {"R_L", r_l}, {"c_w", c_w}, {"R", c_w * r_l}});
        safety.resistance = c_w * r_l;
        safety.value = safety.resistance / l;
    }
    safety.intermediates.insert(safety.intermediates.end(), {{"r_d", r_d}, {"L", l}});
    add_remarks(point, safety);
    return safety;
}

} // namespace interpile::solver::highway_bridge
