#include "solver/site/treatment.h"

#include "solver/design_methods/cell_balance.h"
#include "solver/design_methods/stress_factor.h"
#include "solver/ground_state/meyerhof.h"
#include "solver/liquefaction/lateral_stress_factor.h"
#include "solver/number_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace interpile::solver {

namespace {

void check(const TreatmentAims& aims) {
    require_positive("diameter_m", aims.diameter_m);
    require_between("top_depth_m", aims.top_depth_m, 0, aims.bottom_depth_m);
    require_positive("thickness treated", aims.bottom_depth_m - aims.top_depth_m);
    require_positive("largest_replacement_ratio", aims.largest_replacement_ratio);
    require_between("largest_replacement_ratio", aims.largest_replacement_ratio, 0, 0.7);
    if (aims.target_blow_count.has_value() == aims.target_safety.has_value())
        throw std::invalid_argument("give either a target blow count or a target safety factor");
    if (aims.lateral_stress_effect == LateralStressEffect::Resistance && !aims.target_safety)
        throw std::invalid_argument("the effect of K at the resistance needs a target safety factor");
    if (std::count(aims.methods.begin(), aims.methods.end(), DesignMethod::A) > 0 && !aims.chart)
        throw std::invalid_argument("method A needs a chart");
}

/// One method on one sample, method A by its chart.
class MethodAt {
public:
    MethodAt(DesignMethod method, const BoringDesign& design, std::size_t sample, const TreatmentAims& aims)
        : method_(method), aims_(aims) {
        layer_ = {design.at_boring[sample].effective_kPa, design.boring.samples[sample].fines_pct,
                  design.boring.samples[sample].blow_count};
        settings_.alpha = aims.alpha;
        const SandState& state = design.states[sample];
        const VoidRatioLimits limits = {chosen(state, Quantity::LargestVoidRatio).value,
                                        chosen(state, Quantity::SmallestVoidRatio).value};
        settings_.limits = limits;
        const double increment = method == DesignMethod::D ? fines_increment(layer_.fines_pct) : 0;
        const double density_pct =
            meyerhof_relative_density_pct(layer_.blow_count, layer_.effective_stress_kPa, increment);
        no_void_ratio_ = method != DesignMethod::A && void_ratio(limits, density_pct) <= 0;
    }

    MethodNeed need(double target) const {
        MethodNeed need;
        if (target <= 0) { // any sand has it
            need.result.method = method_;
            need.result.replacement_ratio = 0;
            return need;
        }
        need.result = no_void_ratio_ ? beyond_density(target > layer_.blow_count ? DesignResult::none : 0)
                      : method_ == DesignMethod::A ? require_blow_count(*aims_.chart, layer_, target)
                                                   : require_blow_count(method_, layer_, target, settings_);
        const double ratio = need.result.replacement_ratio;
        need.kind = ratio == 0 ? NeedKind::Reached : NeedKind::Ratio;
        if (ratio != 0 && (!need.result.outside.empty() || ratio > aims_.largest_replacement_ratio)) {
            need.kind = NeedKind::OutOfReach;
            need.largest_blow_count = largest();
            need.limit = need.result.outside.empty()
                             ? fmt::format("replacement ratio above {:g}", aims_.largest_replacement_ratio)
                             : need.result.outside;
        }
        return need;
    }

    DesignResult predict(double ratio) const {
        if (no_void_ratio_)
            return beyond_density(ratio);
        return method_ == DesignMethod::A ? predict_blow_count(*aims_.chart, layer_, ratio)
                                          : predict_blow_count(method_, layer_, ratio, settings_);
    }

    /// Nothing is promised beyond D_r 100 % or outside the chart.
    DesignResult after(double ratio) const {
        if (method_ != DesignMethod::A && !no_void_ratio_)
            return largest_blow_count(method_, layer_, ratio, settings_).result;
        DesignResult result = predict(ratio);
        if (std::isnan(result.blow_count_after))
            result.blow_count_after = layer_.blow_count;
        return result;
    }

private:
    /// A refusal on a stone: no void ratio belongs to this N, and nothing is promised.
    DesignResult beyond_density(double ratio) const {
        DesignResult result;
        result.method = method_;
        result.blow_count_before = layer_.blow_count;
        result.replacement_ratio = ratio;
        result.outside = "relative density above 100 % before treatment";
        return result;
    }

    std::optional<double> largest() const {
        const double n = after(aims_.largest_replacement_ratio).blow_count_after;
        return n > layer_.blow_count ? std::optional(n) : std::nullopt;
    }

    DesignMethod method_;
    const TreatmentAims& aims_;
    LayerState layer_;
    VoidRatioSettings settings_;
    bool no_void_ratio_ = false; ///< N so high that Meyerhof's form leaves no voids
};

/// Target N of density alone; empty with a reason.
std::optional<double> target_at(const BoringDesign& design, std::size_t i, const Earthquake& quake,
                                const TreatmentAims& aims, std::string& no_target) {
    const double at_rest = chosen(design.states[i], Quantity::LateralStressRatio).value;
    std::optional<double> target = aims.target_blow_count;
    if (aims.target_safety) {
        if (!design.before.samples[i].judged) {
            no_target = "above the water table of the earthquake";
            return {};
        }
        const Procedure procedure = aims.target_safety->procedure;
        no_target = missing_for(procedure, quake);
        if (!no_target.empty()) {
            no_target += " is not given";
            return {};
        }
        double factor = aims.target_safety->safety_factor;
        if (aims.lateral_stress_effect == LateralStressEffect::Resistance)
            factor /= resistance_factor(aims.lateral_stress_ratio, at_rest);
        target = required_blow_count(procedure, design.before.samples[i].point, quake, factor);
        if (!target) {
            const auto& refused =
                design.before.samples[i].factors[static_cast<std::size_t>(procedure)].refused;
            no_target = refused.empty() ? "no blow count up to 100 gives the target safety factor" : refused;
            return {};
        }
    }
    if (aims.lateral_stress_effect == LateralStressEffect::BlowCount)
        *target /=
            blow_count_stress_factor(design.at_boring[i].effective_kPa, aims.lateral_stress_ratio, at_rest);
    return target;
}

double overlap_m(const DepthInterval& interval, const TreatmentAims& aims) {
    return std::max(0.0, std::min(interval.bottom_m, aims.bottom_depth_m) -
                             std::max(interval.top_m, aims.top_depth_m));
}

/// How much a need weighs against the others of its method: out of reach first, by what is lacking.
double weight(const SampleNeed& sample, const MethodNeed& need) {
    if (need.kind == NeedKind::Reached)
        return 0;
    if (need.kind == NeedKind::Ratio)
        return need.result.replacement_ratio; // below 1
    return 1 + *sample.target_blow_count - need.largest_blow_count.value_or(0);
}

class SpacingOf {
public:
    SpacingOf(const BoringDesign& design, const Earthquake& quake, const TreatmentAims& aims,
              std::size_t method)
        : design_(design), quake_(quake), aims_(aims), method_(method) {}

    MethodSpacing spacing() {
        MethodSpacing spacing;
        spacing.method = aims_.methods[method_];
        govern(spacing);
        constexpr double none = std::numeric_limits<double>::quiet_NaN();
        spacing.spacing_m = spacing.practical_spacing_m = none;
        if (spacing.governing) {
            spacing.spacing_m = spacing_m(aims_.shape, spacing.replacement_ratio, aims_.diameter_m);
            spacing.practical_spacing_m = practical_spacing_m(spacing.spacing_m, aims_.spacing_step_m);
            spacing.practical_ratio =
                replacement_ratio(aims_.shape, spacing.practical_spacing_m, aims_.diameter_m);
        }
        predict(spacing);
        return spacing;
    }

private:
    void govern(MethodSpacing& spacing) const {
        double most = 0;
        for (std::size_t i = 0; i < design_.needs.size(); ++i) {
            const SampleNeed& sample = design_.needs[i];
            if (sample.methods.empty())
                continue;
            const MethodNeed& need = sample.methods[method_];
            if (weight(sample, need) <= most)
                continue;
            most = weight(sample, need);
            spacing.governing = i;
            spacing.out_of_reach = need.kind == NeedKind::OutOfReach;
            spacing.replacement_ratio =
                spacing.out_of_reach ? aims_.largest_replacement_ratio : need.result.replacement_ratio;
        }
    }

    void predict(MethodSpacing& spacing) const {
        const double ratio = spacing.practical_ratio;
        const bool by_efficiency = spacing.method == DesignMethod::D;
        if (!by_efficiency)
            spacing.heave_by_efficiency_m = std::numeric_limits<double>::quiet_NaN();
        Boring after = design_.boring;
        for (std::size_t i = 0; i < after.samples.size(); ++i) {
            const double thickness = overlap_m(design_.intervals[i], aims_);
            BoringSample& sample = after.samples[i];
            if (ratio > 0 && thickness > 0) {
                const DesignResult result =
                    sample.sand ? MethodAt(spacing.method, design_, i, aims_).after(ratio) : DesignResult{};
                const bool stays = std::isnan(result.void_ratio_before); // then any void ratio does
                spacing.heave_m += thickness * heave_strain({stays ? 1 : result.void_ratio_before,
                                                             stays ? 1 : result.void_ratio_after, ratio, 0});
                if (by_efficiency && sample.sand)
                    spacing.heave_by_efficiency_m +=
                        heave_by_efficiency_m(thickness, ratio, aims_.alpha * result.fines_factor);
                if (design_.needs[i].treated)
                    sample.blow_count = std::max(sample.blow_count, result.blow_count_after);
            }
            spacing.blow_counts_after.push_back(sample.blow_count);
        }
        if (spacing.method == DesignMethod::A && ratio > 0)
            spacing.heave_m = std::numeric_limits<double>::quiet_NaN(); // a chart knows no void ratio
        spacing.after = boring_safety(after, quake_);
    }

    const BoringDesign& design_;
    const Earthquake& quake_;
    const TreatmentAims& aims_;
    std::size_t method_;
};

} // namespace

bool has_target(const BoringDesign& design) {
    return std::any_of(design.needs.begin(), design.needs.end(),
                       [](const SampleNeed& need) { return need.target_blow_count.has_value(); });
}

char letter_of(DesignMethod method) {
    return static_cast<char>('A' + static_cast<int>(method));
}

DesignResult predict_at(const BoringDesign& design, std::size_t sample, DesignMethod method,
                        const TreatmentAims& aims, double replacement_ratio) {
    if (sample >= design.states.size() || design.states[sample].empty())
        throw std::invalid_argument("there is no state of sand at this sample");
    if (method == DesignMethod::A && !aims.chart)
        throw std::invalid_argument("method A needs a chart");
    return MethodAt(method, design, sample, aims).predict(replacement_ratio);
}

BoringDesign design_boring(const Boring& boring, const Earthquake& quake, const TreatmentAims& aims,
                           const RelationChoice& choice) {
    check(aims);
    BoringDesign design;
    design.boring = boring;
    design.intervals = sample_intervals(boring);
    design.at_boring = vertical_stresses(boring, boring.water_depth_m);
    design.in_quake = vertical_stresses(boring, boring.quake_water_depth_m);
    design.before = boring_safety(boring, quake);
    bool any = false;
    for (std::size_t i = 0; i < boring.samples.size(); ++i) {
        const BoringSample& sample = boring.samples[i];
        design.states.push_back(sample.sand ? sand_state(sample, boring.energy_ratio_pct,
                                                         design.at_boring[i].effective_kPa, choice)
                                            : SandState{});
        SampleNeed need;
        need.treated =
            sample.sand && sample.depth_m >= aims.top_depth_m && sample.depth_m <= aims.bottom_depth_m;
        any = any || need.treated;
        if (need.treated)
            need.target_blow_count = target_at(design, i, quake, aims, need.no_target);
        if (need.target_blow_count)
            for (const DesignMethod method : aims.methods)
                need.methods.push_back(MethodAt(method, design, i, aims).need(*need.target_blow_count));
        design.needs.push_back(std::move(need));
    }
    if (!any)
        throw std::invalid_argument("boring " + boring.name + " has no sand in the depth to be treated");
    for (std::size_t m = 0; m < aims.methods.size(); ++m)
        design.methods.push_back(SpacingOf(design, quake, aims, m).spacing());
    return design;
}

} // namespace interpile::solver
