#pragma once
// What of a stage is ground and what is pile.

#include "io/results_reader.h"

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

/// "before the first pile", "after pile 3 of 9", "stopped in pile 4, 3 of 9 finished", "after the final rest"; with the
/// time of the stage where water flows: "after pile 3 of 9, at 1 h 42 min".
std::string stage_in_words(const io::ResultsHeader& header, const io::ResultsStage& stage);

/// Smallest distance between planned centers; for one pile four diameters [m].
double typical_spacing_m(const io::ResultsHeader& header);

} // namespace interpile::postprocess
