#pragma once
// Tests between the piles against prediction, as tables and in words.

#include "io/site_tables.h"
#include "io/stroke_fit.h"

namespace interpile::io {

/// By comparison; empty where nothing was simulated.
using StrokeFits = std::vector<std::optional<StrokeFit>>;

/// tests.csv   every test: before, measured, predicted by every method, density, efficiency, F_L, target kept
/// scores.csv  bias and scatter by method, fitted efficiency, trend with density
/// strokes.csv  with fits: every simulation, and the strokes that give N measured
std::vector<NamedTable> after_tables(const SiteFile& site, const std::vector<solver::BoringDesign>& designs,
                                     const solver::AfterReview& review, const StrokeFits& fits);

/// The same in words, for the terminal.
std::string after_summary(const SiteFile& site, const solver::AfterReview& review, const StrokeFits& fits);

/// Median and quartiles of the strokes that were found, and how many were not.
struct StrokeRange {
    int found = 0, fewer_than_tried = 0, more_than_tried = 0;
    double low = 0, median = 0, high = 0; ///< NaN if none was found
};
/// \param fitted    StrokeFit::by_density or by_stress
/// \param quantity  the blow count it was found by
StrokeRange stroke_range(const solver::AfterReview& review, const StrokeFits& fits,
                         std::optional<double> StrokeFit::*fitted, double StrokeTrial::*quantity);

} // namespace interpile::io
