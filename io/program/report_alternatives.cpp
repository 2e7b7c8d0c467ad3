// Chapter 7: the members of a study side by side.

#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "io/program/study_figures.h"
#include "io/vocabulary.h"
#include "postprocess/figures/blow_count_chart.h"
#include "postprocess/figures/spacing_curves.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::program {

namespace {

constexpr std::size_t most_members = 60; ///< own choice: two pages of a table
constexpr std::size_t most_figures = 4;  ///< of a kind, own choice

std::size_t without_result(const ReportInput& input) {
    return static_cast<std::size_t>(
        std::count_if(input.members.begin(), input.members.end(), [](const io::StudyRow& row) {
            return row.result.state != io::MemberState::Converged;
        }));
}

/// "layout.spacing_m": "spacing" in m.
report::Column factor_column(const io::StudyFactor& factor) {
    std::string name = factor.key.substr(factor.key.rfind('.') + 1);
    const std::string unit(io::unit_of(name));
    std::string ending = unit == "%" ? "_pct" : "_" + unit;
    std::replace(ending.begin(), ending.end(), '/', '_');
    if (name.ends_with(ending))
        name.resize(name.size() - ending.size());
    std::replace(name.begin(), name.end(), '_', ' ');
    return factor.numeric ? report::Column{name, unit} : text_column(name);
}

report::Table members_table(const ReportInput& input) {
    report::Table table{input.study->title + ": alternatives", {{"no.", {}}}, {}};
    for (const auto& factor : input.study->factors)
        table.columns.push_back(factor_column(factor));
    for (const auto& column :
         {report::Column{"a_s", "-"}, report::Column{"D_r", "%"}, report::Column{"least D_r", "%"},
          report::Column{"K", "-"}, report::Column{"heave", "%"}, report::Column{"N before", "-"},
          report::Column{"N", "-"}, report::Column{"N with K", "-"}})
        table.columns.push_back(column);
    const bool all_there = without_result(input) == 0;
    if (!all_there)
        table.columns.push_back(text_column("state"));
    table.notes = {"No.: member of the study. D_r, K: mean of the ground between the piles after treatment; "
                   "N: of D_r by "
                   "Meyerhof's form, alone and with the effect of K (own derivation)."};
    for (const auto& row : input.members) {
        if (table.rows.size() == most_members)
            break;
        const auto& r = row.result;
        std::vector<std::string> cells = {std::to_string(row.number)};
        const auto& values = input.study->members[row.number - 1].values;
        cells.insert(cells.end(), values.begin(), values.end());
        for (const auto& text :
             {cell(r.replacement_ratio, 3), cell(r.density_pct, 1), cell(r.weakest_density_pct, 1),
              cell(r.stress_ratio, 2), cell(r.heave_pct, 2), cell(row.blow_counts.before, 1),
              cell(row.blow_counts.after, 1), cell(row.blow_counts.stressed, 1)})
            cells.push_back(text);
        if (!all_there)
            cells.emplace_back(io::in_words(r.state));
        table.rows.push_back(std::move(cells));
    }
    if (input.members.size() > most_members)
        table.notes.push_back(fmt::format("The first {} of {} members; study.csv has them all.", most_members,
                                          input.members.size()));
    return table;
}

} // namespace

Blocks alternatives_blocks(const ReportInput& input, SourceList& sources) {
    if (!input.study)
        return {};
    Blocks blocks = {report::Paragraph{
        fmt::format("{}: one case with other values of some keys, {} alternatives, each simulated.",
                    input.study->title, input.members.size())}};
    if (const std::size_t without = without_result(input); without > 0)
        blocks.push_back(report::Caution{
            fmt::format("{} of {} alternatives have NO RESULT: not run, not converged or failed.", without,
                        input.members.size())});
    if (std::any_of(input.members.begin(), input.members.end(),
                    [](const auto& row) { return !row.result.densifies; }))
        blocks.push_back(
            report::Caution{"The soil model of the study does not densify under repeated strokes: "
                            "its D_r and N after treatment are not predictions."});
    blocks.push_back(members_table(input));
    auto curves = spacing_figures(*input.study, input.members);
    for (std::size_t k = 0; k < std::min(curves.size(), most_figures); ++k)
        blocks.push_back(report::Figure{input.study->title + ": D_r and K of the alternatives",
                                        postprocess::spacing_curves(curves[k])});
    auto counts = blow_count_figures(*input.study, input.members);
    for (std::size_t k = 0; k < std::min(counts.size(), most_figures); ++k)
        blocks.push_back(report::Figure{input.study->title + ": simulated N beside the simple methods",
                                        postprocess::blow_count_chart(counts[k])});
    sources.add("from memory of Meyerhof (1957), metric form", "N of the alternatives");
    return blocks;
}

} // namespace interpile::program
