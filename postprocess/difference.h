#pragma once
// One field of two results at the same places of the ground.

#include "postprocess/named_stage.h"

#include <optional>
#include <string>
#include <vector>

namespace interpile::postprocess {

/// Why a difference between two results would mean nothing, in words for the user: slices of other depths, ground or
/// piles at other places. Empty where they can be compared.
std::string why_not_comparable(const io::ResultsHeader& first, const io::ResultsHeader& second);

/// Second minus first, at places fixed in space: the middles of the cells of the first where they are at its stage. The
/// second is interpolated between the middles of its own cells, so that its grid may be another one.
struct FieldDifference {
    std::vector<bool> common; ///< cells of the first that are ground in both
    Eigen::ArrayXd value;     ///< per cell of the first; 0 where not common

    /// Of the common ground between the piles of both; without treated area, of all common ground.
    double area_m2 = 0;
    double first_mean = 0, second_mean = 0; ///< weighted by area, as in GroundSummary
    double mean_size = 0;                   ///< mean of the sizes of the differences
    double least = 0, most = 0;             ///< of the smoothed difference, away from pile material
    mesh::Vec2 least_at_m = {0, 0}, most_at_m = {0, 0};

    double mean() const { return second_mean - first_mean; }
};

/// \throws std::out_of_range if a stage has no such field, std::invalid_argument if there is no common ground
FieldDifference difference_between(const NamedStage& first, const NamedStage& second,
                                   const std::string& field);

} // namespace interpile::postprocess
