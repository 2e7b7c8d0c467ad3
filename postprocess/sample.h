#pragma once
// Values along lines and at points as CSV.

#include "io/results_reader.h"

#include <ostream>
#include <string>
#include <vector>

namespace interpile::postprocess {

struct SampleLine {
    mesh::Vec2 from = {0, 0}, to = {0, 0}; ///< [m], current geometry
    int points = 101;
};

/// One row per point: distance_m (along the points), x_m, y_m and the fields, interpolated linearly between
/// cell middles at their current place; empty values outside the grid. Cells of piles are not left out: ask
/// for pile_share to tell them apart. `fields` empty: all of them.
/// \throws std::out_of_range for a field that
/// the results do not have, std::invalid_argument for points < 2; nothing is written then
void sample_line(const io::ResultsStage& stage, const mesh::Grid& grid, const SampleLine& line,
                 const std::vector<std::string>& fields, std::ostream& csv);
void sample_points(const io::ResultsStage& stage, const mesh::Grid& grid,
                   const std::vector<mesh::Vec2>& points, const std::vector<std::string>& fields,
                   std::ostream& csv);

} // namespace interpile::postprocess
