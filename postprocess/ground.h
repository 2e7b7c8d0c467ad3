#pragma once
// What of a stage is ground, what is pile, and which part is treated.

#include "io/results_reader.h"

#include <optional>
#include <string>
#include <vector>

namespace interpile::postprocess {

/// The grid at its current place.
mesh::Grid current_grid(const io::ResultsHeader& header, const io::ResultsStage& stage);

/// Values of a field per cell.
/// \throws std::out_of_range naming the field and those the stage has
const Eigen::ArrayXd& field_values(const io::ResultsStage& stage, const std::string& field);

/// Cells without pile material: a pile's stress and density are not those of the ground, so that even a cell
/// of which the disc cuts off a hundredth is left out.
std::vector<bool> ground_cells(const io::ResultsStage& stage);

/// The pile has begun to grow: its disc is larger than the seed.
bool is_begun(const io::ResultsHeader& header, const io::ResultsStage& stage, int pile);

/// Piles that have at least half of their planned area; a pile at which the run stopped is not finished.
int piles_finished(const io::ResultsHeader& header, const io::ResultsStage& stage);

/// Smallest distance between planned centers; for one pile four diameters [m].
double typical_spacing_m(const io::ResultsHeader& header);

/// Weighted by cell area, cells without pile material only.
struct GroundSummary {
    double mean = 0, least = 0, most = 0;
};

/// Of the ground between the piles: cells whose middle lies in the convex hull of the pile centers, mirrored
/// at symmetry sides. Empty if the centers span no area.
std::optional<GroundSummary> between_piles(const io::ResultsHeader& header, const io::ResultsStage& stage,
                                           const std::string& field);

/// Area of each cell [m2].
Eigen::ArrayXd cell_areas(const mesh::Grid& grid);

/// Middle of each cell, the mean of its corners [m].
Eigen::Matrix2Xd cell_middles(const mesh::Grid& grid);

} // namespace interpile::postprocess
