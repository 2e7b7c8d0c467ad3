#pragma once
// The blow count and relative density of Meyerhof (1957), with the term for fines that design method D adds.

namespace interpile::solver {

/// D_r = 21 sqrt(100 N/(s' + 70) + dN_f/1.7) [%]; N as measured, not limited to 100 %.
/// Source: from memory of Meyerhof (1957), metric form; the term with dN_f from memory of the trade, medium
/// confidence.
/// \param blow_count            N >= 0
/// \param effective_stress_kPa  s', vertical, >= 0
/// \param fines_increment       dN_f >= 0; 0 gives Meyerhof's form
/// \throws std::invalid_argument  a number out of range
double meyerhof_relative_density_pct(double blow_count, double effective_stress_kPa,
                                     double fines_increment = 0);

/// N of a relative density, the inverse of the above; negative where the term for fines alone gives more than D_r.
/// \throws std::invalid_argument  D_r < 0, or a number out of range
double meyerhof_blow_count(double relative_density_pct, double effective_stress_kPa,
                           double fines_increment = 0);

/// dN_f [blows]: 0 to Fc 5 %, 0.1 Fc + 4 from Fc 10 %, linear between.
/// Source: from memory of Tokimatsu & Yoshimi (1983), Soils and Foundations 23(4).
/// \throws std::invalid_argument  fines_pct outside 0 .. 100
double fines_increment(double fines_pct);

} // namespace interpile::solver
