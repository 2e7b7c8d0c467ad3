#pragma once
// What the simple design methods ask for at every sample of a boring: target blow count, replacement ratio, spacing.

#include "solver/design_methods/blow_count_chart.h"
#include "solver/design_methods/spacing.h"
#include "solver/design_methods/void_ratio_methods.h"
#include "solver/site/liquefaction_need.h"
#include "solver/site/sand_state.h"

#include <string>

namespace interpile::solver {

/// A target F_L is turned into a blow count by one procedure.
struct SafetyTarget {
    double safety_factor = 1;
    Procedure procedure = Procedure::BoulangerIdriss2014;
};

/// Where the lateral stress K after treatment is counted beside the density. One place only: counted at the blow count
/// and at the resistance it would be counted twice.
enum class LateralStressEffect {
    None,
    BlowCount, ///< the target N is divided by blow_count_stress_factor: N is measured under K
    Resistance ///< the target F_L is divided by resistance_factor: N of density alone, resistance under K
};

struct TreatmentAims {
    CellShape shape;
    double diameter_m = 0.7;                    ///< of the pile, > 0
    double top_depth_m = 0, bottom_depth_m = 0; ///< treated; 0 <= top < bottom
    double largest_replacement_ratio = 0.30;    ///< 0 .. 1; common practice, no source
    double spacing_step_m = 0.05;               ///< spacing is rounded down to it
    std::vector<DesignMethod> methods = {DesignMethod::B, DesignMethod::C, DesignMethod::D};
    std::optional<BlowCountChart> chart = {};     ///< needed by method A
    double alpha = 1;                             ///< of method D
    std::optional<double> target_blow_count = {}; ///< N between piles; this or a safety factor
    std::optional<SafetyTarget> target_safety = {};
    LateralStressEffect lateral_stress_effect = LateralStressEffect::None;
    double lateral_stress_ratio = 0.5; ///< K after treatment, where it is counted
};

enum class NeedKind {
    Reached,    ///< the target holds before treatment
    Ratio,      ///< a replacement ratio reaches it
    OutOfReach, ///< no replacement ratio within the limits does, or the method does not hold
};

/// What one method asks for at one sample.
struct MethodNeed {
    NeedKind kind = NeedKind::Reached;
    DesignResult result;                      ///< as asked, also beyond the limits
    std::optional<double> largest_blow_count; ///< OutOfReach: the largest N the method promises here
    std::string limit;                        ///< OutOfReach: which limit ends it
};

/// One sample: sand in the treated depth with a target has needs, one per method of the aims.
struct SampleNeed {
    bool treated = false;                    ///< sand in the treated depth
    std::optional<double> target_blow_count; ///< N asked for between the piles, of density alone
    std::string no_target;                   ///< why there is none, of a treated sample
    std::vector<MethodNeed> methods;
};

/// What one method asks for over the whole boring.
struct MethodSpacing {
    DesignMethod method = DesignMethod::B;
    std::optional<std::size_t> governing; ///< sample that asks for the most; none: nothing is asked for
    bool out_of_reach = false;            ///< the governing sample cannot be brought to the target
    double replacement_ratio = 0;         ///< a_s asked for; the largest allowed where out of reach
    double spacing_m = 0;                 ///< NaN if nothing is asked for
    double practical_spacing_m = 0;       ///< rounded down; NaN if nothing is asked for
    double practical_ratio = 0;           ///< a_s of it
    /// By sample; of samples that are not treated N is unchanged. Held at D_r 100 % and, outside a chart, at N before.
    std::vector<double> blow_counts_after;
    BoringSafety after; ///< with these blow counts
    /// Mean over the plan by the mass identity, upward, of all sand and clay in the treated depth; clay, and sand whose
    /// N leaves no voids, keep their volume.
    double heave_m = 0;
    double heave_by_efficiency_m = 0; ///< of method D by the trade's form; NaN of other methods
};

struct BoringDesign {
    Boring boring;
    std::vector<DepthInterval> intervals;
    std::vector<VerticalStress> at_boring, in_quake;
    std::vector<SandState> states; ///< by sample; empty of clay and silt
    BoringSafety before;
    std::vector<SampleNeed> needs;
    std::vector<MethodSpacing> methods; ///< in the order of the aims
};

/// \throws std::invalid_argument  both targets or neither; method A without a chart; the effect of K at the resistance
/// without a target F_L; no treated sand; a step of the spacing that does not fit into the spacing or makes piles overlap;
/// a number out of range
BoringDesign design_boring(const Boring& boring, const Earthquake& quake, const TreatmentAims& aims,
                           const RelationChoice& choice = {});

/// Some sample has a target. Where none has, a method that asks for nothing says nothing of the ground.
bool has_target(const BoringDesign& design);

/// What a method predicts at one sample for a replacement ratio, not held at any limit: `outside` says where it does not
/// hold.
/// \throws std::invalid_argument  a sample without a state (clay, silt); a ratio outside 0 .. 1; method A without a chart
DesignResult predict_at(const BoringDesign& design, std::size_t sample, DesignMethod method,
                        const TreatmentAims& aims, double replacement_ratio);

/// 'A' .. 'D'
char letter_of(DesignMethod method);

} // namespace interpile::solver
