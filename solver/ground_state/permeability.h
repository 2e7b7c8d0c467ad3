#pragma once
// Permeability of sand from its grading.

#include "solver/ground_state/relation.h"

namespace interpile::solver {

/// k [m/s] of a grain size by Creager's table, straight in log k over log D20; beyond 0.01 .. 1.0 mm by its last
/// pair.
/// Source: from memory of Creager, Justin & Hinds (1945).
/// \throws std::invalid_argument  d20_mm not positive
double creager_permeability_m_s(double d20_mm);

/// Relations for k [m/s] at 20 C:
///   creager-1945     table by D20
///   hazen-1911       0.01 D10^2, D10 in mm 0.1 .. 3
///   kozeny-carman    199 e^3/((1 + e) S^2), S = 6/D_eff [1/cm], D10 taken as D_eff, round grains, no fines
///   chapuis-2004     0.024622 (D10^2 e^3/(1 + e))^0.7825, D10 in mm 0.13 .. 1.98, e 0.3 .. 1
///   grading-guess    creager-1945 with D20 read off a straight line in log size between the fines and D50; a
///                    guess of our own, and D50 itself guessed as 0.2 mm where it is not known: the remark says so
std::span<const Relation> permeability_relations();

} // namespace interpile::solver
