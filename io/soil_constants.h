#pragma once
// From the values of [soil] to a soil model, the same in cases and in laboratory tests.

#include "io/case_values.h"
#include "solver/soil_parameters.h"

#include <memory>

namespace interpile::io {

/// Constants of the model; without any values if one of them has a fault.
/// \param e_max, e_min  of the ground; not numbers where they have faults
solver::SoilModelChoice read_soil_constants(CaseValues& values, double e_max, double e_min);

/// \return empty after a fault, also one of constants that do not fit together
std::unique_ptr<solver::SoilModel> make_soil(const CaseValues& values, const solver::SoilModelChoice& choice);

} // namespace interpile::io
