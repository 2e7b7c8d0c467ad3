#include "solver/site/sand_state.h"

#include "solver/ground_state/friction_angle.h"
#include "solver/ground_state/lateral_stress_at_rest.h"
#include "solver/ground_state/permeability.h"
#include "solver/ground_state/relative_density.h"
#include "solver/ground_state/stiffness.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace interpile::solver {

namespace {

constexpr const char* measured_key = "measured";

std::optional<double> measured_value(const BoringSample& sample, Quantity quantity) {
    switch (quantity) {
    case Quantity::LargestVoidRatio:
        return sample.e_max;
    case Quantity::SmallestVoidRatio:
        return sample.e_min;
    case Quantity::VoidRatio:
        return sample.void_ratio;
    case Quantity::FrictionAngle:
        return sample.friction_angle_deg;
    case Quantity::LateralStressRatio:
        return sample.lateral_stress_ratio;
    case Quantity::Permeability:
        return sample.permeability_m_s;
    case Quantity::RelativeDensity:
        if (sample.void_ratio && sample.e_max && sample.e_min)
            return relative_density_pct({*sample.e_max, *sample.e_min}, *sample.void_ratio);
        return {};
    case Quantity::SmallStrainModulus:
    case Quantity::YoungModulus:
        return {};
    }
    return {};
}

SandSample input_of(const BoringSample& sample, double energy_ratio_pct, double effective_stress_kPa) {
    SandSample input;
    input.depth_m = sample.depth_m;
    input.blow_count = sample.blow_count;
    input.energy_ratio_pct = energy_ratio_pct;
    input.fines_pct = sample.fines_pct;
    input.d50_mm = sample.d50_mm;
    input.effective_stress_kPa = effective_stress_kPa;
    input.e_max = sample.e_max;
    input.e_min = sample.e_min;
    input.void_ratio = sample.void_ratio;
    input.d10_mm = sample.d10_mm;
    input.d20_mm = sample.d20_mm;
    input.overconsolidation_ratio = sample.overconsolidation_ratio;
    if (sample.lateral_stress_ratio)
        input.lateral_stress_ratio = *sample.lateral_stress_ratio;
    input.unit_weight_kN_m3 = sample.unit_weight_kN_m3;
    return input;
}

const Relation& relation_by_key(const QuantityInfo& info, const std::string& key) {
    std::string known;
    for (const Relation& relation : info.relations) {
        if (relation.key == key)
            return relation;
        known += (known.empty() ? "" : ", ") + relation.key;
    }
    throw std::invalid_argument("unknown relation \"" + key + "\" for " + info.name +
                                "; there are: " + known);
}

/// Measured, else the relation asked for, else the standard one, else any; NaN where none has its inputs.
Estimate choose(const QuantityInfo& info, const std::vector<Estimate>& all, const RelationChoice& choice) {
    const auto by_key = [&](const std::string& key) {
        return std::find_if(all.begin(), all.end(), [&](const Estimate& e) { return e.relation == key; });
    };
    const auto asked = choice.find(info.quantity);
    const Relation& relation = relation_by_key(info, asked == choice.end() ? info.standard : asked->second);
    for (const std::string& key : {std::string(measured_key), relation.key})
        if (const auto found = by_key(key); found != all.end())
            return *found;
    const std::string lack = relation.key + " needs " + relation.needs + "; ";
    if (all.empty())
        return {std::numeric_limits<double>::quiet_NaN(), "", "", {lack + "no other relation can be used"}};
    const auto standard = by_key(info.standard);
    Estimate other = standard != all.end() ? *standard : all.front();
    other.remarks.push_back(lack + other.relation + " is used");
    return other;
}

Estimate void_ratio_of(const SandState& state) {
    const Estimate& e_max = chosen(state, Quantity::LargestVoidRatio);
    const Estimate& e_min = chosen(state, Quantity::SmallestVoidRatio);
    const Estimate& density = chosen(state, Quantity::RelativeDensity);
    Estimate estimate;
    estimate.value = void_ratio({e_max.value, e_min.value}, density.value);
    estimate.relation = "definition";
    estimate.source = "e_max - D_r (e_max - e_min) of the chosen values";
    if (estimate.value < e_min.value)
        estimate.remarks.push_back("below e_min, since the relative density is above 100 %");
    return estimate;
}

} // namespace

VoidRatioLimits chosen_limits(const BoringSample& sample, const RelationChoice& choice) {
    constexpr double any = 100; // the limits depend on neither energy nor stress
    const auto chosen_of = [&](Quantity quantity) {
        const QuantityInfo& info = quantity_table()[static_cast<std::size_t>(quantity)];
        return choose(info, estimate_all(info.relations, input_of(sample, any, any)), choice).value;
    };
    return {chosen_of(Quantity::LargestVoidRatio), chosen_of(Quantity::SmallestVoidRatio)};
}

const std::vector<QuantityInfo>& quantity_table() {
    static const std::vector<QuantityInfo> table{
        {Quantity::LargestVoidRatio, "e_max", "largest void ratio e_max [-]", "hirama-1981",
         e_max_relations()},
        {Quantity::SmallestVoidRatio, "e_min", "smallest void ratio e_min [-]", "hirama-1981",
         e_min_relations()},
        {Quantity::RelativeDensity, "relative_density_pct", "relative density D_r [%]", "meyerhof-1957",
         relative_density_relations()},
        {Quantity::VoidRatio, "void_ratio", "void ratio e [-]", "", {}},
        {Quantity::FrictionAngle, "friction_angle_deg", "peak friction angle phi [deg]",
         "hatanaka-uchida-1996", friction_angle_relations()},
        {Quantity::LateralStressRatio, "lateral_stress_ratio", "lateral over vertical stress K0 [-]",
         "practice", lateral_stress_at_rest_relations()},
        {Quantity::SmallStrainModulus, "small_strain_modulus_kPa", "small-strain shear modulus G0 [kPa]",
         "imai-tonouchi-1982", small_strain_modulus_relations()},
        {Quantity::YoungModulus, "young_modulus_kPa", "Young's modulus E, drained [kPa]", "highway-bridges",
         young_modulus_relations()},
        {Quantity::Permeability, "permeability_m_s", "permeability k [m/s]", "grading-guess",
         permeability_relations()},
    };
    return table;
}

SandState sand_state(const BoringSample& sample, double energy_ratio_pct, double effective_stress_kPa,
                     const RelationChoice& choice) {
    const SandSample input = input_of(sample, energy_ratio_pct, effective_stress_kPa);
    SandState state;
    for (const QuantityInfo& info : quantity_table()) {
        GroundQuantity quantity;
        quantity.others = estimate_all(info.relations, input);
        const auto measured = measured_value(sample, info.quantity);
        const bool listed = !quantity.others.empty() && quantity.others.front().relation == measured_key;
        if (measured && !listed)
            quantity.others.insert(quantity.others.begin(), {*measured, measured_key, "laboratory", {}});
        if (info.relations.empty() && !measured)
            quantity.others.push_back(void_ratio_of(state));
        quantity.chosen =
            info.relations.empty() ? quantity.others.front() : choose(info, quantity.others, choice);
        state.push_back(std::move(quantity));
    }
    return state;
}

} // namespace interpile::solver
