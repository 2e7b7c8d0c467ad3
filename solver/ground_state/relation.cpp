#include "solver/ground_state/relation.h"

#include "solver/number_check.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace interpile::solver {
namespace {

void check(const SandSample& sample) {
    constexpr double any = std::numeric_limits<double>::max();
    const auto positive_if_known = [](const char* name, const std::optional<double>& value) {
        if (value)
            require_positive(name, *value);
    };
    require_between("depth_m", sample.depth_m, 0, any);
    require_between("blow_count", sample.blow_count, 0, any);
    require_positive("energy_ratio_pct", sample.energy_ratio_pct);
    require_between("energy_ratio_pct", sample.energy_ratio_pct, 0, 100);
    require_between("fines_pct", sample.fines_pct, 0, 100);
    require_positive("effective_stress_kPa", sample.effective_stress_kPa);
    require_between("lateral_stress_ratio", sample.lateral_stress_ratio, 0, any);
    require_positive("unit_weight_kN_m3", sample.unit_weight_kN_m3);
    if (!std::isnan(sample.d50_mm))
        require_positive("d50_mm", sample.d50_mm);
    positive_if_known("e_max", sample.e_max);
    positive_if_known("e_min", sample.e_min);
    positive_if_known("void_ratio", sample.void_ratio);
    positive_if_known("d10_mm", sample.d10_mm);
    positive_if_known("d20_mm", sample.d20_mm);
    if (sample.e_max && sample.e_min)
        require_positive("e_max - e_min", *sample.e_max - *sample.e_min);
    if (sample.overconsolidation_ratio)
        require_between("overconsolidation_ratio", *sample.overconsolidation_ratio, 1, any);
}

std::optional<Estimate> evaluated(const Relation& relation, const SandSample& sample) {
    Estimate estimate{0, relation.key, relation.source, {}};
    const auto value = relation.value(sample, estimate.remarks);
    if (!value)
        return {};
    estimate.value = *value;
    return estimate;
}

} // namespace

Estimate estimate_by(std::span<const Relation> relations, const std::string& key, const SandSample& sample) {
    check(sample);
    std::string known;
    for (const Relation& relation : relations) {
        known += (known.empty() ? "" : ", ") + relation.key;
        if (relation.key != key)
            continue;
        if (auto estimate = evaluated(relation, sample))
            return *std::move(estimate);
        throw std::invalid_argument(fmt::format("relation {} needs {}", key, relation.needs));
    }
    throw std::invalid_argument(fmt::format("unknown relation \"{}\"; there are: {}", key, known));
}

std::vector<Estimate> estimate_all(std::span<const Relation> relations, const SandSample& sample) {
    check(sample);
    std::vector<Estimate> estimates;
    for (const Relation& relation : relations)
        if (auto estimate = evaluated(relation, sample))
            estimates.push_back(*std::move(estimate));
    return estimates;
}

} // namespace interpile::solver
