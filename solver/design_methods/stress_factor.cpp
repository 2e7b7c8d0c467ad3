#include "solver/design_methods/stress_factor.h"

#include "solver/number_check.h"

#include <limits>

namespace interpile::solver {

double blow_count_stress_factor(double effective_stress_kPa, double lateral_ratio_after,
                                double lateral_ratio_before) {
    constexpr double any = std::numeric_limits<double>::max();
    constexpr double offset_kPa = 70; // of Meyerhof's form
    require_between("effective_stress_kPa", effective_stress_kPa, 0, any);
    require_between("lateral_ratio_after", lateral_ratio_after, 0, any);
    require_between("lateral_ratio_before", lateral_ratio_before, 0, any);
    const double mean_ratio = (1 + 2 * lateral_ratio_after) / (1 + 2 * lateral_ratio_before);
    return (effective_stress_kPa * mean_ratio + offset_kPa) / (effective_stress_kPa + offset_kPa);
}

} // namespace interpile::solver
