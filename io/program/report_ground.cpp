// Chapter 2: the ground before treatment.

#include "io/program/report_cells.h"
#include "io/program/report_parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::program {

namespace {

using solver::Quantity;

std::string water_text(double depth_m) {
    return depth_m < 0 ? fmt::format("{:g} m above ground", -depth_m)
                       : fmt::format("{:g} m below ground", depth_m);
}

std::string density_spread(const solver::GroundQuantity& density) {
    if (density.others.empty())
        return "\u2013";
    const auto [low, high] =
        std::minmax_element(density.others.begin(), density.others.end(),
                            [](const auto& a, const auto& b) { return a.value < b.value; });
    return fmt::format("{} .. {}", cell(low->value, 0), cell(high->value, 0));
}

report::Table ground_table(const solver::BoringDesign& design, SourceList& sources) {
    report::Table table{
        "Boring " + design.boring.name + ": ground before treatment",
        {{"depth", "m"},
         text_column("soil"),
         {"N", "-"},
         {"F_c", "%"},
         {"σ_v'", "kPa"},
         {"D_r", "%"},
         {"D_r spread", "%"},
         {"e", "-"},
         {"φ", "deg"},
         {"K_0", "-"},
         {"k", "m/s"}},
        {},
        {"N as measured; σ_v' with the water table at the time of the boring; D_r spread: least and "
         "largest by all published relations whose inputs are known. Clay and silt are shown, not "
         "judged as sand."}};
    RemarkList remarks;
    for (std::size_t i = 0; i < design.boring.samples.size(); ++i) {
        const auto& sample = design.boring.samples[i];
        std::vector<std::string> row = {cell(sample.depth_m, 1),
                                        sample.soil.empty() ? (sample.sand ? "sand" : "clay or silt")
                                                            : sample.soil,
                                        cell(sample.blow_count, 0), cell(sample.fines_pct, 0),
                                        cell(design.at_boring[i].effective_kPa, 0)};
        const auto& state = design.states[i];
        if (state.empty()) {
            row.resize(table.columns.size(), "\u2013");
            table.rows.push_back(row);
            continue;
        }
        const auto value = [&](Quantity quantity) { return chosen(state, quantity).value; };
        row.push_back(cell(value(Quantity::RelativeDensity), 0));
        row.push_back(density_spread(state[static_cast<std::size_t>(Quantity::RelativeDensity)]));
        row.push_back(cell(value(Quantity::VoidRatio), 2));
        row.push_back(cell(value(Quantity::FrictionAngle), 1));
        row.push_back(cell(value(Quantity::LateralStressRatio), 2));
        row.push_back(small_cell(value(Quantity::Permeability)));
        table.rows.push_back(row);
        for (const auto& info : solver::quantity_table()) {
            const auto& estimate = chosen(state, info.quantity);
            sources.add(estimate.source, fmt::format("{} ({})", info.title, estimate.relation));
            for (const auto& remark : estimate.remarks)
                remarks.add(info.title + ": " + remark, sample.depth_m);
        }
    }
    for (auto& text : remarks.texts())
        table.notes.push_back(std::move(text));
    return table;
}

/// Which relation gave each quantity, and where it comes from.
report::Table relations_table(const std::vector<solver::BoringDesign>& designs) {
    report::Table table{
        "Relations that the chosen values follow from",
        {text_column("quantity"), text_column("relation"), {"samples", "-"}, text_column("source")},
        {}};
    for (const auto& info : solver::quantity_table()) {
        std::map<std::pair<std::string, std::string>, int> used;
        for (const auto& design : designs)
            for (const auto& state : design.states)
                if (!state.empty() && !chosen(state, info.quantity).relation.empty())
                    ++used[{chosen(state, info.quantity).relation, chosen(state, info.quantity).source}];
        for (const auto& [relation, count] : used)
            table.rows.push_back({info.title, relation.first, std::to_string(count), relation.second});
    }
    return table;
}

report::Table settings_table(const io::SiteFile& site, SourceList& sources) {
    report::Table table{
        "Values of the site file in force",
        {text_column("key"), text_column("value"), text_column("default"), text_column("source of it")},
        {}};
    for (const auto& setting : site.settings) {
        table.rows.push_back({setting.key, setting.value, setting.is_default ? "default" : "",
                              setting.is_default ? setting.source : ""});
        if (setting.is_default)
            sources.add(setting.source, "default of " + setting.key);
    }
    return table;
}

} // namespace

Blocks ground_blocks(const ReportInput& input, SourceList& sources) {
    Blocks blocks;
    if (!input.site)
        return blocks;
    for (const auto& design : input.designs) {
        const auto& boring = design.boring;
        blocks.push_back(report::Heading{"Boring " + boring.name});
        blocks.push_back(report::Paragraph{fmt::format(
            "Water {} when the blows were counted, {} in the earthquake; energy ratio of the hammer {:g} %.",
            water_text(boring.water_depth_m), water_text(boring.quake_water_depth_m),
            boring.energy_ratio_pct)});
        blocks.push_back(ground_table(design, sources));
    }
    blocks.push_back(report::Heading{"Relations and values in force"});
    blocks.push_back(relations_table(input.designs));
    blocks.push_back(settings_table(*input.site, sources));
    return blocks;
}

} // namespace interpile::program
