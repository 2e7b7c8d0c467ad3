#pragma once
// Blow-count procedure of Boulanger & Idriss (2014), report UCD/CGM-14/01; resistance curve of Idriss &
// Boulanger (2008), EERI MNO-12. All formulas from memory of them.

#include "solver/liquefaction/safety_factor.h"

namespace interpile::solver::boulanger_idriss_2014 {

inline constexpr double reference_pressure_kPa = 101.325;
inline constexpr double largest_resistance_ratio = 2; ///< held from (N1)60cs 37.5

/// r_d = exp(alpha(z) + beta(z) M); meant for z <= 20 m, 34 m at most. Not limited to 1.
double depth_factor(double depth_m, double moment_magnitude);

/// Delta N = exp(1.63 + 9.7/(F_c + 0.01) - (15.7/(F_c + 0.01))^2), added to (N1)60.
double fines_increment(double fines_pct);

/// Blow count at 1 atmosphere, solved together with its own exponent m.
struct NormalizedBlowCount {
    double m = 0;       ///< 0.784 - 0.0768 sqrt((N1)60cs), (N1)60cs at most 46 there
    double c_n = 1;     ///< (p_a/s')^m <= 1.7
    double n1_60 = 0;   ///< C_N N60
    double n1_60cs = 0; ///< with the increment for fines
};
NormalizedBlowCount normalized_blow_count(double n60, double effective_stress_kPa, double fines_increment);

/// CRR at magnitude 7.5 and 1 atmosphere, about 15 % probability of liquefaction; held at 2 from (N1)60cs 37.5.
double resistance_ratio(double clean_sand_blow_count);

/// MSF_max = 1.09 + ((N1)60cs/31.5)^2 <= 2.2.
double magnitude_scaling_limit(double clean_sand_blow_count);

/// MSF = 1 + (MSF_max - 1) (8.64 exp(-M/4) - 1.325).
double magnitude_scaling(double moment_magnitude, double limit);

/// MSF = 6.9 exp(-M/4) - 0.058 <= 1.8, the form of 2008 without the blow count; for comparison.
double magnitude_scaling_2008(double moment_magnitude);

/// C_sigma = 1/(18.9 - 2.55 sqrt((N1)60cs)) <= 0.3, (N1)60cs at most 37.
double overburden_coefficient(double clean_sand_blow_count);

/// K_sigma = 1 - C_sigma ln(s'/p_a) <= 1.1.
double overburden_scaling(double effective_stress_kPa, double coefficient);

/// CRR MSF K_sigma/CSR, CSR = 0.65 (a_max/g) (sigma_v/s') r_d; level ground, rod and borehole corrections 1.
/// Intermediates: N60, m, C_N, N1_60, delta_N, N1_60cs, r_d, CSR, CRR_7.5, MSF_max, MSF, C_sigma, K_sigma.
/// \throws std::invalid_argument  a number out of range
SafetyFactor safety(const BlowCountPoint& point, const Earthquake& quake);

} // namespace interpile::solver::boulanger_idriss_2014
