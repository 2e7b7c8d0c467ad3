#pragma once
// Values along lines and at points as CSV.

#include <ostream>
#include <string>
#include <vector>

#include "io/results_reader.h"

namespace interpile::postprocess {

struct SampleLine {
    mesh::Vec2 from = {0, 0}, to = {0, 0}; ///< [m], current geometry
    int points = 101;
};

/// One row per point: distance_m, x_m, y_m and the fields, interpolated linearly between cell centers; empty values
/// outside the grid. `fields` empty: all of them.
void sample_line(const io::ResultsStage& stage, const mesh::Grid& grid, const SampleLine& line,
                 const std::vector<std::string>& fields, std::ostream& csv);
void sample_points(const io::ResultsStage& stage, const mesh::Grid& grid, const std::vector<mesh::Vec2>& points,
                   const std::vector<std::string>& fields, std::ostream& csv);

} // namespace interpile::postprocess
