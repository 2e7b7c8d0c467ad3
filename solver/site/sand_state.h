#pragma once
// The state of sand at one sample: every quantity by every published relation, and the value chosen for the work.

#include "solver/ground_state/relation.h"
#include "solver/ground_state/void_ratio_limits.h"
#include "solver/site/boring.h"

#include <map>

namespace interpile::solver {

enum class Quantity {
    LargestVoidRatio,
    SmallestVoidRatio,
    RelativeDensity,
    VoidRatio,
    FrictionAngle,
    LateralStressRatio,
    SmallStrainModulus,
    YoungModulus,
    Permeability,
};

struct QuantityInfo {
    Quantity quantity;
    std::string name;  ///< column, with unit
    std::string title; ///< for people, with unit
    std::string
        standard; ///< key of the relation used unless the user names another; empty: there is no choice
    std::span<const Relation>
        relations; ///< empty for the void ratio: e_max - D_r (e_max - e_min) of the chosen values
};

/// All quantities, in the order of the enumeration.
const std::vector<QuantityInfo>& quantity_table();

struct GroundQuantity {
    Estimate chosen;              ///< measured before anything else; NaN with a remark where nothing is known
    std::vector<Estimate> others; ///< by every relation whose inputs are known, the chosen one among them
};

/// By quantity, in the order of quantity_table().
using SandState = std::vector<GroundQuantity>;

inline const Estimate& chosen(const SandState& state, Quantity quantity) {
    return state[static_cast<std::size_t>(quantity)].chosen;
}

/// Keys of relations by quantity, where the user prefers another than the standard one.
using RelationChoice = std::map<Quantity, std::string>;

/// A relation that lacks an input at this sample gives way to the standard one, else to the first that has its inputs,
/// with a remark.
/// \param energy_ratio_pct      of the hammer
/// \param effective_stress_kPa  vertical, when the blows were counted, > 0
/// \throws std::invalid_argument  an unknown relation; a number out of range; e_min not below e_max
SandState sand_state(const BoringSample& sample, double energy_ratio_pct, double effective_stress_kPa,
                     const RelationChoice& choice = {});

/// e_max and e_min as sand_state takes them; where one is measured and the other is not, they may exclude each other.
/// \throws std::invalid_argument  an unknown relation; a number out of range
VoidRatioLimits chosen_limits(const BoringSample& sample, const RelationChoice& choice = {});

} // namespace interpile::solver
