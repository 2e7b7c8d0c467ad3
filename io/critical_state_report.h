#pragma once
// The critical state of the soil in words.

#include "solver/soil_parameters.h"

#include <string>

namespace interpile::io {

/// "e_c = 0.934 - 0.019 (p'/p_a)^0.7"; empty for a model without a line of this form.
std::string critical_line_text(const solver::SoilModelChoice& soil);

/// "void ratio 0.915, relative density 16.3 %" at a mean stress; empty for a model without critical state.
std::string critical_state_text(const solver::SoilModelChoice& soil, double mean_stress_kPa);

/// What to say where the line is Toyoura sand's and e_max and e_min are not; else empty.
/// \param mean_stress_kPa  at which the relative density of the line is told
std::string critical_line_remark(const solver::SoilModelChoice& soil, double mean_stress_kPa);

} // namespace interpile::io
