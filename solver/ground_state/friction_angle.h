#pragma once
// Peak friction angle from the blow count.

#include "solver/ground_state/relation.h"

namespace interpile::solver {

/// Relations for phi [deg]:
///   hatanaka-uchida-1996   sqrt(20 N1) + 20, N1 = N sqrt(98/s'), for N1 3.5 .. 20, then 40; +-3 deg
///   highway-bridges        4.8 ln N1 + 21, N1 = 170 N/(s' + 70), N > 5
///   highway-bridges-older  sqrt(15 N) + 15, at most 45, N > 5
///   osaki                  sqrt(20 N) + 15
std::span<const Relation> friction_angle_relations();

} // namespace interpile::solver
