#include "solver/ground_state/void_ratio_limits.h"

#include "solver/surroundings/number_check.h"

namespace interpile::solver {
namespace {

double range(const VoidRatioLimits& limits) {
    require_positive("e_min", limits.e_min);
    require_finite("e_max", limits.e_max);
    require_positive("e_max - e_min", limits.e_max - limits.e_min);
    return limits.e_max - limits.e_min;
}

} // namespace

VoidRatioLimits hirama_void_ratio_limits(double fines_pct) {
    require_between("fines_pct", fines_pct, 0, 100);
    return {1.0 + 0.02 * fines_pct, 0.6 + 0.008 * fines_pct};
}

double void_ratio(const VoidRatioLimits& limits, double relative_density_pct) {
    require_finite("relative_density_pct", relative_density_pct);
    return limits.e_max - relative_density_pct / 100 * range(limits);
}

double relative_density_pct(const VoidRatioLimits& limits, double void_ratio) {
    require_finite("void_ratio", void_ratio);
    return 100 * (limits.e_max - void_ratio) / range(limits);
}

} // namespace interpile::solver
