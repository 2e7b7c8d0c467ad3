#pragma once
// The ground between the piles in a few numbers: means, weakest point, distribution over the area, observation points.

#include "io/results_reader.h"
#include "postprocess/area_distribution.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace interpile::postprocess {

/// Shares of the area whose values are told.
constexpr std::array<double, 5> told_shares = {0.05, 0.25, 0.50, 0.75, 0.95};

/// One field over the treated area, pile material left out, weighted by area. The mean is that of the cells, as in the
/// record of half strokes (of the lateral stress ratio: mean horizontal over mean vertical stress). The others are those
/// of the smoothed field, as the contours show it, at the nodes away from pile material: the extreme of a single cell
/// depends on the grid where flow localizes.
struct GroundSummary {
    double area_m2 = 0;
    double mean = 0, least = 0, most = 0;
    mesh::Vec2 least_at_m = {0, 0};
    AreaDistribution distribution;

    /// No place is weaker than another (values are stored with 7 digits).
    bool is_uniform() const { return most - least <= 1e-5 * std::max(std::abs(least), std::abs(most)); }
};

/// Empty where the layout has no treated area.
/// \throws std::out_of_range if the stage has no such field
std::optional<GroundSummary> between_piles(const io::ResultsHeader& header, const io::ResultsStage& stage,
                                           const std::string& field);

/// Values per observation point, as in the record of half strokes; not a number where there is no ground.
struct PointValues {
    Eigen::ArrayXd density_pct;  ///< D_r
    Eigen::ArrayXd stress_ratio; ///< K
    Eigen::ArrayXd pressure_kPa; ///< excess pore pressure; not a number in a result of a version without it
};
PointValues points_at(const io::ResultsHeader& header, const io::ResultsStage& stage);

/// What decides whether the ground is good enough, at one stage.
struct StageGround {
    int stage = 0, pile = -1;
    bool converged = true;
    GroundSummary density;           ///< D_r [%]
    double mean_stress_ratio = 0;    ///< K of the treated ground
    double weakest_stress_ratio = 0; ///< K where D_r is least, of the smoothed stresses
    PointValues points;
    std::optional<double> share_below_target; ///< of the treated area [-]; where the case has a target
    double time_s = 0;                        ///< since the first pile was begun; 0 without flow of water
    bool after_rest = false;
    double excess_pressure_kPa = 0; ///< mean of the treated ground; not a number as in the points
};

/// Empty where the layout has no treated area.
std::optional<StageGround> ground_at(const io::ResultsHeader& header, const io::ResultsStage& stage);

/// A table for the terminal, one row per stage, with what the numbers mean; times and excess pore pressures where there
/// are any. Empty without stages.
std::string ground_table(const io::ResultsHeader& header, const std::vector<StageGround>& stages);

} // namespace interpile::postprocess
