#pragma once
// How many strokes of a depth the simulation needs to give the blow counts that were measured between the piles.

#include "io/site_file.h"
#include "solver/run_observer.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

/// One simulation of the cell of the pattern.
struct StrokeTrial {
    int strokes = 0;
    double relative_density_pct = 0; ///< mean of the ground between the piles
    double lateral_stress_ratio = 0; ///< K, mean of it
    double blow_count = 0;           ///< of this density alone, by Meyerhof's form
    double stressed_blow_count = 0;  ///< the same times blow_count_stress_factor of K
};

/// The strokes that give N measured; none where even the fewest give more, or the most less.
struct StrokeFit {
    std::vector<StrokeTrial> trials;  ///< strokes rising
    std::optional<double> by_density; ///< N measured taken as that of density alone
    std::optional<double> by_stress;  ///< N measured taken to hold the effect of K
    double default_blow_count = 0;    ///< density alone, at the strokes of a case made by the program
    std::string not_converged;        ///< why the simulation ended or could not begin; then there is no fit
};

/// Strokes tried.
inline constexpr int tried_strokes[] = {1, 2, 5, 10, 20, 40};

/// A cell (io/site_cases.h cell_case) per comparison that is not left out, at a_s as built; comparisons of one sample and
/// ratio share their simulations. The pattern's cell is driven together.
/// \param tell   called before each simulation with its number and how many there are
/// \param watch  sees every simulation; asked after every increment whether to stop
/// \returns by comparison; empty of those left out, and of all if stopped
std::vector<std::optional<StrokeFit>> fit_strokes(const SiteFile& site,
                                                  const std::vector<solver::BoringDesign>& designs,
                                                  const solver::AfterReview& review,
                                                  const std::function<void(int, int)>& tell,
                                                  solver::RunObserver& watch);

/// Strokes at which a quantity that rises with them passes a value, straight in their logarithm between trials; none
/// outside.
std::optional<double> strokes_at(const std::vector<StrokeTrial>& trials, double StrokeTrial::*quantity,
                                 double value);

} // namespace interpile::io
