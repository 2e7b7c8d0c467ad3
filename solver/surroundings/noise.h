#pragma once
// Noise at a distance from the work: one source on hard ground, nothing in between.

#include "solver/surroundings/vibration.h"

namespace interpile::solver {

/// Sound power level [dB, weighted as the source] of a source on the ground from its level at a distance:
///   L_w = L_p + 20 log10(r) + 8, r in m.
/// Source: from memory of acoustics textbooks, point source on a reflecting plane (10 log10(2 pi) = 8).
/// \throws std::invalid_argument  a number out of range
double sound_power_dB(const LevelAtDistance& source);

/// Level [dB] at a distance: L_p = L_w - 20 log10(r) - 8; no air absorption, no screens. Source as above.
/// \param distance_m  > 0
/// \throws std::invalid_argument  a number out of range
double noise_level_dB(double sound_power_dB, double distance_m);

/// Distance [m] at which the noise has fallen to a limit; the inverse of noise_level_dB.
/// \throws std::invalid_argument  a number out of range
double noise_reach_m(double sound_power_dB, double limit_dB);

} // namespace interpile::solver
