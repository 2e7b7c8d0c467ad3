#pragma once
// Figures of a study from its rows.

#include "io/study_table.h"
#include "postprocess/figures/blow_count_chart.h"
#include "postprocess/figures/spacing_curves.h"

#include <string>
#include <vector>

namespace interpile::program {

/// Most figures of one kind (own choice); a grid with more combinations shows the first ones.
inline constexpr std::size_t most_study_figures = 12;

/// Density and lateral stress over the spacing (or a_s), a curve for each value of a second factor, the density before
/// treatment if it is one; a figure for each combination of the other factors. A sample: one figure of points. None where
/// neither changes.
std::vector<postprocess::SpacingFigure> spacing_figures(const io::StudyFile& study,
                                                        const std::vector<io::StudyRow>& rows);

/// Simulated N over a_s beside the simple methods, a figure for each combination of the factors that leave a_s alone.
/// None for a sample, in which every member has its own ground, and where a_s does not change.
std::vector<postprocess::BlowCountFigure> blow_count_figures(const io::StudyFile& study,
                                                             const std::vector<io::StudyRow>& rows);

} // namespace interpile::program
