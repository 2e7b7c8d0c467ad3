#include "io/stroke_fit.h"

#include "io/case_file.h"
#include "io/observers.h"
#include "io/site_cases.h"
#include "mesh/grid.h"
#include "solver/design_methods/stress_factor.h"
#include "solver/ground_state/meyerhof.h"
#include "solver/installation.h"

#include <cmath>
#include <iterator>
#include <map>
#include <stdexcept>
#include <utility>

namespace interpile::io {

namespace {

/// The ground between the piles at the end of a run.
class LastGround final : public solver::RunObserver {
public:
    void on_half_stroke(const solver::HalfStrokeRecord& record) override {
        relative_density_pct = record.relative_density_pct;
        lateral_stress_ratio = record.lateral_stress_ratio;
    }
    double relative_density_pct = 0, lateral_stress_ratio = 0;
};

/// Trials of one sample and replacement ratio; none if stopped.
std::optional<StrokeFit> simulate(const Case& cell, double effective_stress_kPa, double ratio_at_rest,
                                  const std::function<void()>& tell, solver::RunObserver& watch) {
    StrokeFit fit;
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : cell.plan.piles)
        centers.push_back(pile.center_m);
    const auto grid = mesh::make_grid(cell.domain, centers, cell.grid);
    const auto soil = solver::make_soil_model(cell.soil);
    for (const int strokes : tried_strokes) {
        tell();
        solver::InstallationPlan plan = cell.plan;
        plan.strokes.strokes = strokes;
        LastGround ground;
        Observers observers({&ground, &watch});
        const auto report = install_piles(grid, cell.domain, cell.slice, *soil, plan, observers);
        if (report.outcome == solver::Outcome::Stopped)
            return {};
        if (report.outcome == solver::Outcome::NotConverged) {
            fit.not_converged = report.why;
            return fit;
        }
        StrokeTrial trial{strokes, ground.relative_density_pct, ground.lateral_stress_ratio, 0, 0};
        trial.blow_count = solver::meyerhof_blow_count(trial.relative_density_pct, effective_stress_kPa);
        trial.stressed_blow_count =
            trial.blow_count *
            solver::blow_count_stress_factor(effective_stress_kPa, trial.lateral_stress_ratio, ratio_at_rest);
        fit.trials.push_back(trial);
        if (strokes == cell.plan.strokes.strokes)
            fit.default_blow_count = trial.blow_count;
    }
    return fit;
}

/// The cell at a_s as built; none with the reason where the piles would overlap or a case does not hold them.
std::optional<Case> cell_of(const SiteFile& site, const solver::BoringDesign& design, std::size_t sample,
                            double replacement_ratio, std::string& why) {
    try {
        return parse_case(cell_case(site, design, sample, replacement_ratio), "cell.toml");
    } catch (const std::invalid_argument& overlap) {
        why = overlap.what();
    } catch (const CaseFaults& faults) {
        why = faults.faults().front().what;
    }
    return {};
}

} // namespace

std::optional<double> strokes_at(const std::vector<StrokeTrial>& trials, double StrokeTrial::*quantity,
                                 double value) {
    for (std::size_t i = 0; i + 1 < trials.size(); ++i) {
        const double low = trials[i].*quantity, high = trials[i + 1].*quantity;
        if (!(value >= low && value <= high && high > low))
            continue;
        const double from = std::log(trials[i].strokes), to = std::log(trials[i + 1].strokes);
        return std::exp(from + (to - from) * (value - low) / (high - low));
    }
    return {};
}

std::vector<std::optional<StrokeFit>> fit_strokes(const SiteFile& site,
                                                  const std::vector<solver::BoringDesign>& designs,
                                                  const solver::AfterReview& review,
                                                  const std::function<void(int, int)>& tell,
                                                  solver::RunObserver& watch) {
    using Key = std::pair<std::pair<std::size_t, std::size_t>, double>;
    std::map<Key, std::optional<StrokeFit>> fits;
    const auto key_of = [](const solver::AfterComparison& c) {
        return Key{{c.measured.boring, c.sample}, c.measured.replacement_ratio};
    };
    for (const auto& comparison : review.comparisons)
        if (comparison.left_out.empty())
            fits[key_of(comparison)];
    int done = 0;
    const int all = static_cast<int>(fits.size() * std::size(tried_strokes));
    for (auto& [key, fit] : fits) {
        const solver::BoringDesign& design = designs[key.first.first];
        const std::size_t sample = key.first.second;
        std::string why;
        const auto cell = cell_of(site, design, sample, key.second, why);
        if (!cell) {
            fit.emplace().not_converged = why;
            continue;
        }
        fit = simulate(
            *cell, design.at_boring[sample].effective_kPa,
            chosen(design.states[sample], solver::Quantity::LateralStressRatio).value,
            [&] { tell(++done, all); }, watch);
        if (!fit)
            return std::vector<std::optional<StrokeFit>>(review.comparisons.size());
    }
    std::vector<std::optional<StrokeFit>> by_comparison;
    for (const auto& comparison : review.comparisons) {
        by_comparison.emplace_back();
        if (!comparison.left_out.empty())
            continue;
        StrokeFit fit = *fits.at(key_of(comparison));
        if (fit.not_converged.empty()) {
            fit.by_density = strokes_at(fit.trials, &StrokeTrial::blow_count, comparison.measured.blow_count);
            fit.by_stress =
                strokes_at(fit.trials, &StrokeTrial::stressed_blow_count, comparison.measured.blow_count);
        }
        by_comparison.back() = std::move(fit);
    }
    return by_comparison;
}

} // namespace interpile::io
