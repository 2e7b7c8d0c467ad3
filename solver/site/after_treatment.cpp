#include "solver/site/after_treatment.h"

#include "solver/design_methods/cell_balance.h"
#include "solver/ground_state/meyerhof.h"
#include "solver/ground_state/void_ratio_limits.h"
#include "solver/number_check.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace interpile::solver {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

struct Moments {
    double mean = none, deviation = none;
};

Moments moments(const std::vector<double>& values) {
    const auto n = static_cast<double>(values.size());
    if (values.empty())
        return {};
    double sum = 0, squares = 0;
    for (const double value : values)
        sum += value;
    for (const double value : values)
        squares += (value - sum / n) * (value - sum / n);
    return {sum / n, values.size() < 2 ? none : std::sqrt(squares / (n - 1))};
}

struct Pair {
    double x, y;
};

/// y = b x.
Fitted fit_through_origin(const std::vector<Pair>& pairs) {
    double xx = 0, xy = 0, rest = 0;
    for (const auto& [x, y] : pairs) {
        xx += x * x;
        xy += x * y;
    }
    Fitted fit{static_cast<int>(pairs.size()), xx > 0 ? xy / xx : none, none};
    for (const auto& [x, y] : pairs)
        rest += (y - fit.value * x) * (y - fit.value * x);
    if (pairs.size() > 1)
        fit.standard_error = std::sqrt(rest / static_cast<double>(pairs.size() - 1) / xx);
    return fit;
}

/// b of y = a + b x.
Fitted fit_slope(const std::vector<Pair>& pairs) {
    std::vector<double> xs, ys;
    for (const auto& [x, y] : pairs) {
        xs.push_back(x);
        ys.push_back(y);
    }
    const double x_mean = moments(xs).mean, y_mean = moments(ys).mean;
    double squares = 0, xx = 0, xy = 0, rest = 0;
    for (const auto& [x, y] : pairs) {
        squares += x * x;
        xx += (x - x_mean) * (x - x_mean);
        xy += (x - x_mean) * (y - y_mean);
    }
    const bool one_x = xx <= 1e-12 * squares; // rounding of the mean leaves a little of equal x
    Fitted fit{static_cast<int>(pairs.size()), one_x ? none : xy / xx, none};
    for (const auto& [x, y] : pairs)
        rest += std::pow(y - y_mean - fit.value * (x - x_mean), 2);
    if (pairs.size() > 2)
        fit.standard_error = std::sqrt(rest / static_cast<double>(pairs.size() - 2) / xx);
    return fit;
}

PredictionScore score(const std::vector<Pair>& predicted_and_measured) {
    std::vector<double> ratios, errors;
    for (const auto& [predicted, measured] : predicted_and_measured) {
        ratios.push_back(measured / predicted);
        errors.push_back(measured - predicted);
    }
    const Moments ratio = moments(ratios), error = moments(errors);
    return {static_cast<int>(ratios.size()), ratio.mean, ratio.deviation, error.mean, error.deviation};
}

TrendVerdict verdict_of(const Fitted& slope) {
    constexpr int fewest = 4; // with a constant and a slope two are left to judge by
    if (slope.count < fewest || std::isnan(slope.value))
        return TrendVerdict::TooFew;
    if (slope.value + 2 * slope.standard_error < 0)
        return TrendVerdict::AsExpected;
    return slope.value - 2 * slope.standard_error > 0 ? TrendVerdict::Contrary : TrendVerdict::NotDecided;
}

/// The sample whose interval holds a depth; none beyond the boring.
std::optional<std::size_t> sample_at(const BoringDesign& design, double depth_m) {
    for (std::size_t i = 0; i < design.intervals.size(); ++i)
        if (depth_m >= design.intervals[i].top_m && depth_m < design.intervals[i].bottom_m)
            return i;
    return {};
}

AfterComparison compare(const AfterMeasurement& measured, const std::vector<BoringDesign>& designs,
                        const Earthquake& quake, const TreatmentAims& aims) {
    require_between("replacement_ratio", measured.replacement_ratio, 0, 1);
    require_between("blow_count", measured.blow_count, 0, std::numeric_limits<double>::max());
    if (measured.boring >= designs.size())
        throw std::invalid_argument("there is no such boring before treatment");
    const BoringDesign& design = designs[measured.boring];
    AfterComparison comparison{measured, 0, {}, none, {}, none, none, none, {}, {}};
    const auto sample = sample_at(design, measured.depth_m);
    if (!sample) {
        comparison.left_out = "beyond the boring before treatment";
        return comparison;
    }
    comparison.sample = *sample;
    const BoringSample& before = design.boring.samples[*sample];
    comparison.blow_count_before = before.blow_count;
    if (measured.depth_m < aims.top_depth_m || measured.depth_m > aims.bottom_depth_m) {
        comparison.left_out = "outside the treated depth";
        return comparison;
    }
    if (!before.sand) {
        comparison.left_out = "clay or silt before treatment";
        return comparison;
    }
    if (measured.fines_pct && *measured.fines_pct > 50) {
        comparison.left_out = "more than 50 % fines in the test";
        return comparison;
    }
    for (const DesignMethod method : aims.methods)
        comparison.predictions.push_back(
            predict_at(design, *sample, method, aims, measured.replacement_ratio));
    const double stress = design.at_boring[*sample].effective_kPa;
    const SandState& state = design.states[*sample];
    const VoidRatioLimits limits{chosen(state, Quantity::LargestVoidRatio).value,
                                 chosen(state, Quantity::SmallestVoidRatio).value};
    comparison.relative_density_before_pct = meyerhof_relative_density_pct(before.blow_count, stress);
    comparison.relative_density_after_pct = meyerhof_relative_density_pct(measured.blow_count, stress);
    const double e0 = void_ratio(limits, comparison.relative_density_before_pct);
    const double e1 = void_ratio(limits, comparison.relative_density_after_pct);
    if (measured.replacement_ratio > 0 && e0 > 0 && e1 > 0) // N of a refusal may leave no voids
        comparison.efficiency = replacement_without_heave(e0, e1) / measured.replacement_ratio;
    const BlowCountPoint& point_before = design.before.samples[*sample].point;
    if (aims.target_safety && design.before.samples[*sample].judged &&
        missing_for(aims.target_safety->procedure, quake).empty()) {
        BlowCountPoint point = point_before;
        point.blow_count = measured.blow_count;
        point.fines_pct = measured.fines_pct.value_or(point.fines_pct);
        comparison.safety = safety_against_liquefaction(aims.target_safety->procedure, point, quake);
        if (comparison.safety->refused.empty())
            comparison.target_kept = comparison.safety->value >= aims.target_safety->safety_factor;
    } else if (aims.target_blow_count) {
        comparison.target_kept = measured.blow_count >= *aims.target_blow_count;
    }
    return comparison;
}

} // namespace

AfterReview review_after_treatment(const std::vector<AfterMeasurement>& measurements,
                                   const std::vector<BoringDesign>& designs, const Earthquake& quake,
                                   const TreatmentAims& aims) {
    AfterReview review;
    std::vector<std::vector<Pair>> by_method(aims.methods.size());
    std::vector<Pair> simulated, volumes, gains;
    for (const AfterMeasurement& measured : measurements) {
        AfterComparison comparison = compare(measured, designs, quake, aims);
        if (comparison.left_out.empty()) {
            for (std::size_t m = 0; m < aims.methods.size(); ++m)
                if (comparison.predictions[m].blow_count_after > 0) // false where not a number
                    by_method[m].push_back({comparison.predictions[m].blow_count_after, measured.blow_count});
            if (measured.simulated_blow_count && *measured.simulated_blow_count > 0)
                simulated.push_back({*measured.simulated_blow_count, measured.blow_count});
            const double a_s = measured.replacement_ratio;
            if (!std::isnan(comparison.efficiency)) {
                volumes.push_back({a_s, comparison.efficiency * a_s}); // both over 1 + e0
                const double before = comparison.relative_density_before_pct / 100,
                             after = comparison.relative_density_after_pct / 100;
                gains.push_back({before, (after * after - before * before) / a_s});
            }
        }
        review.comparisons.push_back(std::move(comparison));
    }
    for (const auto& pairs : by_method)
        review.methods.push_back(score(pairs));
    review.simulated = score(simulated);
    review.efficiency = fit_through_origin(volumes);
    review.density_trend = fit_slope(gains);
    review.verdict = verdict_of(review.density_trend);
    return review;
}

const char* verdict_text(TrendVerdict verdict) {
    switch (verdict) {
    case TrendVerdict::TooFew:
        return "too few measurements to tell whether denser ground gained less";
    case TrendVerdict::NotDecided:
        return "not decided whether denser ground gained less (two standard errors include no trend)";
    case TrendVerdict::AsExpected:
        return "denser ground gained less";
    case TrendVerdict::Contrary:
        return "denser ground gained more, as the void-ratio methods have it and most field records do not";
    }
    return "";
}

} // namespace interpile::solver
