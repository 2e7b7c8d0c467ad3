#pragma once
// Stiffness of sand from the blow count, or from void ratio and mean stress.

#include "solver/ground_state/relation.h"

namespace interpile::solver {

/// Relations for the small-strain shear modulus G0 [kPa]; F(e) = (a - e)^2/(1 + e), p mean effective stress [kPa]:
///   highway-bridges             rho Vs^2, Vs = 80 N^(1/3) m/s, N <= 50
///   imai-tonouchi-1982          rho Vs^2, Vs = 97 N^0.314 m/s
///   hardin-richart-1963-round   6906 F p^0.5, a 2.17, e < 0.80
///   hardin-richart-1963-angular 3230 F p^0.5, a 2.97
///   kokusho-1980                8400 F p^0.5, a 2.17, strain 1e-6
///   iwasaki-tatsuoka-1977       900 F p^0.38 in kgf/cm2, a 2.17, strain 1e-5
///   hardin-1978                 625 p_a (p/p_a)^0.5/(0.3 + 0.7 e^2)
/// The last five take the void ratio of N where none is measured, with a remark.
std::span<const Relation> small_strain_modulus_relations();

/// Relations for the drained Young's modulus E [kPa] at working strain:
///   highway-bridges             2800 N
///   building-fresh              1400 N, normally consolidated
///   building-overconsolidated   2800 N
std::span<const Relation> young_modulus_relations();

} // namespace interpile::solver
