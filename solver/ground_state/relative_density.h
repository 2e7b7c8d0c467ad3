#pragma once
// Relative density from the blow count.

#include "solver/ground_state/relation.h"

namespace interpile::solver {

/// Blow count at 60 % energy and 1 atmosphere.
struct NormalizedBlowCount {
    double stress_factor = 1; ///< C_N, at most 1.7
    double n1_60 = 0;         ///< (N1)60
};

/// C_N = (p_a/s')^(0.784 - 0.0768 sqrt((N1)60)) <= 1.7, (N1)60 = C_N N60 limited to 46 in the exponent; solved
/// together.
/// Source: from memory of Idriss & Boulanger (2008), Soil liquefaction during earthquakes, EERI MNO-12.
/// \throws std::invalid_argument  N60 < 0 or stress not positive
NormalizedBlowCount normalized_blow_count(double n60, double effective_stress_kPa);

/// Relations for D_r [%], not limited to 100:
///   meyerhof-1957                  21 sqrt(100 N/(s' + 70))
///   method-d                       the same with the term for fines of design method D
///   idriss-boulanger-2008          100 sqrt((N1)60/46)
///   cubrinovski-ishihara-1999      100 sqrt(N78 sqrt(98/s')/C_D), C_D = 9/(e_max - e_min)^1.7, limits measured
///   cubrinovski-ishihara-1999-d50  the same, e_max - e_min from D50
std::span<const Relation> relative_density_relations();

} // namespace interpile::solver
