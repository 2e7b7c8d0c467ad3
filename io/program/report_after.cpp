// Chapter 6: N and F_L after treatment, the part of the density and the part of the lateral stress apart.

#include "io/program/report_cells.h"
#include "io/program/report_parts.h"
#include "solver/design_methods/stress_factor.h"
#include "solver/ground_state/meyerhof.h"
#include "solver/liquefaction/lateral_stress_factor.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::program {

namespace {

using solver::BoringDesign;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// The procedure of the target; without one, the first that answers at all would be a choice nobody made.
std::optional<std::size_t> procedure_of(const io::SiteFile& site) {
    if (site.aims.target_safety)
        return static_cast<std::size_t>(site.aims.target_safety->procedure);
    return {};
}

double rest_ratio(const BoringDesign& design, std::size_t sample) {
    return chosen(design.states[sample], solver::Quantity::LateralStressRatio).value;
}

report::Table closed_form_table(const io::SiteFile& site, const BoringDesign& design) {
    const auto& method = design.methods[site.spacing_by];
    const auto procedure = procedure_of(site);
    report::Table table{fmt::format("Boring {}: method {}, a_s {:.3f}, density alone", design.boring.name,
                                    solver::letter_of(method.method), method.practical_ratio),
                        {{"depth", "m"}, {"N before", "-"}, {"N after", "-"}},
                        {}};
    if (procedure)
        for (const char* when : {"F_L before", "F_L after"})
            table.columns.push_back({when, "-"});
    for (std::size_t i = 0; i < design.needs.size(); ++i) {
        if (!design.needs[i].treated)
            continue;
        std::vector<std::string> row = {cell(design.boring.samples[i].depth_m, 1),
                                        cell(design.boring.samples[i].blow_count, 0),
                                        cell(method.blow_counts_after[i], 1)};
        if (procedure)
            for (const auto* safety : {&design.before, &method.after})
                row.push_back(safety->samples[i].judged
                                  ? cell(safety->samples[i].factors[*procedure].value, 2)
                                  : "\u2013");
        table.rows.push_back(std::move(row));
    }
    if (procedure)
        table.notes = {"F_L by " + solver::procedure_table()[*procedure].name +
                       "; \u2013: above the water table of the earthquake, or no answer."};
    return table;
}

/// The part of K, where the site file counts it: at N or at the resistance.
std::optional<report::Table> stress_table(const io::SiteFile& site, const BoringDesign& design) {
    using Effect = solver::LateralStressEffect;
    const auto effect = site.aims.lateral_stress_effect;
    const auto& method = design.methods[site.spacing_by];
    const double ratio = site.aims.lateral_stress_ratio;
    const auto procedure = procedure_of(site);
    if (effect == Effect::None)
        return {};
    const bool at_count = effect == Effect::BlowCount;
    report::Table table{fmt::format("Boring {}: lateral stress, K {:g} after treatment, counted at {}",
                                    design.boring.name, ratio, at_count ? "N" : "the resistance"),
                        {{"depth", "m"},
                         {"K_0", "-"},
                         {at_count ? "factor on N" : "factor on F_L", "-"},
                         {at_count ? "N of density" : "F_L of density", "-"},
                         {at_count ? "N with K" : "F_L with K", "-"}},
                        {}};
    for (std::size_t i = 0; i < design.needs.size(); ++i) {
        if (!design.needs[i].treated || (!at_count && !design.before.samples[i].judged))
            continue;
        const double rest = rest_ratio(design, i);
        const double factor =
            std::isnan(rest) ? none
            : at_count ? solver::blow_count_stress_factor(design.at_boring[i].effective_kPa, ratio, rest)
                       : solver::resistance_factor(ratio, rest);
        const double value =
            at_count ? method.blow_counts_after[i] : method.after.samples[i].factors[procedure.value()].value;
        table.rows.push_back({cell(design.boring.samples[i].depth_m, 1), cell(rest, 2), cell(factor, 2),
                              cell(value, 2), cell(factor * value, 2)});
    }
    return table;
}

/// The sand sample of a boring that stands for the depth of a slice.
std::optional<std::size_t> sample_at(const BoringDesign& design, double depth_m) {
    for (std::size_t i = 0; i < design.intervals.size(); ++i)
        if (depth_m >= design.intervals[i].top_m && depth_m <= design.intervals[i].bottom_m &&
            design.boring.samples[i].sand)
            return i;
    return {};
}

/// F_L at the sample with another N.
double safety_with(const io::SiteFile& site, const BoringDesign& design, std::size_t sample,
                   double blow_count) {
    const auto& judged = design.before.samples[sample];
    if (!site.aims.target_safety || !judged.judged)
        return none;
    auto point = judged.point;
    point.blow_count = std::min(blow_count, 100.0); // the procedures take no more
    return safety_against_liquefaction(site.aims.target_safety->procedure, point, site.quake).value;
}

/// One row of the simulated ground: N of its density, its K, and each part of F_L.
void add_row(report::Table& table, const std::string& name, const ReportResult& result, double density_pct,
             double ratio) {
    const double stress = result.header.initial_vertical_stress_kPa,
                 rest = result.header.initial_lateral_stress_ratio;
    const double count = solver::meyerhof_blow_count(density_pct, stress);
    table.rows.push_back(
        {result.header.case_name, name, cell(density_pct, 1), cell(count, 1), cell(ratio, 2),
         cell(std::isnan(ratio) ? none : solver::blow_count_stress_factor(stress, ratio, rest), 2),
         cell(std::isnan(ratio) ? none : count * solver::blow_count_stress_factor(stress, ratio, rest), 1)});
}

report::Table simulated_counts(const ReportInput& input) {
    report::Table table{
        "Simulated ground between the piles: N of the density, and what K adds to a measured N",
        {text_column("simulation"),
         text_column("ground"),
         {"D_r", "%"},
         {"N of density", "-"},
         {"K", "-"},
         {"factor on N", "-"},
         {"N with K", "-"}},
        {},
        {"N of density: Meyerhof's form at the vertical stress of the slice. N with K is what a test between "
         "the piles would find, if the factor holds."}};
    for (const auto& result : input.results) {
        if (result.ground.empty() || result.header.monotonic_density || !result.ground.back().converged)
            continue;
        const auto& ground = result.ground.back();
        add_row(table, "before", result, result.header.initial_relative_density_pct,
                result.header.initial_lateral_stress_ratio);
        add_row(table, "after, mean", result, ground.density.mean, ground.mean_stress_ratio);
        add_row(table, "after, weakest point", result, ground.density.least,
                ground.density.is_uniform() ? ground.mean_stress_ratio : ground.weakest_stress_ratio);
    }
    return table;
}

report::Table simulated_safety(const ReportInput& input) {
    const auto& site = *input.site;
    report::Table table{"Simulated ground: F_L with the loads and fines of each boring at that depth",
                        {text_column("simulation"),
                         text_column("boring"),
                         text_column("ground"),
                         {"N of density", "-"},
                         {"F_L of density", "-"},
                         {"factor of K on F_L", "-"},
                         {"F_L with K", "-"}},
                        {}};
    if (const auto procedure = procedure_of(site))
        table.notes = {"F_L by " + solver::procedure_table()[*procedure].name +
                       " with N of density alone; F_L with K takes the lateral stress at the resistance."};
    for (const auto& result : input.results) {
        if (result.ground.empty() || result.header.monotonic_density || !result.ground.back().converged)
            continue;
        const auto& ground = result.ground.back();
        for (const auto& design : input.designs) {
            const auto sample = sample_at(design, result.header.depth_m);
            if (!sample)
                continue;
            for (const bool weakest : {false, true}) {
                const double ratio = weakest && !ground.density.is_uniform() ? ground.weakest_stress_ratio
                                                                             : ground.mean_stress_ratio;
                const double count =
                    solver::meyerhof_blow_count(weakest ? ground.density.least : ground.density.mean,
                                                result.header.initial_vertical_stress_kPa);
                const double safety = safety_with(site, design, *sample, count);
                const double factor =
                    std::isnan(ratio)
                        ? none
                        : solver::resistance_factor(ratio, result.header.initial_lateral_stress_ratio);
                if (!std::isnan(safety))
                    table.rows.push_back({result.header.case_name, design.boring.name,
                                          weakest ? "weakest point" : "mean", cell(count, 1), cell(safety, 2),
                                          cell(factor, 2), cell(factor * safety, 2)});
            }
        }
    }
    return table;
}

} // namespace

Blocks after_blocks(const ReportInput& input, SourceList& sources) {
    Blocks blocks;
    if (input.site)
        for (const auto& design : input.designs) {
            if (!design.methods[input.site->spacing_by].governing)
                continue;
            blocks.push_back(closed_form_table(*input.site, design));
            if (auto table = stress_table(*input.site, design); table && !table->rows.empty())
                blocks.push_back(std::move(*table));
        }
    if (auto table = simulated_counts(input); !table.rows.empty()) {
        blocks.push_back(report::Heading{"Simulated ground"});
        blocks.push_back(std::move(table));
        sources.add("from memory of Meyerhof (1957), metric form", "N of the simulated density");
        if (input.site)
            if (auto safety = simulated_safety(input); !safety.rows.empty())
                blocks.push_back(std::move(safety));
    }
    if (blocks.empty())
        return blocks;
    blocks.insert(blocks.begin(),
                  report::Caution{"The lateral stress after treatment raises a measured N and the resistance "
                                  "alike. Count it at one of them, never at both: "
                                  "N measured between the piles holds its effect already."});
    const bool counted =
        input.site && input.site->aims.lateral_stress_effect != solver::LateralStressEffect::None;
    if (input.site && !counted)
        blocks.insert(blocks.begin() + 1,
                      report::Paragraph{"The site file counts no lateral stress (lateral_stress = \"none\"): "
                                        "the tables of the borings show density alone."});
    if (counted || !input.results.empty()) {
        sources.add("our own derivation from the stress of Meyerhof's form, no source; not checked against "
                    "field data",
                    "factor of K on N");
        sources.add("from memory of Ishihara & Takatsu (1979)", "factor of K on the resistance");
    }
    return blocks;
}

} // namespace interpile::program
