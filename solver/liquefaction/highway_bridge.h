#pragma once
// Procedure of the Japanese Specifications for Highway Bridges, part V, in the forms up to 2012 and of 2017.
// Scope and safety factor read in the English edition of 2002, 8.2; the rest from memory of the specifications.

#include "solver/liquefaction/safety_factor.h"

namespace interpile::solver::highway_bridge {

/// Edition2012 holds for 1996 to 2012.
enum class Edition { Edition2012, Edition2017 };

/// r_d = 1 - 0.015 z.
double depth_factor(double depth_m);

/// N1 = 170 N/(s' + 70), N as measured.
double normalized_blow_count(double blow_count, double effective_stress_kPa);

/// Fines to 2012: N_a = c1 N1 + c2.
struct FinesCorrection {
    double c1 = 1;
    double c2 = 0;
};
FinesCorrection fines_correction_2012(double fines_pct);

/// Fines of 2017: N_a = c_FC (N1 + 2.47) - 2.47. From F_c 40 % c_FC grows steeply and is not to be trusted
/// from memory.
double fines_factor_2017(double fines_pct);

inline constexpr double fines_limit_2017_pct = 40; ///< from here `safety` refuses sand by the edition of 2017
inline constexpr double gravel_d50_mm = 2;         ///< from here gravel

/// Gravel, all editions: N_a/N1 = 1 - 0.36 log10(D50/2).
double gravel_factor(double d50_mm);

/// R_L of the adjusted blow count N_a.
double resistance_ratio(Edition edition, double adjusted_blow_count);

/// c_w: 1; in an inland earthquake 1 to R_L 0.1, 3.3 R_L + 0.67 to 0.4, 2 above.
double earthquake_factor(double resistance_ratio, bool inland);

/// R/L with R = c_w R_L, L = r_d k_hg sigma_v/s'.
/// Intermediates: N1; c1, c2 or c_FC or (gravel) c_gravel; N_a, R_L, c_w, R, r_d, L; where refused only r_d
/// and L.
/// \throws std::invalid_argument  a number out of range
SafetyFactor safety(Edition edition, const BlowCountPoint& point, const Earthquake& quake);

} // namespace interpile::solver::highway_bridge
