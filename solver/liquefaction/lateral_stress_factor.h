#pragma once
// Effect of lateral stress on cyclic resistance and on the blow count. K = s_h'/s_v' now, K0 before treatment.
//
// Do not count K twice: an N measured after treatment holds part of it already. Common practice then takes
// the factor as 1, which is safe; the strict form is `net_resistance_factor`. An N predicted from density
// alone holds none of it.

#include "solver/liquefaction/boulanger_idriss_2014.h"
#include "solver/number_check.h"

#include <cmath>
#include <limits>

namespace interpile::solver {

/// CRR at K over CRR at K0 = (1 + 2K)/(1 + 2K0), CRR as tau/s_v', overconsolidation not counted.
/// Source: from memory of Ishihara & Takatsu (1979), Soils and Foundations 19(4), (1 + 2K)/3 over isotropic
/// stress.
/// \throws std::invalid_argument  K or K0 negative
inline double resistance_factor(double lateral_ratio, double lateral_ratio_at_rest) {
    constexpr double any = std::numeric_limits<double>::max();
    require_between("lateral_ratio", lateral_ratio, 0, any);
    require_between("lateral_ratio_at_rest", lateral_ratio_at_rest, 0, any);
    return (1 + 2 * lateral_ratio) / (1 + 2 * lateral_ratio_at_rest);
}

/// N1 at K0 over N1 at K, same density: sqrt((1 + 2K0)/(1 + 2K)), N taken as the root of the mean stress.
/// Our own derivation, not checked against field data.
/// \throws std::invalid_argument  K or K0 negative
inline double blow_count_factor(double lateral_ratio, double lateral_ratio_at_rest) {
    return 1 / std::sqrt(resistance_factor(lateral_ratio, lateral_ratio_at_rest));
}

/// Gain left for an N measured at K: N1 brought to K0, its CRR by Boulanger & Idriss (2014), times
/// `resistance_factor`. Our own derivation, not checked against field data. The curve of Youd et al. (2001)
/// would give less: 1.25 in place of 1.29 at N1 15, K 1, K0 0.5.
/// \param clean_sand_blow_count  (N1)60cs as measured at K, >= 0
/// \throws std::invalid_argument  a number out of range
inline double net_resistance_factor(double clean_sand_blow_count, double lateral_ratio,
                                    double lateral_ratio_at_rest) {
    require_between("clean_sand_blow_count", clean_sand_blow_count, 0, std::numeric_limits<double>::max());
    const double at_rest = clean_sand_blow_count * blow_count_factor(lateral_ratio, lateral_ratio_at_rest);
    return resistance_factor(lateral_ratio, lateral_ratio_at_rest) *
           boulanger_idriss_2014::resistance_ratio(at_rest) /
           boulanger_idriss_2014::resistance_ratio(clean_sand_blow_count);
}

} // namespace interpile::solver
