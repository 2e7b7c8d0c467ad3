#pragma once
// Loosest and densest void ratio of a sand, and the void ratio between them.

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

} // namespace interpile::solver
