#pragma once
// Ratio of lateral to vertical effective stress before treatment.

#include "solver/ground_state/relation.h"

namespace interpile::solver {

/// Relations for K0 [-]:
///   practice               0.5
///   jaky-1944              1 - sin phi
///   mayne-kulhawy-1982     (1 - sin phi) OCR^(sin phi)
/// phi by hatanaka-uchida-1996 from the peak angle of the sample, for which the relations were not made: remarked.
std::span<const Relation> lateral_stress_at_rest_relations();

} // namespace interpile::solver
