// Chapter 5: the slices that were simulated.

#include "io/case_report.h"
#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "postprocess/figures/density_distribution.h"
#include "postprocess/figures/half_strokes.h"
#include "postprocess/figures/plan_contour.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::program {

namespace {

std::string pile_cell(int pile) {
    return pile < 0 ? "\u2013" : std::to_string(pile + 1);
}

report::Table settings_table(const ReportResult& result, SourceList& sources) {
    report::Table table{
        "Simulation " + result.header.case_name + ": every value in force",
        {text_column("key"), text_column("value"), text_column("default"), text_column("source of it")},
        {}};
    constexpr std::string_view mark = " (default)";
    for (std::size_t i = 0; i < result.header.settings.size(); ++i) {
        auto [key, value] = result.header.settings[i];
        const bool is_default = value.ends_with(mark);
        if (is_default)
            value.resize(value.size() - mark.size());
        const std::string& source = result.header.setting_sources[i];
        table.rows.push_back({key, value, is_default ? "default" : "", is_default ? source : ""});
        if (is_default)
            sources.add(source, "default of " + key);
    }
    return table;
}

report::Table balance_table(const ReportResult& result) {
    report::Table table{"Simulation " + result.header.case_name + ": convergence and volume balance",
                        {{"stage", "-"},
                         {"pile", "-"},
                         text_column("converged"),
                         {"rest of forces", "-"},
                         {"injected", "m3/m"},
                         {"densified", "m3/m"},
                         {"heaved", "m3/m"},
                         {"pushed out", "m3/m"},
                         {"closing error", "-"},
                         {"heave", "%"},
                         {"D_r", "%"}},
                        {},
                        {"Volumes per meter of slice since the stage before; closing error over the injected "
                         "volume; heave of the "
                         "slice since the start, upward positive; D_r: mean of the whole slice."}};
    for (const auto& stage : result.stages) {
        const double error =
            stage.injected_m3_m - stage.densified_m3_m - stage.heaved_m3_m - stage.pushed_out_m3_m;
        table.rows.push_back(
            {std::to_string(stage.stage), pile_cell(stage.pile), stage.converged ? "yes" : "NO",
             small_cell(stage.residual), cell(stage.injected_m3_m, 5), cell(stage.densified_m3_m, 5),
             cell(stage.heaved_m3_m, 5), cell(stage.pushed_out_m3_m, 5),
             stage.injected_m3_m == 0 ? "\u2013" : small_cell(std::abs(error / stage.injected_m3_m)),
             cell(100 * std::expm1(stage.heave_strain), 2), cell(stage.mean_relative_density_pct, 1)});
    }
    return table;
}

bool has_water(const ReportResult& result) {
    return result.stages.back().time_s > 0 || result.stages.back().water_squeezed_m3_m != 0;
}

report::Table water_table(const ReportResult& result) {
    report::Table table{"Simulation " + result.header.case_name + ": pore water",
                        {{"stage", "-"},
                         {"time", "s"},
                         {"mean excess pressure", "kPa"},
                         {"nearly liquefied", "cells"},
                         {"squeezed out of the grains", "m3/m"},
                         {"stored", "m3/m"},
                         {"drained", "m3/m"},
                         {"closing error", "m3/m"}},
                        {},
                        {"Volumes since the start, per meter of slice. Nearly liquefied: excess pressure at "
                         "least 0.9 of the vertical stress."}};
    if (const auto& header = result.header; !header.work_begins.empty())
        table.notes.push_back(fmt::format("Clock of the site: first pile begun {}, last stage {}.",
                                          io::site_clock(header, 0),
                                          io::site_clock(header, result.stages.back().time_s)));
    for (const auto& stage : result.stages)
        table.rows.push_back({std::to_string(stage.stage), cell(stage.time_s, 0),
                              cell(stage.mean_excess_pressure_kPa, 2),
                              std::to_string(stage.nearly_liquefied_cells),
                              cell(stage.water_squeezed_m3_m, 5), cell(stage.water_stored_m3_m, 5),
                              cell(stage.water_drained_m3_m, 5), small_cell(stage.water_error_m3_m)});
    return table;
}

report::Table ground_table(const ReportResult& result) {
    const auto& header = result.header;
    report::Table table{"Simulation " + header.case_name + ": ground between the piles",
                        {{"stage", "-"},
                         {"pile", "-"},
                         {"D_r mean", "%"},
                         {"D_r least", "%"},
                         {"at x", "m"},
                         {"at y", "m"},
                         {"K there", "-"},
                         {"K mean", "-"}},
                        {},
                        {"Treated area without pile material. Least: the weakest point, of the smoothed "
                         "field as the figures show it. K: "
                         "horizontal over vertical effective stress."}};
    if (header.target_relative_density_pct)
        table.columns.push_back(
            {fmt::format("below D_r {:g} %", *header.target_relative_density_pct), "% of area"});
    for (const auto& point : header.points)
        table.columns.push_back({"D_r at " + point.name, "%"});
    for (const auto& at : result.ground) {
        const bool even = at.density.is_uniform();
        const double none = std::numeric_limits<double>::quiet_NaN();
        std::vector<std::string> row = {std::to_string(at.stage),
                                        pile_cell(at.pile),
                                        cell(at.density.mean, 1),
                                        cell(at.density.least, 1),
                                        cell(even ? none : at.density.least_at_m.x(), 2),
                                        cell(even ? none : at.density.least_at_m.y(), 2),
                                        cell(even ? none : at.weakest_stress_ratio, 2),
                                        cell(at.mean_stress_ratio, 2)};
        if (header.target_relative_density_pct)
            row.push_back(at.share_below_target ? cell(100 * *at.share_below_target, 1) : "\u2013");
        for (Eigen::Index k = 0; k < at.points.density_pct.size(); ++k)
            row.push_back(cell(at.points.density_pct[k], 1));
        row.resize(table.columns.size(), "\u2013");
        table.rows.push_back(std::move(row));
    }
    return table;
}

void add_figures(const ReportResult& result, Blocks& blocks) {
    const auto& header = result.header;
    const auto& last = result.stages.back();
    const std::string start = "Simulation " + header.case_name + ", last stage: ";
    blocks.push_back(report::Figure{start + "D_r in plan, with the weakest point",
                                    postprocess::plan_contour(header, last, "relative_density_pct")});
    blocks.push_back(report::Figure{start + "lateral stress ratio K in plan",
                                    postprocess::plan_contour(header, last, "lateral_stress_ratio")});
    if (!header.treated.empty())
        blocks.push_back(
            report::Figure{start + "distribution of D_r over the treated area",
                           postprocess::density_distribution(header, result.stages.front(), last)});
    if (result.half_strokes.pile.size() > 0 && !(header.treated.empty() && header.points.empty()))
        blocks.push_back(report::Figure{
            "Simulation " + header.case_name + ": D_r and K over the half strokes",
            postprocess::half_stroke_curves(header, result.stages.front(), result.half_strokes)});
}

void add_result(const ReportResult& result, SourceList& sources, Blocks& blocks) {
    const auto& header = result.header;
    blocks.push_back(report::Heading{header.case_name});
    blocks.push_back(report::Paragraph{fmt::format(
        "{}. A horizontal slice {:g} m below ground, begun {} with interpile {}: vertical effective stress "
        "{:.1f} kPa, D_r {:.1f} % and "
        "K_0 {:.2f} before; {} piles, {} stages recorded.",
        header.title, header.depth_m, header.started.substr(0, 10), header.program_version,
        header.initial_vertical_stress_kPa, header.initial_relative_density_pct,
        header.initial_lateral_stress_ratio, header.pile_diameter_m.size(), result.stages.size())});
    if (!result.stages.back().converged)
        blocks.push_back(
            report::Caution{"NOT CONVERGED: the last stage is saved for inspection and is not a result."});
    if (!result.warnings.empty())
        blocks.push_back(report::Items{result.warnings});
    blocks.push_back(balance_table(result));
    if (has_water(result))
        blocks.push_back(water_table(result));
    if (!result.ground.empty())
        blocks.push_back(ground_table(result));
    add_figures(result, blocks);
    blocks.push_back(settings_table(result, sources));
}

} // namespace

Blocks simulation_blocks(const ReportInput& input, SourceList& sources) {
    Blocks blocks;
    if (input.results.empty())
        return blocks;
    blocks.push_back(report::Paragraph{
        io::caution() +
        " The density after treatment follows from a soil law with constants of a laboratory sand and from a "
        "chosen number of strokes; it has not been calibrated on this site."});
    for (const auto& result : input.results)
        add_result(result, sources, blocks);
    return blocks;
}

} // namespace interpile::program
