// Chapter 11: tests between the piles after treatment.

#include "io/program/design_figures.h"
#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "io/site_summary.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::program {

namespace {

report::Table tests_table(const ReportInput& input) {
    const auto& methods = input.site->aims.methods;
    report::Table table{"Tests between the piles",
                        {text_column("place"),
                         text_column("boring before"),
                         {"depth", "m"},
                         {"a_s", "-"},
                         {"N before", "-"},
                         {"N measured", "-"}},
                        {}};
    for (const auto method : methods)
        table.columns.push_back({fmt::format("N by {}", solver::letter_of(method)), "-"});
    for (const auto& column : {report::Column{"D_r before", "%"}, report::Column{"D_r after", "%"},
                               report::Column{"F_L", "-"}, text_column("target")})
        table.columns.push_back(column);
    table.notes = {"N by method: density alone at a_s as built; N measured holds the effect of the lateral "
                   "stress too. D_r by Meyerhof's form of N. F_L: of N measured, K not counted besides."};
    RemarkList remarks;
    for (const auto& c : input.review->comparisons) {
        std::vector<std::string> row = {c.measured.place,
                                        input.designs[c.measured.boring].boring.name,
                                        cell(c.measured.depth_m, 1),
                                        cell(c.measured.replacement_ratio, 3),
                                        cell(c.blow_count_before, 0),
                                        cell(c.measured.blow_count, 0)};
        for (std::size_t m = 0; m < methods.size(); ++m) {
            row.push_back(c.predictions.empty() ? "\u2013" : cell(c.predictions[m].blow_count_after, 1));
            if (!c.predictions.empty() && !c.predictions[m].outside.empty())
                remarks.add(
                    fmt::format("method {}: {}", solver::letter_of(methods[m]), c.predictions[m].outside),
                    c.measured.depth_m);
        }
        row.push_back(c.left_out.empty() ? cell(c.relative_density_before_pct, 0) : "\u2013");
        row.push_back(c.left_out.empty() ? cell(c.relative_density_after_pct, 0) : "\u2013");
        row.push_back(c.safety ? cell(c.safety->value, 2) : "\u2013");
        row.emplace_back(!c.target_kept ? "\u2013" : *c.target_kept ? "kept" : "NOT KEPT");
        if (!c.left_out.empty())
            remarks.add("left out: " + c.left_out, c.measured.depth_m);
        table.rows.push_back(std::move(row));
    }
    for (auto& text : remarks.texts())
        table.notes.push_back(std::move(text));
    return table;
}

report::Table scores_table(const ReportInput& input) {
    report::Table table{"Measured against predicted N",
                        {text_column("prediction"),
                         {"tests", "-"},
                         {"measured over predicted, mean", "-"},
                         {"standard deviation", "-"},
                         {"bias", "blows"},
                         {"scatter", "blows"}},
                        {}};
    const auto add = [&](const std::string& by, const solver::PredictionScore& score) {
        if (score.count > 0)
            table.rows.push_back({by, std::to_string(score.count), cell(score.mean_ratio, 2),
                                  cell(score.ratio_deviation, 2), cell(score.bias, 1),
                                  cell(score.scatter, 1)});
    };
    for (std::size_t m = 0; m < input.review->methods.size(); ++m)
        add(fmt::format("method {}", solver::letter_of(input.site->aims.methods[m])),
            input.review->methods[m]);
    add("simulation", input.review->simulated);
    return table;
}

} // namespace

Blocks tests_blocks(const ReportInput& input, SourceList& sources) {
    if (!input.review)
        return {};
    const auto& review = *input.review;
    const auto judged = std::count_if(review.comparisons.begin(), review.comparisons.end(),
                                      [](const auto& c) { return c.target_kept.has_value(); });
    const auto kept = std::count_if(review.comparisons.begin(), review.comparisons.end(),
                                    [](const auto& c) { return c.target_kept.value_or(false); });
    Blocks blocks = {report::Paragraph{
        fmt::format("{} tests between the piles; the target, {}, is kept by {} of {} judged.",
                    review.comparisons.size(), io::target_text(input.site->aims), kept, judged)}};
    if (kept < judged)
        blocks.push_back(
            report::Caution{fmt::format("The target is NOT KEPT by {} of {} tests.", judged - kept, judged)});
    blocks.push_back(tests_table(input));
    if (auto table = scores_table(input); !table.rows.empty())
        blocks.push_back(std::move(table));
    if (const auto figure = scatter_figure(*input.site, review))
        blocks.push_back(report::Figure{"N measured between the piles against N predicted",
                                        postprocess::prediction_scatter(*figure)});
    std::string text;
    if (review.efficiency.count > 0)
        text = fmt::format("Efficiency of the piles {} \u00b1 {} (fit, standard error; on the high side, "
                           "since N measured holds the lateral stress too). ",
                           cell(review.efficiency.value, 2), cell(review.efficiency.standard_error, 2));
    text += fmt::format("Trend with density: {}", verdict_text(review.verdict));
    if (review.verdict != solver::TrendVerdict::TooFew)
        text +=
            fmt::format(", the gain of D_r per a_s changes by {} \u00b1 {} for each percent of D_r before",
                        cell(review.density_trend.value, 2), cell(review.density_trend.standard_error, 2));
    blocks.push_back(report::Paragraph{text + "."});
    sources.add("from memory of Meyerhof (1957), metric form", "D_r of the tests after treatment");
    return blocks;
}

} // namespace interpile::program
