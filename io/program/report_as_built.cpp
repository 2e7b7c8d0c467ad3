// Chapter 10: what was built against what was ordered.

#include "io/as_built_report.h"
#include "io/as_built_tables.h"
#include "io/program/as_built_map.h"
#include "io/program/report_cells.h"
#include "io/program/report_parts.h"

#include <fmt/format.h>

#include <numbers>

namespace interpile::program {

namespace {

constexpr std::size_t most_spots = 30; ///< own choice; the command as-built writes them all

report::Table spots_table(const io::AsBuiltSite& site) {
    report::Table table{
        "Weak spots, the worst first",
        {text_column("pile"),
         {"from", "m"},
         {"to", "m"},
         text_column("quantity"),
         {"as built", {}},
         {"limit", {}},
         text_column("unit"),
         {"severity", "-"}},
        {},
        {"Depths below the surface. Severity ranks findings of different kinds: of sand the missing share of "
         "a meter, of length the missing meters, of position and slope the distance over the diameter."}};
    for (const auto& [finding, severity] : site.weak_spots) {
        if (table.rows.size() == most_spots)
            break;
        table.rows.push_back({finding.pile, cell(finding.from_depth_m, 2), cell(finding.to_depth_m, 2),
                              io::quantity_of(finding.what), cell(finding.value, 3), cell(finding.limit, 3),
                              io::unit_of(finding.what), cell(severity, 2)});
    }
    if (site.weak_spots.size() > most_spots)
        table.notes.push_back(fmt::format("{} more are in weak-spots.csv of the command as-built.",
                                          site.weak_spots.size() - most_spots));
    return table;
}

/// Of piles that are not as ordered.
report::Table piles_table(const io::AsBuiltSite& site) {
    report::Table table{"Piles that deviate or are not recorded",
                        {text_column("pile"),
                         {"ordered length", "m"},
                         {"length", "m"},
                         {"sand over ordered", "-"},
                         {"off its place", "m"},
                         text_column("verdict"),
                         text_column("findings")},
                        {}};
    for (const auto& pile : site.piles) {
        if (pile.verdict() != io::PileVerdict::Deviates && pile.verdict() != io::PileVerdict::NotRecorded)
            continue;
        const auto& design = pile.design;
        const double length_m = design.bottom_depth_m - design.top_depth_m;
        const double sand_m3 = std::numbers::pi / 4 * design.diameter_m * design.diameter_m * length_m;
        table.rows.push_back({pile.ordered.name, cell(length_m, 2),
                              pile.built ? cell(pile.built->length_m, 2) : "\u2013",
                              pile.built ? cell(pile.built->sand_volume_m3 / sand_m3, 2) : "\u2013",
                              pile.position_deviation_m ? cell(*pile.position_deviation_m, 2) : "\u2013",
                              io::description(pile.verdict()), io::spot_remark(pile)});
    }
    return table;
}

} // namespace

Blocks as_built_blocks(const ReportInput& input, SourceList& sources) {
    if (!input.built)
        return {};
    const auto& site = *input.built;
    Blocks blocks = {report::Paragraph{io::as_built_counts(site) + "."},
                     report::Caution{io::as_built_caution()}};
    if (const auto open = io::left_open(site); !open.empty()) {
        blocks.push_back(report::Paragraph{"Left open, neither kept nor broken:"});
        blocks.push_back(report::Items{open});
    }
    if (auto table = piles_table(site); !table.rows.empty())
        blocks.push_back(std::move(table));
    if (auto table = spots_table(site); !table.rows.empty())
        blocks.push_back(std::move(table));
    blocks.push_back(report::Figure{"What was built against what was ordered, in plan",
                                    postprocess::weak_spots_map(as_built_map(*input.works, site))});
    sources.add("derived: volume of the sand by depth from the log of the casing", "piles as built");
    return blocks;
}

} // namespace interpile::program
