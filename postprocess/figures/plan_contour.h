#pragma once
// Bands of one cell field in plan.

#include "io/results_reader.h"
#include "postprocess/canvas.h"

#include <string>

namespace interpile::postprocess {

/// Plan of one stage: bands and isolines of the ground, piles covered, color bar, notes.
/// \param field     name of mesh::field_table()
/// \param margin_m  ground shown around the outermost piles; negative: 1.5 spacings, 4 diameters around one
/// pile
/// \throws std::out_of_range if the stage has no such field
Drawing plan_contour(const io::ResultsHeader& header, const io::ResultsStage& stage, const std::string& field,
                     double margin_m = -1);

} // namespace interpile::postprocess
