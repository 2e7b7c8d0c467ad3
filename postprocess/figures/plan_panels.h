#pragma once
// One field in several plans on one page, in the same colors: stages of a run, or runs beside each other.

#include "io/results_reader.h"
#include "postprocess/canvas.h"
#include "postprocess/named_stage.h"

#include <string>
#include <vector>

namespace interpile::postprocess {

/// Most plans on a page that can still be read (own choice).
constexpr std::size_t most_panels = 9;

/// Panels (a), (b), ... row by row, with the run and the stage as heads: one color bar, one length scale and one view of
/// the ground for all; below them the means and the weakest values between the piles.
/// \param margin_m  as in plan_contour
/// \throws std::invalid_argument for no panel or more than most_panels, std::out_of_range if a stage has no such field
Drawing plan_panels(const std::vector<NamedStage>& panels, const std::string& field, double margin_m = -1);

} // namespace interpile::postprocess
