#pragma once
// From the design of a site to its figures.

#include "io/site_file.h"
#include "postprocess/figures/blow_count_chart.h"
#include "postprocess/figures/depth_profile.h"
#include "postprocess/figures/prediction_scatter.h"

#include <optional>

namespace interpile::program {

/// Soil column, N before and after, F_L by procedure, replacement ratio by method.
postprocess::ProfileFigure profile_figure(const io::SiteFile& site, const solver::BoringDesign& design);

/// N after by every method at the governing depth of the method the spacing is taken from; none where nothing is asked
/// for.
std::optional<postprocess::BlowCountFigure> ratio_figure(const io::SiteFile& site,
                                                         const solver::BoringDesign& design);

/// Measured against predicted N, by every method and the simulation; none where nothing is compared.
std::optional<postprocess::ScatterFigure> scatter_figure(const io::SiteFile& site,
                                                         const solver::AfterReview& review);

} // namespace interpile::program
