#include "solver/design_methods/blow_count_chart.h"

#include "solver/design_methods/remarks.h"
#include "solver/number_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <tuple>

namespace interpile::solver {
namespace {

constexpr double any = std::numeric_limits<double>::max();

/// Value at x on the line through (x0, y0) and (x1, y1).
double on_line(double x, double x0, double y0, double x1, double y1) {
    return std::lerp(y0, y1, (x - x0) / (x1 - x0));
}

DesignResult start(const LayerState& layer) {
    require_between("effective_stress_kPa", layer.effective_stress_kPa, 0, any);
    require_between("fines_pct", layer.fines_pct, 0, 100);
    require_between("blow_count", layer.blow_count, 0, any);
    DesignResult result;
    result.method = DesignMethod::A;
    result.blow_count_before = layer.blow_count;
    result.remarks = fines_remarks(DesignMethod::A, layer.fines_pct, false);
    return result;
}

} // namespace

BlowCountChart::BlowCountChart(std::vector<ChartPoint> points) {
    const auto key = [](const ChartPoint& p) { return std::tie(p.replacement_ratio, p.blow_count_before); };
    for (const ChartPoint& p : points) {
        require_between("chart: blow_count_before", p.blow_count_before, 0, any);
        require_between("chart: blow_count_after", p.blow_count_after, 0, any);
        require_between("chart: replacement_ratio", p.replacement_ratio, 0, 1);
    }
    if (points.empty())
        throw std::invalid_argument("chart: no points");
    std::ranges::sort(points, {}, key);
    if (const auto twice = std::ranges::adjacent_find(points, {}, key); twice != points.end())
        throw std::invalid_argument(fmt::format("chart: N0 = {}, a_s = {} is given twice",
                                                twice->blow_count_before, twice->replacement_ratio));
    for (const ChartPoint& p : points) {
        if (curves_.empty() || curves_.back().replacement_ratio != p.replacement_ratio)
            curves_.push_back({p.replacement_ratio, {}});
        curves_.back().points.push_back(p);
    }
    for (const Curve& curve : curves_)
        if (curve.points.size() < 2)
            throw std::invalid_argument(fmt::format("chart: the curve a_s = {} has one point, 2 are needed",
                                                    curve.replacement_ratio));
    require_no_crossing();
}

std::optional<double> BlowCountChart::Curve::at(double blow_count_before) const {
    if (!(blow_count_before >= points.front().blow_count_before &&
          blow_count_before <= points.back().blow_count_before))
        return {};
    auto above = std::ranges::lower_bound(points, blow_count_before, {}, &ChartPoint::blow_count_before);
    if (above == points.begin())
        ++above;
    const auto below = above - 1;
    return on_line(blow_count_before, below->blow_count_before, below->blow_count_after,
                   above->blow_count_before, above->blow_count_after);
}

void BlowCountChart::require_no_crossing() const {
    // Straight between their points, so two curves cross only if they change order at a point of one of them.
    for (std::size_t i = 0; i < curves_.size(); ++i)
        for (std::size_t j = i + 1; j < curves_.size(); ++j)
            for (const Curve* knots : {&curves_[i], &curves_[j]})
                for (const ChartPoint& p : knots->points) {
                    const auto low = curves_[i].at(p.blow_count_before);
                    const auto high = curves_[j].at(p.blow_count_before);
                    if (low && high && !(*high > *low))
                        throw std::invalid_argument(fmt::format(
                            "chart: at N0 = {} the curve a_s = {} is not above a_s = {}", p.blow_count_before,
                            curves_[j].replacement_ratio, curves_[i].replacement_ratio));
                }
}

std::optional<double> BlowCountChart::blow_count_after(double blow_count_before,
                                                       double replacement_ratio) const {
    const auto above = std::ranges::lower_bound(curves_, replacement_ratio, {}, &Curve::replacement_ratio);
    if (above == curves_.end())
        return {};
    if (above->replacement_ratio == replacement_ratio)
        return above->at(blow_count_before);
    if (above == curves_.begin())
        return {};
    const auto below = above - 1;
    const auto low = below->at(blow_count_before), high = above->at(blow_count_before);
    if (!low || !high)
        return {};
    return on_line(replacement_ratio, below->replacement_ratio, *low, above->replacement_ratio, *high);
}

std::optional<double> BlowCountChart::replacement_ratio(double blow_count_before,
                                                        double blow_count_after) const {
    for (std::size_t i = 0; i < curves_.size(); ++i) {
        const auto low = curves_[i].at(blow_count_before);
        if (!low)
            continue;
        if (*low == blow_count_after)
            return curves_[i].replacement_ratio;
        const auto high = i + 1 < curves_.size() ? curves_[i + 1].at(blow_count_before) : std::nullopt;
        if (high && blow_count_after > *low && blow_count_after <= *high)
            return on_line(blow_count_after, *low, curves_[i].replacement_ratio, *high,
                           curves_[i + 1].replacement_ratio);
    }
    return {};
}

DesignResult predict_blow_count(const BlowCountChart& chart, const LayerState& layer,
                                double replacement_ratio) {
    DesignResult result = start(layer);
    require_between("replacement_ratio", replacement_ratio, 0, 1);
    result.replacement_ratio = replacement_ratio;
    if (const auto after = chart.blow_count_after(layer.blow_count, replacement_ratio))
        result.blow_count_after = result.clean_blow_count_after = *after;
    else
        result.outside = fmt::format("N0 = {:.3g} with a_s = {:.3f} is outside the points of the chart",
                                     layer.blow_count, replacement_ratio);
    add_ratio_remark(result);
    return result;
}

DesignResult require_blow_count(const BlowCountChart& chart, const LayerState& layer,
                                double target_blow_count) {
    DesignResult result = start(layer);
    require_positive("target_blow_count", target_blow_count);
    if (target_blow_count <= layer.blow_count) {
        result.blow_count_after = result.clean_blow_count_after = layer.blow_count;
        result.replacement_ratio = 0;
        result.remarks.push_back("the target is reached before treatment");
        return result;
    }
    result.blow_count_after = result.clean_blow_count_after = target_blow_count;
    if (const auto ratio = chart.replacement_ratio(layer.blow_count, target_blow_count))
        result.replacement_ratio = *ratio;
    else
        result.outside = fmt::format("N {:.3g} -> {:.3g} is outside the points of the chart",
                                     layer.blow_count, target_blow_count);
    add_ratio_remark(result);
    return result;
}

} // namespace interpile::solver
