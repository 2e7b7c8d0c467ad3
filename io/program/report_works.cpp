// Chapters 8 and 9: neighbors of the works, and what is ordered.

#include "io/fixed_digits.h"
#include "io/instruction_sheet.h"
#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "solver/surroundings/screening_sources.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::program {

namespace {

using io::fixed;

std::string range_text(const io::NumberRange& range, double factor) {
    const std::string low = cell(factor * range.low, 1), high = cell(factor * range.high, 1);
    return low == high ? low : low + " .. " + high;
}

report::Table displacement_table(const std::vector<io::NeighborRow>& rows, const io::NeighborsPlan& plan) {
    report::Table table{"Displacement of the surface when all piles stand",
                        {text_column("place"),
                         {"nearest pile", "m"},
                         {"outward, bound", "mm"},
                         {"outward, range", "mm"},
                         {"heave, bound", "mm"},
                         {"heave, range", "mm"}},
                        {},
                        {fmt::format("Bound: no ground densifies. Range: {:g} .. {:g} of the pile volume "
                                     "densifies the ground. Heave upward positive.",
                                     plan.efficiency.low, plan.efficiency.high)}};
    for (const auto& row : rows)
        if (const auto& pushed = row.pushed)
            table.rows.push_back({row.place, cell(row.nearest_pile_m, 2),
                                  cell(1e3 * pushed->outward_bound_m, 1), range_text(pushed->outward_m, 1e3),
                                  cell(1e3 * pushed->heave_bound_m, 1), range_text(pushed->heave_m, 1e3)});
    return table;
}

report::Table levels_table(const std::vector<io::NeighborRow>& rows, const io::NeighborsPlan& plan) {
    report::Table table{
        "Vibration and noise of one rig at the nearest pile, against the limits of the border",
        {text_column("place"),
         {"nearest pile", "m"},
         text_column("work"),
         {"vibration", "dB"},
         text_column("against limit"),
         {"noise", "dB(A)"},
         text_column("against limit")},
        {},
        {fmt::format("Vibration: vertical, weighted, re 1e-5 m/s2, limit {:g} dB, attenuation {:g} .. {:g} "
                     "1/m. Noise: limit {:g} dB(A). Levels of one kind of machine differ by 20 dB between "
                     "sites: measure at the site.",
                     plan.vibration_limit_dB, plan.attenuation_per_m.low, plan.attenuation_per_m.high,
                     plan.noise_limit_dB)}};
    for (const auto& row : rows)
        for (const bool vibratory : {false, true}) {
            const auto& work = vibratory ? row.vibratory : row.non_vibratory;
            table.rows.push_back({row.place, cell(row.nearest_pile_m, 2),
                                  vibratory ? "vibratory" : "non-vibratory",
                                  range_text(work.vibration.level_dB, 1), description(work.vibration.check),
                                  range_text(work.noise.level_dB, 1), description(work.noise.check)});
        }
    if (std::any_of(rows.begin(), rows.end(), [](const auto& row) { return row.nearer_than_measured; }))
        table.notes.emplace_back("Some levels are taken nearer to the source than it was measured.");
    return table;
}

report::Table summary_table(const io::WorksFile& works, const std::vector<solver::StrokeStep>& steps) {
    const auto& pile = works.pile;
    const auto totals = io::sand_totals(works);
    return {"What is ordered",
            {text_column("quantity"), {"value", {}}, text_column("unit")},
            {{"piles", std::to_string(works.piles.size()), "-"},
             {"casing diameter", fixed(pile.casing_diameter_m, 3), "m"},
             {"finished diameter", fixed(pile.pile_diameter_m, 3), "m"},
             {"top of the pile, below the surface", fixed(pile.top_depth_m, 2), "m"},
             {"lower end of the pile, below the surface", fixed(pile.bottom_depth_m, 2), "m"},
             {"strokes of a pile", std::to_string(steps.size()), "-"},
             {"full stroke: withdraw", fixed(steps.front().withdrawal_m, 3), "m"},
             {"full stroke: re-drive", fixed(steps.front().redrive_m, 3), "m"},
             {"full stroke: net rise", fixed(steps.front().net_rise_m, 3), "m"},
             {"bulking: loose volume over volume in the pile", fixed(pile.bulking, 2), "-"},
             {"sand of a pile, loose", fixed(steps.back().total_loose_m3, 3), "m3"},
             {"sand of a pile, in place", fixed(steps.back().total_in_place_m3, 3), "m3"},
             {"sand of all piles, loose", fixed(totals.loose_m3, 3), "m3"},
             {"sand of all piles, in place: sum of all strokes", fixed(totals.in_place_m3, 3), "m3"},
             {"design volume: number x area x length", fixed(totals.design_m3, 3), "m3"},
             {"difference of the last two", fixed(std::abs(totals.in_place_m3 - totals.design_m3), 3), "m3"},
             {"rest between piles", fmt::format("{:g}", works.rest_h), "h"},
             {"allowed distance of a pile from its place", fixed(works.limits.position_m, 2), "m"},
             {"allowed slope of a pile", fixed(works.limits.verticality, 3), "-"}}};
}

report::Table order_table(const io::WorksFile& works) {
    report::Table table{"Order of work",
                        {{"order", "-"}, text_column("pile"), {"x", "m"}, {"y", "m"}},
                        {},
                        {"Center x, y in the axes of the site."}};
    for (std::size_t place = 0; place < works.order.size(); ++place) {
        const auto& pile = works.piles[works.order[place]];
        table.rows.push_back(
            {std::to_string(place + 1), pile.name, cell(pile.center_m.x(), 2), cell(pile.center_m.y(), 2)});
    }
    return table;
}

} // namespace

Blocks neighbors_blocks(const ReportInput& input, SourceList& sources) {
    if (!input.works || !input.works->neighbors)
        return {};
    const auto& plan = *input.works->neighbors;
    const auto rows = io::screen_neighbors(plan);
    Blocks blocks = {
        report::Paragraph{fmt::format("{}: screening of the neighbors of {} piles, no more than that.",
                                      input.works->title, input.works->piles.size())}};
    if (auto table = displacement_table(rows, plan); !table.rows.empty())
        blocks.push_back(std::move(table));
    blocks.push_back(levels_table(rows, plan));
    for (const auto& source : solver::screening_sources())
        if (source.name == "non-vibratory sand pile" || source.name == "vibratory hammer from 40 kW" ||
            source.name == "vibratory sand pile")
            sources.add(std::string(source.source), fmt::format("level of a {}", source.name));
    sources.add("from memory of Sagaseta & Whittle (2001), point source with image",
                "displacement of the surface");
    sources.add("construction vibration manual (Japan, 1994), as quoted on a public page",
                "vibration over the distance");
    sources.add("from memory of acoustics textbooks, point source on a reflecting plane",
                "noise over the distance");
    return blocks;
}

Blocks instruction_blocks(const ReportInput& input, SourceList& sources) {
    if (!input.works)
        return {};
    const auto& works = *input.works;
    const auto steps = solver::stroke_instruction(works.pile);
    for (const auto& setting : works.settings)
        if (setting.is_default)
            sources.add(setting.source, "default of " + setting.key);
    sources.add("derived: volume balance of a stroke", "strokes of a pile");
    Blocks blocks = {
        report::Paragraph{
            works.title +
            ". Computed from the volume balance of a stroke; confirm strokes and bulking by trial piles. The "
            "sheet for the rig, with every stroke, is made by the command instruction."},
        summary_table(works, steps)};
    if (const auto defaults = io::instruction_defaults(works); !defaults.empty()) {
        report::Items items;
        for (const auto& text : defaults)
            items.texts.push_back("Default: " + text);
        blocks.push_back(std::move(items));
    }
    blocks.push_back(order_table(works));
    return blocks;
}

} // namespace interpile::program
