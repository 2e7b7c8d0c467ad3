#pragma once
// Loosest and densest void ratio of a sand, and the void ratio between them.

#include "solver/ground_state/relation.h"

namespace interpile::solver {

/// Void ratios by the standard minimum and maximum density tests [-]; 0 < e_min < e_max.
struct VoidRatioLimits {
    double e_max = 0;
    double e_min = 0;
};

/// e_max = 1.0 + 0.02 Fc, e_min = 0.6 + 0.008 Fc; for Fc below about 40 %, silently continued above.
/// Source: from memory of Hirama (1981).
/// \throws std::invalid_argument  fines_pct outside 0 .. 100
VoidRatioLimits hirama_void_ratio_limits(double fines_pct);

/// e = e_max - D_r (e_max - e_min) [-], not limited to e_min .. e_max.
/// \throws std::invalid_argument  limits not 0 < e_min < e_max; a number that is not finite
double void_ratio(const VoidRatioLimits& limits, double relative_density_pct);

/// D_r [%] of a void ratio, the inverse of the above, not limited to 0 .. 100.
/// \throws std::invalid_argument  as above
double relative_density_pct(const VoidRatioLimits& limits, double void_ratio);

/// e_max - e_min = 0.23 + 0.06/D50 [-], D50 above 0.1 mm.
/// Source: from memory of Cubrinovski & Ishihara (1999), Soils and Foundations 39(5).
/// \throws std::invalid_argument  d50_mm not positive
double void_ratio_range_by_d50(double d50_mm);

/// Limits and the void ratio of a sample, with a remark on each of them that is not measured: limits by Hirama,
/// void ratio by the relative density of Meyerhof's form.
VoidRatioLimits assumed_limits(const SandSample& sample, Remarks& remarks);
double assumed_void_ratio(const SandSample& sample, Remarks& remarks);

/// Relations for e_max: measured, hirama-1981, cubrinovski-ishihara-2002 (from a measured e_min).
std::span<const Relation> e_max_relations();

/// Relations for e_min: measured, hirama-1981.
std::span<const Relation> e_min_relations();

/// Relations for e_max - e_min: measured, hirama-1981, cubrinovski-ishihara-d50, cubrinovski-ishihara-fines.
std::span<const Relation> void_ratio_range_relations();

} // namespace interpile::solver
