#include "solver/site/liquefaction_need.h"

#include "solver/liquefaction/boulanger_idriss_2014.h"
#include "solver/liquefaction/severity.h"

#include <algorithm>
#include <cmath>

namespace interpile::solver {

namespace {

BlowCountPoint point_of(const BoringSample& sample, double energy_ratio_pct, const VerticalStress& at_boring,
                        const VerticalStress& in_quake) {
    BlowCountPoint point;
    point.depth_m = sample.depth_m;
    point.blow_count = sample.blow_count;
    point.energy_ratio_pct = energy_ratio_pct;
    point.fines_pct = sample.fines_pct;
    point.d50_mm = sample.d50_mm;
    point.total_stress_kPa = at_boring.total_kPa;
    point.effective_stress_kPa = at_boring.effective_kPa;
    point.total_stress_quake_kPa = in_quake.total_kPa;
    point.effective_stress_quake_kPa = in_quake.effective_kPa;
    return point;
}

SafetyFactor factor_by(Procedure procedure, const BlowCountPoint& point, const Earthquake& quake) {
    const std::string lacking = missing_for(procedure, quake);
    if (lacking.empty())
        return safety_against_liquefaction(procedure, point, quake);
    SafetyFactor factor;
    factor.refused = lacking + " is not given";
    return factor;
}

/// (N1)60cs of Boulanger & Idriss (2014), which the strain after liquefaction is tied to.
double clean_sand_blow_count(const BlowCountPoint& point) {
    using namespace boulanger_idriss_2014;
    return normalized_blow_count(point.blow_count * point.energy_ratio_pct / 60, point.effective_stress_kPa,
                                 fines_increment(point.fines_pct))
        .n1_60cs;
}

constexpr auto index_of(Procedure procedure) {
    return static_cast<std::size_t>(procedure);
}

BoringSeverity severity_by(std::size_t procedure, const Boring& boring,
                           const std::vector<SampleSafety>& samples) {
    const auto intervals = sample_intervals(boring);
    BoringSeverity severity;
    severity.reaches_to_m = intervals.back().bottom_m;
    std::vector<JudgedSlab> slabs;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (!samples[i].judged)
            continue;
        const auto& factors = samples[i].factors;
        if (std::isnan(factors[procedure].value))
            return severity;
        slabs.push_back({std::max({0.0, intervals[i].top_m, boring.quake_water_depth_m}),
                         intervals[i].bottom_m, factors[procedure].value,
                         clean_sand_blow_count(samples[i].point)});
    }
    severity.potential_index = liquefaction_potential_index(slabs);
    severity.settlement_m = liquefaction_settlement_m(slabs);
    return severity;
}

} // namespace

bool SampleSafety::procedures_disagree() const {
    const auto below = [](const SafetyFactor& factor) { return factor.value < 1; };
    const auto not_below = [](const SafetyFactor& factor) { return factor.value >= 1; };
    return std::any_of(factors.begin(), factors.end(), below) &&
           std::any_of(factors.begin(), factors.end(), not_below);
}

std::string missing_for(Procedure procedure, const Earthquake& quake) {
    const bool bridge =
        procedure == Procedure::HighwayBridge2012 || procedure == Procedure::HighwayBridge2017;
    if (bridge)
        return quake.design_coefficient_khg == 0 ? "design_coefficient_khg" : "";
    return quake.peak_acceleration_g == 0 ? "peak_acceleration_g" : "";
}

BoringSafety boring_safety(const Boring& boring, const Earthquake& quake) {
    const auto at_boring = vertical_stresses(boring, boring.water_depth_m);
    const auto in_quake = vertical_stresses(boring, boring.quake_water_depth_m);
    BoringSafety safety;
    for (std::size_t i = 0; i < boring.samples.size(); ++i) {
        SampleSafety sample;
        sample.point = point_of(boring.samples[i], boring.energy_ratio_pct, at_boring[i], in_quake[i]);
        sample.judged = boring.samples[i].sand && boring.samples[i].depth_m > boring.quake_water_depth_m;
        if (sample.judged)
            for (const ProcedureInfo& info : procedure_table())
                sample.factors.push_back(factor_by(info.procedure, sample.point, quake));
        safety.samples.push_back(std::move(sample));
    }
    for (const ProcedureInfo& info : procedure_table())
        safety.severity.push_back(severity_by(index_of(info.procedure), boring, safety.samples));
    return safety;
}

} // namespace interpile::solver
