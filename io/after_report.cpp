#include "io/after_report.h"

#include "io/csv_text.h"
#include "io/site_summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace interpile::io {

namespace {

using solver::AfterReview;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::string letter(solver::DesignMethod method) {
    return {solver::letter_of(method)};
}

std::string tests_table(const SiteFile& site, const std::vector<solver::BoringDesign>& designs,
                        const AfterReview& review) {
    std::vector<std::string> head = {"place",
                                     "boring_before",
                                     "depth_m",
                                     "days_after",
                                     "replacement_ratio",
                                     "blow_count_before",
                                     "blow_count_measured"};
    for (const auto method : site.aims.methods)
        head.push_back("blow_count_method_" + letter(method));
    for (const char* name :
         {"blow_count_simulated", "relative_density_before_pct", "relative_density_after_pct", "efficiency",
          "safety_factor", "target_kept", "remarks"})
        head.emplace_back(name);
    CsvText csv(head);
    for (const auto& c : review.comparisons) {
        csv.cell(c.measured.place).cell(designs[c.measured.boring].boring.name).cell(c.measured.depth_m);
        csv.cell(c.measured.days_after).cell(c.measured.replacement_ratio).cell(c.blow_count_before);
        csv.cell(c.measured.blow_count);
        std::vector<std::string> remarks;
        for (std::size_t m = 0; m < site.aims.methods.size(); ++m) {
            csv.cell(c.predictions.empty() ? none : c.predictions[m].blow_count_after);
            if (!c.predictions.empty() && !c.predictions[m].outside.empty())
                remarks.push_back("method " + letter(site.aims.methods[m]) + ": " + c.predictions[m].outside);
        }
        if (!c.left_out.empty())
            remarks.push_back("left out: " + c.left_out);
        csv.cell(c.measured.simulated_blow_count).cell(c.relative_density_before_pct);
        csv.cell(c.relative_density_after_pct).cell(c.efficiency).cell(c.safety ? c.safety->value : none);
        csv.cell(c.target_kept ? (*c.target_kept ? "yes" : "no") : "").cell(joined(remarks)).end_row();
    }
    return csv.text();
}

std::string scores_table(const SiteFile& site, const AfterReview& review) {
    CsvText csv({"quantity", "by", "count", "value", "standard_deviation_or_error"});
    const auto add = [&](const std::string& by, const solver::PredictionScore& score) {
        csv.cell("measured over predicted N").cell(by).cell(score.count);
        csv.cell(score.count > 0 ? score.mean_ratio : none).cell(score.ratio_deviation).end_row();
        csv.cell("measured less predicted N").cell(by).cell(score.count);
        csv.cell(score.count > 0 ? score.bias : none).cell(score.scatter).end_row();
    };
    for (std::size_t m = 0; m < site.aims.methods.size(); ++m)
        add("method " + letter(site.aims.methods[m]), review.methods[m]);
    add("simulation", review.simulated);
    csv.cell("efficiency eta").cell("fit").cell(review.efficiency.count).cell(review.efficiency.value);
    csv.cell(review.efficiency.standard_error).end_row();
    csv.cell("change of the gain of D_r^2 per a_s with D_r before")
        .cell("fit")
        .cell(review.density_trend.count);
    csv.cell(review.density_trend.value).cell(review.density_trend.standard_error).end_row();
    return csv.text();
}

std::string strokes_table(const std::vector<solver::BoringDesign>& designs, const AfterReview& review,
                          const StrokeFits& fits) {
    CsvText csv({"place", "boring_before", "depth_m", "replacement_ratio", "blow_count_measured", "strokes",
                 "relative_density_pct", "lateral_stress_ratio", "blow_count_density_alone",
                 "blow_count_with_lateral_stress", "strokes_fitted_density_alone",
                 "strokes_fitted_with_lateral_stress", "remarks"});
    for (std::size_t i = 0; i < fits.size(); ++i) {
        if (!fits[i])
            continue;
        const auto& c = review.comparisons[i];
        const auto begin = [&] {
            csv.cell(c.measured.place).cell(designs[c.measured.boring].boring.name).cell(c.measured.depth_m);
            csv.cell(c.measured.replacement_ratio).cell(c.measured.blow_count);
        };
        for (const auto& trial : fits[i]->trials) {
            begin();
            csv.cell(trial.strokes).cell(trial.relative_density_pct).cell(trial.lateral_stress_ratio);
            csv.cell(trial.blow_count).cell(trial.stressed_blow_count).cell(fits[i]->by_density);
            csv.cell(fits[i]->by_stress).cell("").end_row();
        }
        if (!fits[i]->not_converged.empty()) {
            begin();
            for (int n = 0; n < 7; ++n)
                csv.cell("");
            csv.cell("NO FIT: " + fits[i]->not_converged).end_row();
        }
    }
    return csv.text();
}

std::string tests_text(std::size_t count) {
    return fmt::format("{} test{}", count, count == 1 ? "" : "s");
}

std::string score_text(const std::string& by, const solver::PredictionScore& score) {
    if (score.count == 0)
        return fmt::format("  {:<12} no test to compare with\n", by);
    std::string text = fmt::format("  {:<12} measured over predicted N {:.2f}", by, score.mean_ratio);
    if (!std::isnan(score.ratio_deviation))
        text += fmt::format(" +- {:.2f}", score.ratio_deviation);
    text += fmt::format(", bias {:+.1f} blows", score.bias);
    if (!std::isnan(score.scatter))
        text += fmt::format(", scatter {:.1f}", score.scatter);
    return text + fmt::format(" ({})\n", tests_text(score.count));
}

std::string range_text(const char* what, const StrokeRange& range) {
    std::string text = fmt::format("  strokes, {}: ", what);
    text += range.found == 0 ? std::string("none fits")
                             : fmt::format("median {:.0f}, quartiles {:.0f} .. {:.0f} ({})", range.median,
                                           range.low, range.high, tests_text(range.found));
    if (range.fewer_than_tried > 0)
        text += fmt::format("; {} below what a single stroke gives", range.fewer_than_tried);
    if (range.more_than_tried > 0)
        text += fmt::format("; {} above what {} strokes give", range.more_than_tried,
                            *std::max_element(std::begin(tried_strokes), std::end(tried_strokes)));
    return text + '\n';
}

/// Value at a share of the sorted values, straight between neighbors.
double quantile(const std::vector<double>& sorted, double share) {
    if (sorted.empty())
        return none;
    const double at = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(at);
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    return sorted[below] + (at - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

} // namespace

StrokeRange stroke_range(const AfterReview& review, const StrokeFits& fits,
                         std::optional<double> StrokeFit::*fitted, double StrokeTrial::*quantity) {
    StrokeRange range;
    std::vector<double> found;
    for (std::size_t i = 0; i < fits.size(); ++i) {
        if (!fits[i] || !fits[i]->not_converged.empty() || fits[i]->trials.empty())
            continue;
        if (const auto& strokes = (*fits[i]).*fitted)
            found.push_back(*strokes);
        else if (review.comparisons[i].measured.blow_count < fits[i]->trials.front().*quantity)
            ++range.fewer_than_tried;
        else
            ++range.more_than_tried;
    }
    std::sort(found.begin(), found.end());
    range.found = static_cast<int>(found.size());
    range.low = quantile(found, 0.25);
    range.median = quantile(found, 0.5);
    range.high = quantile(found, 0.75);
    return range;
}

std::vector<NamedTable> after_tables(const SiteFile& site, const std::vector<solver::BoringDesign>& designs,
                                     const AfterReview& review, const StrokeFits& fits) {
    std::vector<NamedTable> tables = {{"tests.csv", tests_table(site, designs, review)},
                                      {"scores.csv", scores_table(site, review)}};
    if (!fits.empty())
        tables.push_back({"strokes.csv", strokes_table(designs, review, fits)});
    return tables;
}

std::string after_summary(const SiteFile& site, const AfterReview& review, const StrokeFits& fits) {
    int compared = 0, kept = 0, judged = 0;
    for (const auto& c : review.comparisons) {
        compared += c.left_out.empty() ? 1 : 0;
        judged += c.target_kept ? 1 : 0;
        kept += c.target_kept.value_or(false) ? 1 : 0;
    }
    std::string text = fmt::format("{}: {} between the piles, {} compared\n", site.title,
                                   tests_text(review.comparisons.size()), compared);
    text += fmt::format("  target {}: kept by {} of {} judged\n", target_text(site.aims), kept, judged);
    for (const auto& c : review.comparisons)
        if (!c.target_kept.value_or(true))
            text += fmt::format("    NOT KEPT at {}, {:g} m: N {:g}{}\n", c.measured.place,
                                c.measured.depth_m, c.measured.blow_count,
                                c.safety ? fmt::format(", F_L {:.2f}", c.safety->value) : std::string());
    for (std::size_t m = 0; m < site.aims.methods.size(); ++m)
        text += score_text("method " + letter(site.aims.methods[m]), review.methods[m]);
    text += score_text("simulation", review.simulated);
    if (review.efficiency.count > 0)
        text += fmt::format(
            "  efficiency {:.2f}{} (fit{}; on the high side, since N measured holds the lateral "
            "stress too)\n",
            review.efficiency.value,
            review.efficiency.count > 1 ? fmt::format(" +- {:.2f}", review.efficiency.standard_error) : "",
            review.efficiency.count > 1 ? ", standard error" : "");
    text += fmt::format("  {}", verdict_text(review.verdict));
    if (review.verdict != solver::TrendVerdict::TooFew)
        text += fmt::format(
            ": the gain of D_r^2 per a_s changes by {:.2f} +- {:.2f} with D_r before, both from 0 to 1",
            review.density_trend.value, review.density_trend.standard_error);
    text += '\n';
    if (!fits.empty()) {
        text += range_text("N of density alone",
                           stroke_range(review, fits, &StrokeFit::by_density, &StrokeTrial::blow_count));
        text += range_text("N with lateral stress", stroke_range(review, fits, &StrokeFit::by_stress,
                                                                 &StrokeTrial::stressed_blow_count));
        const auto stopped = std::count_if(
            fits.begin(), fits.end(), [](const auto& fit) { return fit && !fit->not_converged.empty(); });
        if (stopped > 0)
            text += fmt::format("  NO FIT at {}: no simulation there ran to its end, see strokes.csv\n",
                                tests_text(static_cast<std::size_t>(stopped)));
    }
    return text + design_caution() + '\n';
}

} // namespace interpile::io
