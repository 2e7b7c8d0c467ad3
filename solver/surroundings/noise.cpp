#include "solver/surroundings/noise.h"

#include "solver/number_check.h"

#include <cmath>

namespace interpile::solver {
namespace {

constexpr double half_space_dB = 8; // 10 log10(2 pi) = 7.98, rounded as in practice

} // namespace

double sound_power_dB(const LevelAtDistance& source) {
    require_finite("level_dB", source.level_dB);
    require_positive("distance_m", source.distance_m);
    return source.level_dB + 20 * std::log10(source.distance_m) + half_space_dB;
}

double noise_level_dB(double sound_power_dB, double distance_m) {
    require_finite("sound_power_dB", sound_power_dB);
    require_positive("distance_m", distance_m);
    return sound_power_dB - 20 * std::log10(distance_m) - half_space_dB;
}

double noise_reach_m(double sound_power_dB, double limit_dB) {
    require_finite("sound_power_dB", sound_power_dB);
    require_finite("limit_dB", limit_dB);
    return std::pow(10, (sound_power_dB - half_space_dB - limit_dB) / 20);
}

} // namespace interpile::solver
