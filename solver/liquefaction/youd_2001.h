#pragma once
// Blow-count procedure of Youd et al. (2001), J. Geotech. Geoenviron. Eng. 127(10), 817-833 (workshops of
// 1996 and 1998). All formulas from memory of it unless said.

#include "solver/liquefaction/safety_factor.h"

namespace interpile::solver::youd_2001 {

inline constexpr double reference_pressure_kPa = 100; ///< as published
inline constexpr double curve_end = 30;               ///< (N1)60cs from which clean sand does not liquefy

/// r_d: straight lines to 9.15, 23 and 30 m, 0.5 below; steps of 0.0003 at 9.15 m and 0.004 at 30 m, as published.
/// The line from 23 to 30 m from memory of the workshop report (NCEER 1997).
double depth_factor(double depth_m);

/// C_N = sqrt(100/s') <= 1.7.
double overburden_factor(double effective_stress_kPa);

/// (N1)60cs = alpha + beta (N1)60.
struct FinesCorrection {
    double alpha = 0;
    double beta = 1;
};
FinesCorrection fines_correction(double fines_pct);

/// CRR at magnitude 7.5 and 100 kPa; infinite from (N1)60cs 30. Falls slightly up to (N1)60cs 0.45, as
/// published.
double resistance_ratio(double clean_sand_blow_count);

/// MSF = 10^2.24/M^2.56, the lower bound of the recommended band; 0.9996 at 7.5.
double magnitude_scaling(double moment_magnitude);

/// D_r = 100 sqrt((N1)60/46) [%], by which f is chosen. From memory of Idriss & Boulanger (2008).
double relative_density_pct(double n1_60);

/// f = 1 - 0.005 D_r within 0.6 .. 0.8: our own line through the published values at 40, 60 and 80 %.
double overburden_exponent(double relative_density_pct);

/// K_sigma = (s'/100)^(f-1) <= 1.
double overburden_scaling(double effective_stress_kPa, double exponent);

/// CRR MSF K_sigma/CSR, CSR = 0.65 (a_max/g) (sigma_v/s') r_d; level ground, rod and borehole corrections 1.
/// Intermediates: N60, C_N, N1_60, alpha, beta, N1_60cs, r_d, CSR, CRR_7.5, MSF, D_r_pct, f, K_sigma.
/// \throws std::invalid_argument  a number out of range
SafetyFactor safety(const BlowCountPoint& point, const Earthquake& quake);

} // namespace interpile::solver::youd_2001
