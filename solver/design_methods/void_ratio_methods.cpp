#include "solver/design_methods/void_ratio_methods.h"

#include "solver/design_methods/cell_balance.h"
#include "solver/design_methods/remarks.h"
#include "solver/ground_state/meyerhof.h"
#include "solver/number_check.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace interpile::solver {
namespace {

/// Rounding of D_r through N and e: full density asked for must not count as beyond it.
constexpr double full_density_pct = 100 * (1 + 1e-9);

/// One method on one layer: the relations that the ways forward and back share.
class Relations {
public:
    Relations(DesignMethod method, const LayerState& layer, const VoidRatioSettings& settings)
        : layer_(layer), limits_(settings.limits.value_or(hirama_void_ratio_limits(layer.fines_pct))) {
        require_between("alpha", settings.alpha, 1, std::numeric_limits<double>::max());
        if (method == DesignMethod::A)
            throw std::invalid_argument("method A needs a chart of blow counts");
        start_.method = method;
        start_.blow_count_before = layer.blow_count;
        if (method == DesignMethod::C)
            start_.fines_factor = beta_ = blow_count_reduction(layer.fines_pct);
        if (method == DesignMethod::D) {
            increment_ = fines_increment(layer.fines_pct);
            start_.fines_factor = effective_compaction_factor(layer.fines_pct);
            efficiency_ = settings.alpha * start_.fines_factor;
        }
        start_.relative_density_before_pct = density_pct(layer.blow_count);
        start_.void_ratio_before = void_ratio(limits_, start_.relative_density_before_pct);
        require_positive("void ratio before treatment", start_.void_ratio_before);
        start_.remarks = fines_remarks(method, layer.fines_pct, !settings.limits);
        if (efficiency_ > 1)
            start_.remarks.push_back(
                "alpha R_c above 1: more density than volume brought in, on the mean a subsidence");
    }

    DesignResult at_ratio(double ratio) const {
        require_between("replacement_ratio", ratio, 0, 1);
        require_positive("1 - replacement_ratio", 1 - ratio);
        DesignResult result = start_;
        result.replacement_ratio = ratio;
        result.void_ratio_after = void_ratio_after(start_.void_ratio_before, ratio, efficiency_);
        result.relative_density_after_pct = relative_density_pct(limits_, result.void_ratio_after);
        const double clean =
            meyerhof_blow_count(result.relative_density_after_pct, layer_.effective_stress_kPa, increment_);
        result.clean_blow_count_after = clean;
        result.blow_count_after = layer_.blow_count + beta_ * (clean - layer_.blow_count);
        return judged(result);
    }

    DesignResult at_blow_count(double target) const {
        require_positive("target_blow_count", target);
        if (target <= layer_.blow_count) {
            DesignResult result = at_ratio(0);
            result.remarks.push_back("the target is reached before treatment");
            return result;
        }
        DesignResult result = start_;
        result.blow_count_after = target;
        result.clean_blow_count_after = layer_.blow_count + (target - layer_.blow_count) / beta_;
        result.relative_density_after_pct = density_pct(result.clean_blow_count_after);
        result.void_ratio_after = void_ratio(limits_, result.relative_density_after_pct);
        result.replacement_ratio = ratio_to(result.void_ratio_after);
        return judged(result);
    }

    /// a_s at which D_r is 100 %; not positive where the layer is that dense already.
    double ratio_at_full_density() const { return ratio_to(limits_.e_min); }

private:
    double density_pct(double blow_count) const {
        return meyerhof_relative_density_pct(blow_count, layer_.effective_stress_kPa, increment_);
    }

    // Not replacement_without_heave: a target far beyond full density may ask for e1 < 0 and is still reported.
    double ratio_to(double void_ratio_after) const {
        return (start_.void_ratio_before - void_ratio_after) / (efficiency_ * (1 + start_.void_ratio_before));
    }

    static DesignResult judged(DesignResult result) {
        if (result.relative_density_before_pct > full_density_pct)
            result.outside = "relative density above 100 % before treatment";
        else if (result.relative_density_after_pct > full_density_pct)
            result.outside = "relative density above 100 % after treatment";
        else if (result.replacement_ratio >= 1)
            result.outside = "replacement ratio of 1 or more";
        add_ratio_remark(result);
        return result;
    }

    LayerState layer_;
    VoidRatioLimits limits_;
    double beta_ = 1;
    double efficiency_ = 1; // alpha R_c
    double increment_ = 0;  // dN_f
    DesignResult start_;
};

/// Both factors have the form 1.05 - c log10 Fc; Fc 0 gives infinity, hence the cap.
double capped(double slope, double fines_pct) {
    require_between("fines_pct", fines_pct, 0, 100);
    return std::min(1.0, 1.05 - slope * std::log10(fines_pct));
}

} // namespace

double blow_count_reduction(double fines_pct) {
    return capped(0.51, fines_pct);
}

double effective_compaction_factor(double fines_pct) {
    return capped(0.46, fines_pct);
}

DesignResult predict_blow_count(DesignMethod method, const LayerState& layer, double replacement_ratio,
                                const VoidRatioSettings& settings) {
    return Relations(method, layer, settings).at_ratio(replacement_ratio);
}

DesignResult require_blow_count(DesignMethod method, const LayerState& layer, double target_blow_count,
                                const VoidRatioSettings& settings) {
    return Relations(method, layer, settings).at_blow_count(target_blow_count);
}

LargestBlowCount largest_blow_count(DesignMethod method, const LayerState& layer,
                                    double largest_replacement_ratio, const VoidRatioSettings& settings) {
    require_positive("largest_replacement_ratio", largest_replacement_ratio);
    const Relations relations(method, layer, settings);
    const double full = std::max(0.0, relations.ratio_at_full_density());
    if (full <= largest_replacement_ratio)
        return {relations.at_ratio(full), ReachLimit::FullDensity};
    return {relations.at_ratio(largest_replacement_ratio), ReachLimit::ReplacementRatio};
}

} // namespace interpile::solver
