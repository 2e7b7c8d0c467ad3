#pragma once
// A pile as built against what was ordered.

#include "solver/works/as_built.h"

#include <string>
#include <vector>

namespace interpile::solver {

/// Allowed deviations; project rules go first.
struct AsBuiltLimits {
    double position_m = 0.10;        ///< >= 0; from memory of an owner's as-built standard
    double verticality = 0.01;       ///< >= 0, slope 1/100; common practice, no source (1.5/100 also in use)
    double length_shortfall_m = 0;   ///< >= 0, at either end; from memory of an owner's as-built standard
    double least_volume_ratio = 1.0; ///< >= 0, per meter, over the ordered volume; common practice, no source
};

enum class AsBuiltCheck { Position, Verticality, ShortAtBottom, ShortAtTop, SandVolume };

/// "sand volume over ordered volume [-]" and the like.
const char* description(AsBuiltCheck check);

/// One limit not kept.
struct AsBuiltFinding {
    std::string pile;
    double from_depth_m = 0; ///< depth range it concerns; one depth for the largest tilt
    double to_depth_m = 0;
    AsBuiltCheck what = AsBuiltCheck::SandVolume;
    double value = 0; ///< in the unit of description()
    double limit = 0;
};

struct AsBuiltAssessment {
    std::vector<AsBuiltFinding> findings;   ///< of the whole pile first, then from top to bottom
    std::vector<AsBuiltCheck> not_recorded; ///< left open: neither kept nor broken
};

/// \param pile    by as_built_pile with the same design
/// \throws std::invalid_argument  a limit negative or not finite; a design that does not fit the slices
AsBuiltAssessment assess(const AsBuiltPile& pile, const PileDesign& design, const AsBuiltLimits& limits = {});

/// The position alone, for a pile that was surveyed but not recorded: no finding, or one.
/// \throws std::invalid_argument  as assess; a deviation negative or not finite
std::vector<AsBuiltFinding> assess_position(const std::string& pile, double deviation_m,
                                            const PileDesign& design, const AsBuiltLimits& limits = {});

/// How far a finding is beyond its limit, as a rank among findings of different kinds [-] (own choice): sand, the missing
/// share of a meter; length, missing meters over one meter, so that a meter without pile weighs as one without sand;
/// position, and the drift of a tilted pile over its ordered length, over the diameter.
double severity(const AsBuiltFinding& finding, const PileDesign& design);

} // namespace interpile::solver
