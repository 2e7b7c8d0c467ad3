// Chapter 4: what the simple design methods ask for.

#include "io/program/design_figures.h"
#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "io/site_summary.h"

#include <fmt/format.h>

namespace interpile::program {

namespace {

std::string letter(solver::DesignMethod method) {
    return {solver::letter_of(method)};
}

std::string pattern_word(mesh::Pattern pattern) {
    return pattern == mesh::Pattern::Triangular    ? "triangular"
           : pattern == mesh::Pattern::Rectangular ? "rectangular"
                                                   : "square";
}

std::string outcome_of(const solver::BoringDesign& design, std::size_t m) {
    const auto& method = design.methods[m];
    if (!method.governing)
        return has_target(design) ? "target holds before" : "no target";
    if (!method.out_of_reach)
        return "reached";
    const auto& need = design.needs[*method.governing].methods[m];
    return fmt::format("OUT OF REACH: {}; limit: {}",
                       need.largest_blow_count ? fmt::format("at most N {:.1f}", *need.largest_blow_count)
                                               : std::string("no gain promised"),
                       need.limit);
}

report::Table spacings_table(const std::vector<solver::BoringDesign>& designs) {
    report::Table table{
        "Spacing by boring and method",
        {text_column("boring"),
         text_column("method"),
         {"governing depth", "m"},
         {"N", "-"},
         {"N wanted", "-"},
         {"a_s", "-"},
         {"spacing", "m"},
         {"in practice", "m"},
         {"a_s then", "-"},
         {"mean heave", "m"},
         text_column("target")},
        {},
        {"In practice: rounded down to the step of the spacing. Mean heave: by the mass identity over "
         "the plan, upward positive."}};
    for (const auto& design : designs)
        for (std::size_t m = 0; m < design.methods.size(); ++m) {
            const auto& method = design.methods[m];
            std::vector<std::string> row = {design.boring.name, letter(method.method)};
            if (method.governing) {
                row.push_back(cell(design.boring.samples[*method.governing].depth_m, 1));
                row.push_back(cell(design.boring.samples[*method.governing].blow_count, 0));
                row.push_back(cell(design.needs[*method.governing].target_blow_count, 1));
                row.push_back(cell(method.replacement_ratio, 3));
                row.push_back(cell(method.spacing_m, 2));
                row.push_back(cell(method.practical_spacing_m, 2));
                row.push_back(cell(method.practical_ratio, 3));
                row.push_back(cell(method.heave_m, 2));
            }
            row.resize(table.columns.size() - 1, "\u2013");
            row.push_back(outcome_of(design, m));
            table.rows.push_back(std::move(row));
        }
    return table;
}

std::string need_text(const solver::MethodNeed& need) {
    switch (need.kind) {
    case solver::NeedKind::Reached:
        return "reached";
    case solver::NeedKind::Ratio:
        return cell(need.result.replacement_ratio, 3);
    case solver::NeedKind::OutOfReach:
        return "out of reach";
    }
    return {};
}

report::Table needs_table(const io::SiteFile& site, const solver::BoringDesign& design) {
    report::Table table{
        fmt::format("Boring {}: replacement ratio a_s asked for, by depth", design.boring.name),
        {{"depth", "m"}, {"F_c", "%"}, {"N", "-"}, {"N wanted", "-"}},
        {},
        {"Reached: the target holds before treatment."}};
    for (const auto method : site.aims.methods)
        table.columns.push_back({"a_s, method " + letter(method), "-"});
    RemarkList remarks;
    for (std::size_t i = 0; i < design.needs.size(); ++i) {
        const auto& need = design.needs[i];
        const auto& sample = design.boring.samples[i];
        if (!need.treated)
            continue;
        std::vector<std::string> row = {cell(sample.depth_m, 1), cell(sample.fines_pct, 0),
                                        cell(sample.blow_count, 0), cell(need.target_blow_count, 1)};
        for (std::size_t m = 0; m < need.methods.size(); ++m) {
            row.push_back(need_text(need.methods[m]));
            const std::string name = "method " + letter(site.aims.methods[m]) + ": ";
            if (need.methods[m].kind == solver::NeedKind::OutOfReach)
                remarks.add(name + need.methods[m].limit, sample.depth_m);
            for (const auto& remark : need.methods[m].result.remarks)
                remarks.add(name + remark, sample.depth_m);
        }
        if (!need.no_target.empty())
            remarks.add("no target: " + need.no_target, sample.depth_m);
        row.resize(table.columns.size(), "\u2013");
        table.rows.push_back(std::move(row));
    }
    for (auto& text : remarks.texts())
        table.notes.push_back(std::move(text));
    return table;
}

void add_sources(const io::SiteFile& site, SourceList& sources) {
    using enum solver::DesignMethod;
    for (const auto method : site.aims.methods) {
        const std::string use = "design method " + letter(method);
        if (method == A)
            sources.add("chart of the user", use);
        if (method == B || method == C)
            sources.add("from memory of the trade's void-ratio family of methods", use);
        if (method == D)
            sources.add("form read in published application 2000-345553, number in R_c from memory with low "
                        "confidence",
                        use);
        if (method != A)
            sources.add("from memory of Meyerhof (1957), metric form", "D_r of N in the design methods");
    }
}

} // namespace

Blocks methods_blocks(const ReportInput& input, SourceList& sources) {
    Blocks blocks;
    if (!input.site)
        return blocks;
    const auto& site = *input.site;
    add_sources(site, sources);
    blocks.push_back(report::Paragraph{fmt::format(
        "Piles of {:g} m in a {} pattern, treated from {:g} to {:g} m below ground; wanted between the "
        "piles: {}. The "
        "methods count density alone. Spacing, a_s and N after treatment in the figures are those of method "
        "{}.",
        site.aims.diameter_m, pattern_word(site.aims.shape.pattern), site.aims.top_depth_m,
        site.aims.bottom_depth_m, io::target_text(site.aims), letter(site.aims.methods[site.spacing_by]))});
    blocks.push_back(spacings_table(input.designs));
    for (const auto& design : input.designs) {
        blocks.push_back(report::Heading{"Boring " + design.boring.name});
        if (auto table = needs_table(site, design); !table.rows.empty())
            blocks.push_back(std::move(table));
        blocks.push_back(
            report::Figure{fmt::format("Boring {}: soil, N, F_L and a_s over depth", design.boring.name),
                           postprocess::depth_profile(profile_figure(site, design))});
        if (const auto figure = ratio_figure(site, design))
            blocks.push_back(
                report::Figure{fmt::format("Boring {}: N after treatment against a_s at the governing depth",
                                           design.boring.name),
                               postprocess::blow_count_chart(*figure)});
    }
    return blocks;
}

} // namespace interpile::program
