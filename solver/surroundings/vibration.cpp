#include "solver/surroundings/vibration.h"

#include "solver/number_check.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace interpile::solver {
namespace {

constexpr double spreading_dB = 15;   // per tenfold distance: 20 n with n = 0.75
constexpr double dB_per_neper = 8.68; // 20 log10(e), rounded as in the source

void check(const LevelAtDistance& source, double attenuation_per_m) {
    require_finite("level_dB", source.level_dB);
    require_positive("source distance_m", source.distance_m);
    require_between("attenuation_per_m", attenuation_per_m, 0, std::numeric_limits<double>::max());
}

double velocity_factor(Exceedance exceedance) {
    switch (exceedance) {
    case Exceedance::Half:
        return 60;
    case Exceedance::Third:
        return 126;
    case Exceedance::Twentieth:
        break;
    }
    return 266;
}

double velocity_exponent(DriverState state) {
    switch (state) {
    case DriverState::Steady:
        return 1.4;
    case DriverState::StartStop:
        return 1.2;
    case DriverState::Any:
        break;
    }
    return 1.3;
}

} // namespace

double vibration_level_dB(const LevelAtDistance& source, double distance_m, double attenuation_per_m) {
    check(source, attenuation_per_m);
    require_positive("distance_m", distance_m);
    return source.level_dB - spreading_dB * std::log10(distance_m / source.distance_m) -
           dB_per_neper * attenuation_per_m * (distance_m - source.distance_m);
}

double vibration_reach_m(const LevelAtDistance& source, double limit_dB, double attenuation_per_m) {
    check(source, attenuation_per_m);
    require_finite("limit_dB", limit_dB);
    double r = source.distance_m;
    // The loss of level is increasing and concave in r, so Newton steps from r0 rise to the root without passing it.
    while (true) {
        const double excess_dB = vibration_level_dB(source, r, attenuation_per_m) - limit_dB;
        const double slope_dB_per_m =
            spreading_dB / (std::numbers::ln10 * r) + dB_per_neper * attenuation_per_m;
        const double step_m = excess_dB / slope_dB_per_m;
        if (!(step_m > 1e-12 * r))
            return r;
        r += step_m;
    }
}

double peak_velocity_mm_s(double distance_m, Exceedance exceedance, DriverState state) {
    require_positive("distance_m", distance_m);
    return velocity_factor(exceedance) / std::pow(distance_m, velocity_exponent(state));
}

} // namespace interpile::solver
