#pragma once
// Simulated blow counts of a study against those of the simple methods. Both begin with the same density; the simulation
// has its own constants, so a deviation says nothing about which of them is right.

#include "io/study_table.h"

#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

/// What the simulated N is taken of: the mean between the piles, with its lateral stress, or a place.
enum class SimulatedCount { Density, DensityAndStress, Weakest, Centroid, MidSpan };

/// "density", "density and lateral stress", "least density", ...
std::string_view in_words(SimulatedCount kind);

struct ValueRange {
    double low = MemberResult::unknown, high = MemberResult::unknown;
    bool contains(double value) const { return value >= low && value <= high; }
};

/// Simulated over predicted N of one method, of all members or of a part of them.
struct MethodDeviation {
    std::string method; ///< "A" .. "D"
    SimulatedCount simulated = SimulatedCount::Density;
    /// "all"; "relative_density_before_pct", in classes; the key of a factor of two to twelve values; or
    /// "validation.fines_pct": all members, the methods with other fines.
    std::string parted_by;
    std::string part;                                  ///< "30 .. 40", the value of the factor; empty of all
    int members = 0;                                   ///< with both N
    double bias = MemberResult::unknown;               ///< mean of the ratio
    double standard_deviation = MemberResult::unknown; ///< of the ratio; of two members or more
    int agreeing = 0;                                  ///< within ComparisonPlan::agreement_pct
    ValueRange replacement_ratio, density_before_pct, depth_m; ///< spanned by those that agree
    int in_range = 0; ///< members within all three ranges: more than `agreeing` where some in between deviate
};

/// Does the gain of N fall with N before? Of pairs of members that differ in nothing but the density before, next to each
/// other in it.
struct GainTrend {
    std::string subject; ///< "simulation, density", "method B"
    int pairs = 0, falling = 0, rising = 0;
};

struct StudyComparison {
    std::vector<MethodDeviation> deviations;
    std::vector<GainTrend> trends;
};

/// Classes are 10 points of D_r wide (own choice); empty ones are left out, as is method A without chart. Parts are taken
/// of the mean and the mean with stress alone.
StudyComparison compare_blow_counts(const StudyFile& study, const std::vector<StudyRow>& rows);

} // namespace interpile::io
