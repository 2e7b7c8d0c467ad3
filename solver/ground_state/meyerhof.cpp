#include "solver/ground_state/meyerhof.h"

#include "solver/number_check.h"

#include <cmath>
#include <limits>

namespace interpile::solver {
namespace {

constexpr double factor_pct = 21;
constexpr double stress_offset_kPa = 70;
constexpr double increment_divisor = 1.7;
constexpr double any = std::numeric_limits<double>::max();

void check(double effective_stress_kPa, double fines_increment) {
    require_between("effective_stress_kPa", effective_stress_kPa, 0, any);
    require_between("fines_increment", fines_increment, 0, any);
}

} // namespace

double meyerhof_relative_density_pct(double blow_count, double effective_stress_kPa, double fines_increment) {
    require_between("blow_count", blow_count, 0, any);
    check(effective_stress_kPa, fines_increment);
    return factor_pct * std::sqrt(100 * blow_count / (effective_stress_kPa + stress_offset_kPa) +
                                  fines_increment / increment_divisor);
}

double meyerhof_blow_count(double relative_density_pct, double effective_stress_kPa, double fines_increment) {
    require_between("relative_density_pct", relative_density_pct, 0, any);
    check(effective_stress_kPa, fines_increment);
    const double ratio = relative_density_pct / factor_pct;
    return (ratio * ratio - fines_increment / increment_divisor) *
           (effective_stress_kPa + stress_offset_kPa) / 100;
}

double fines_increment(double fines_pct) {
    require_between("fines_pct", fines_pct, 0, 100);
    if (fines_pct <= 5)
        return 0;
    if (fines_pct >= 10)
        return 0.1 * fines_pct + 4;
    return fines_pct - 5; // from 0 at 5 % to 5 at 10 %
}

} // namespace interpile::solver
