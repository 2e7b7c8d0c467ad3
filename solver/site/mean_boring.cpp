#include "solver/site/mean_boring.h"

#include "solver/number_check.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace interpile::solver {

namespace {

struct Taken {
    const BoringSample* sample;
    double energy_ratio_pct;
};

/// What every boring says of one depth.
std::vector<Taken> taken_at(std::span<const Boring> borings, double depth_m) {
    std::vector<Taken> all;
    for (const Boring& boring : borings) {
        const auto intervals = sample_intervals(boring);
        for (std::size_t i = 0; i < intervals.size(); ++i)
            if (depth_m >= intervals[i].top_m && depth_m < intervals[i].bottom_m)
                all.push_back({&boring.samples[i], boring.energy_ratio_pct});
    }
    const auto sand = [](const Taken& taken) { return taken.sample->sand; };
    const auto count = std::count_if(all.begin(), all.end(), sand);
    const bool mostly_sand = 2 * static_cast<std::size_t>(count) > all.size();
    std::erase_if(all, [&](const Taken& taken) { return sand(taken) != mostly_sand; });
    return all;
}

enum class MeanOf { Values, Logarithms };

/// Of the values that are known; empty if none is.
template <class Value>
std::optional<double> mean(const std::vector<Taken>& all, MeanOf of, const Value& value) {
    double sum = 0;
    int count = 0;
    for (const Taken& taken : all)
        if (const std::optional<double> known = value(taken)) {
            sum += of == MeanOf::Logarithms ? std::log(*known) : *known;
            ++count;
        }
    if (count == 0)
        return {};
    return of == MeanOf::Logarithms ? std::exp(sum / count) : sum / count;
}

BoringSample mean_sample(const std::vector<Taken>& all, double depth_m, double energy_ratio_pct) {
    using Member = std::optional<double> BoringSample::*;
    const auto of = [&](Member member, MeanOf kind = MeanOf::Values) {
        return mean(all, kind, [&](const Taken& t) { return t.sample->*member; });
    };
    BoringSample sample;
    sample.depth_m = depth_m;
    sample.blow_count = *mean(all, MeanOf::Values, [&](const Taken& t) -> std::optional<double> {
        return t.sample->blow_count * t.energy_ratio_pct / energy_ratio_pct;
    });
    sample.fines_pct = *mean(all, MeanOf::Values,
                             [](const Taken& t) -> std::optional<double> { return t.sample->fines_pct; });
    sample.unit_weight_kN_m3 = *mean(all, MeanOf::Values, [](const Taken& t) -> std::optional<double> {
        return t.sample->unit_weight_kN_m3;
    });
    sample.d50_mm = mean(all, MeanOf::Logarithms, [](const Taken& t) -> std::optional<double> {
                        return std::isnan(t.sample->d50_mm) ? std::nullopt : std::optional(t.sample->d50_mm);
                    }).value_or(sample.d50_mm);
    sample.sand = all.front().sample->sand;
    sample.soil = sample.sand ? "sand, mean" : "clay or silt, mean";
    sample.d10_mm = of(&BoringSample::d10_mm, MeanOf::Logarithms);
    sample.d20_mm = of(&BoringSample::d20_mm, MeanOf::Logarithms);
    sample.permeability_m_s = of(&BoringSample::permeability_m_s, MeanOf::Logarithms);
    for (const Member member : {&BoringSample::e_max, &BoringSample::e_min, &BoringSample::void_ratio,
                                &BoringSample::overconsolidation_ratio, &BoringSample::friction_angle_deg,
                                &BoringSample::lateral_stress_ratio})
        sample.*member = of(member);
    return sample;
}

} // namespace

Boring mean_boring(std::span<const Boring> borings, double step_m) {
    require_positive("step_m", step_m);
    if (borings.empty())
        throw std::invalid_argument("there is no boring to average");
    Boring result;
    result.name = "mean";
    result.energy_ratio_pct = borings.front().energy_ratio_pct;
    double first = std::numeric_limits<double>::max(), last = 0;
    for (const Boring& boring : borings) {
        result.water_depth_m += boring.water_depth_m / static_cast<double>(borings.size());
        result.quake_water_depth_m += boring.quake_water_depth_m / static_cast<double>(borings.size());
        first = std::min(first, boring.samples.at(0).depth_m);
        last = std::max(last, boring.samples.back().depth_m);
    }
    const auto steps = static_cast<int>(std::floor((last - first) / step_m + 1e-9));
    for (int n = 0; n <= steps; ++n) {
        const double depth = first + n * step_m;
        if (const auto all = taken_at(borings, depth); !all.empty())
            result.samples.push_back(mean_sample(all, depth, result.energy_ratio_pct));
    }
    return result;
}

} // namespace interpile::solver
