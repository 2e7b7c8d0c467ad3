// Chapter 3: liquefaction before treatment, by every procedure.

#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "io/site_summary.h"
#include "solver/liquefaction/severity.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace interpile::program {

namespace {

report::Table safety_table(const solver::BoringDesign& design, std::vector<double>& disagree_m) {
    report::Table table{"Boring " + design.boring.name + ": F_L before treatment, by procedure",
                        {{"depth", "m"}, {"N", "-"}},
                        {}};
    for (const auto& info : solver::procedure_table())
        table.columns.push_back({info.name, "-"});
    table.columns.push_back(text_column("procedures"));
    RemarkList remarks;
    for (const auto& sample : design.before.samples) {
        if (!sample.judged)
            continue;
        std::vector<std::string> row = {cell(sample.point.depth_m, 1), cell(sample.point.blow_count, 0)};
        for (std::size_t p = 0; p < sample.factors.size(); ++p) {
            const auto& factor = sample.factors[p];
            row.push_back(cell(factor.value, 2));
            const std::string& name = solver::procedure_table()[p].name;
            if (!factor.refused.empty())
                remarks.add(name + " refuses: " + factor.refused, sample.point.depth_m);
            for (const auto& remark : factor.remarks)
                remarks.add(name + ": " + remark, sample.point.depth_m);
        }
        row.emplace_back(sample.procedures_disagree() ? "disagree" : "agree");
        if (sample.procedures_disagree())
            disagree_m.push_back(sample.point.depth_m);
        table.rows.push_back(std::move(row));
    }
    table.notes = remarks.texts();
    table.notes.insert(
        table.notes.begin(),
        "Sand below the water table of the earthquake. \u221e: not liquefiable by the procedure; "
        "\u2013: no answer. Disagree: some give less than 1, others not.");
    return table;
}

report::Table severity_table(const std::vector<solver::BoringDesign>& designs) {
    report::Table table{
        "Severity before treatment",
        {text_column("boring"),
         text_column("procedure"),
         {"P_L", "-"},
         text_column("class"),
         {"settlement", "m"},
         {"reaches to", "m"}},
        {},
        {"P_L: liquefaction potential index, weight of the uppermost 20 m; none where a sample was "
         "refused. Settlement: after liquefaction, level ground."}};
    for (const auto& design : designs)
        for (std::size_t p = 0; p < design.before.severity.size(); ++p) {
            const auto& severity = design.before.severity[p];
            table.rows.push_back(
                {design.boring.name, solver::procedure_table()[p].name, cell(severity.potential_index, 1),
                 severity.potential_index
                     ? solver::severity_name(solver::severity_class(*severity.potential_index))
                     : "none",
                 cell(severity.settlement_m, 2), cell(severity.reaches_to_m, 1)});
        }
    return table;
}

report::Table procedures_table(SourceList& sources) {
    report::Table table{
        "Procedures",
        {text_column("procedure"), text_column("title"), text_column("holds for"), text_column("source")},
        {}};
    for (const auto& info : solver::procedure_table()) {
        table.rows.push_back({info.name, info.title, info.validity, info.source});
        sources.add(info.source, "F_L by " + info.name);
    }
    sources.add("from memory of Iwasaki et al. (1978, 1982)",
                "liquefaction potential index P_L and its classes");
    sources.add(
        "from memory of Ishihara & Yoshimine (1992), Yoshimine et al. (2006), Idriss & Boulanger (2008)",
        "settlement after liquefaction");
    return table;
}

std::string earthquake_text(const solver::Earthquake& quake) {
    std::string text = fmt::format("Earthquake: magnitude {:g}, {}", quake.moment_magnitude,
                                   quake.inland ? "inland" : "plate boundary");
    if (quake.peak_acceleration_g > 0)
        text += fmt::format(", peak acceleration {:g} g at the surface", quake.peak_acceleration_g);
    if (quake.design_coefficient_khg > 0)
        text += fmt::format(", design coefficient k_hg {:g}", quake.design_coefficient_khg);
    return text + ".";
}

} // namespace

Blocks need_blocks(const ReportInput& input, SourceList& sources) {
    Blocks blocks;
    if (!input.site)
        return blocks;
    blocks.push_back(
        report::Paragraph{earthquake_text(input.site->quake) +
                          fmt::format(" Wanted between the piles: {}.", io::target_text(input.site->aims))});
    for (const auto& design : input.designs) {
        std::vector<double> disagree_m;
        auto table = safety_table(design, disagree_m);
        if (table.rows.empty()) {
            blocks.push_back(report::Paragraph{fmt::format(
                "Boring {}: no sand below the water table of the earthquake.", design.boring.name)});
            continue;
        }
        if (!disagree_m.empty())
            blocks.push_back(
                report::Caution{fmt::format("Boring {}: the procedures disagree on liquefaction at {:g} m.",
                                            design.boring.name, fmt::join(disagree_m, ", "))});
        blocks.push_back(std::move(table));
    }
    blocks.push_back(severity_table(input.designs));
    blocks.push_back(procedures_table(sources));
    return blocks;
}

} // namespace interpile::program
