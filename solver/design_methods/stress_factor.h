#pragma once
// Effect of lateral stress on the blow count at unchanged density.

namespace interpile::solver {

/// f = (s' (1 + 2K)/(1 + 2K0) + 70)/(s' + 70) [-]: N at K over N at K0, the stress of Meyerhof's form taken as the
/// mean stress. Our own derivation, not checked against field data. A check of liquefaction by N already holds this
/// gain: do not count K twice.
/// \param effective_stress_kPa  s', vertical, >= 0
/// \param lateral_ratio_after   K = s_h'/s_v' after treatment, >= 0
/// \param lateral_ratio_before  K0, >= 0
/// \throws std::invalid_argument  a number out of range
double blow_count_stress_factor(double effective_stress_kPa, double lateral_ratio_after,
                                double lateral_ratio_before = 0.5);

} // namespace interpile::solver
