#pragma once
// Vibration of the ground at a distance from the work: weighted level and peak particle velocity.

namespace interpile::solver {

/// A level measured at a distance from a source.
struct LevelAtDistance {
    double level_dB = 0;   ///< vibration: vertical, weighted, re 1e-5 m/s2
    double distance_m = 0; ///< > 0
};

/// Vibration level [dB] at distance r:  L = L0 - 15 log10(r/r0) - 8.68 alpha (r - r0).
/// The same as v = v0 (r0/r)^0.75 exp(-alpha (r - r0)). Nearer than r0 it is an extrapolation.
/// Source: construction vibration manual (Japan, 1994) as quoted on a public page.
/// \param source             L0 at r0
/// \param distance_m         r > 0
/// \param attenuation_per_m  alpha >= 0: 0.01 .. 0.04 in soil (same manual), 0.01 unconsolidated, 0.001 rock-like (road
///                           environmental assessment, Japan)
/// \throws std::invalid_argument  a number out of range
double vibration_level_dB(const LevelAtDistance& source, double distance_m, double attenuation_per_m);

/// Distance [m] at which the vibration level has fallen to a limit; the distance of the source level if it is not above
/// the limit there, that is "within r0". The inverse of vibration_level_dB beyond r0.
/// \throws std::invalid_argument  a number out of range
double vibration_reach_m(const LevelAtDistance& source, double limit_dB, double attenuation_per_m);

/// Share of measured cases above the law.
enum class Exceedance { Half, Third, Twentieth };

/// State of a vibratory driver; passing resonance at start and stop falls off more slowly.
enum class DriverState { Any, Steady, StartStop };

/// Peak particle velocity [mm/s] of vibratory driving:  v = k / x^delta;
/// k 60, 126, 266 for 50, 33, 5 % of cases above; delta 1.3 any, 1.4 steady, 1.2 start and stop.
/// Source: TRL report 429, equations 19-20, as quoted on a public page.
/// \param distance_m  x along the ground, > 0
/// \throws std::invalid_argument  distance out of range
double peak_velocity_mm_s(double distance_m, Exceedance exceedance, DriverState state = DriverState::Any);

} // namespace interpile::solver
