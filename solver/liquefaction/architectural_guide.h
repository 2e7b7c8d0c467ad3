#pragma once
// Procedure of the Japanese recommendations for design of building foundations (Architectural Institute of
// Japan, 2001), after Tokimatsu & Yoshimi (1983), Soils and Foundations 23(4). All formulas from memory of them.

#include "solver/liquefaction/safety_factor.h"

namespace interpile::solver::architectural_guide {

/// Delta N_f: 0 to F_c 5 %, 6 at 10, 8 at 20, 11 from 50 %, linear between.
double fines_increment(double fines_pct);

/// R = 0.45 x 0.57 (16 sqrt(N_a)/100 + (16 sqrt(N_a)/C_s)^14).
/// \param strain_constant  C_s, 80 .. 90; 80 the larger resistance
double resistance_ratio(double adjusted_blow_count, double strain_constant = 80);

/// R/L with N_a = N sqrt(98/s') + Delta N_f, N as measured, C_s 80;
/// L = 0.1 (M-1) (a_max/g) (sigma_v/s') (1 - 0.015 z).
/// Intermediates: C_N, delta_N_f, N_a, R, r_n, r_d, L.
/// \throws std::invalid_argument  a number out of range
SafetyFactor safety(const BlowCountPoint& point, const Earthquake& quake);

} // namespace interpile::solver::architectural_guide
