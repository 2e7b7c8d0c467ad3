#pragma once
// Design methods B, C and D: blow count to void ratio, volume of piles to void ratio, and back.
//
// Common: D_r by Meyerhof's form, e = e_max - D_r (e_max - e_min), limits by Hirama unless given.
//   B  e1 = e0 - a_s (1 + e0)
//   C  as B for N1' = N0 + (N1 - N0)/beta, beta = 1.05 - 0.51 log10 Fc, at most 1
//   D  D_r with the term for fines; e1 = e0 - alpha R_c a_s (1 + e0), R_c = 1.05 - 0.46 log10 Fc, at most 1
// Sources: B, C from memory of the trade's void-ratio family; D form read in published application 2000-345553,
// number in R_c from memory with low confidence. All take density alone for the gain of N: see stress_factor.h for
// the rest.

#include "solver/design_methods/design_result.h"
#include "solver/ground_state/void_ratio_limits.h"

#include <optional>

namespace interpile::solver {

struct VoidRatioSettings {
    std::optional<VoidRatioLimits> limits = {}; ///< from grading; empty: Hirama from fines
    double alpha = 1; ///< D only, >= 1: concentration between piles; unknown, 1 is used
};

/// beta of method C [-], in (0, 1]; Fc 0 .. 100 %.
/// \throws std::invalid_argument  fines_pct out of range
double blow_count_reduction(double fines_pct);

/// R_c of method D [-], in (0, 1]; Fc 0 .. 100 %.
/// \throws std::invalid_argument  fines_pct out of range
double effective_compaction_factor(double fines_pct);

/// N after treatment with a replacement ratio.
/// \param replacement_ratio  0 <= a_s < 1
/// \throws std::invalid_argument  method A (needs a chart); a number out of range
DesignResult predict_blow_count(DesignMethod method, const LayerState& layer, double replacement_ratio,
                                const VoidRatioSettings& settings = {});

/// Replacement ratio that a target N needs; 0 with a remark where N0 is already at or above the target.
/// \param target_blow_count  N1 > 0
/// \throws std::invalid_argument  method A (needs a chart); a number out of range
DesignResult require_blow_count(DesignMethod method, const LayerState& layer, double target_blow_count,
                                const VoidRatioSettings& settings = {});

enum class ReachLimit { FullDensity, ReplacementRatio };

/// Largest N that a method can promise, and what ends it.
struct LargestBlowCount {
    DesignResult result;
    ReachLimit limit = ReachLimit::FullDensity;
};

/// The state at D_r 100 % or at the largest replacement ratio, whichever comes first.
/// \param largest_replacement_ratio  0 < a_s < 1
/// \throws std::invalid_argument  method A (its chart ends where it ends); a number out of range
LargestBlowCount largest_blow_count(DesignMethod method, const LayerState& layer,
                                    double largest_replacement_ratio, const VoidRatioSettings& settings = {});

} // namespace interpile::solver
