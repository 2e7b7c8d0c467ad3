#pragma once
// What a case says about its pore water: how fast it can flow, how long the work takes, what the plan view leaves out.

#include "io/case_file.h"

#include <string>
#include <vector>

namespace interpile::io {

/// Oedometric modulus of the soil before treatment, K + 4/3 G by its elastic moduli [kPa]: the stiffest it can be.
double elastic_modulus_kPa(const Case& run_case);

/// c_h = k M / gamma_w [m2/s].
double consolidation_coefficient_m2_s(double permeability_m_s, double modulus_kPa);

/// Time for 90 % of the pressure to go by flow in one direction over a distance to a drain, T 0.848 [s].
/// Source: Terzaghi's theory of consolidation, from memory of Taylor (1948).
double time_to_90_percent_s(double distance_m, double consolidation_coefficient_m2_s);

/// A label and its value each; empty for a drained case, durations only with flow in time.
std::vector<std::pair<std::string, std::string>> water_numbers(const Case& run_case);

/// Limits of what is computed, a sentence each; what a horizontal slice cannot know first.
std::vector<std::string> water_remarks(const Case& run_case);

} // namespace interpile::io
