#include "io/site_tables.h"

#include "io/csv_text.h"
#include "solver/liquefaction/severity.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace interpile::io {

namespace {

using solver::BoringDesign;
using solver::BoringSafety;
using solver::Quantity;

std::string letter(solver::DesignMethod method) {
    return {solver::letter_of(method)};
}

/// "before", or "after, method C".
std::vector<std::pair<std::string, const BoringSafety*>> stages_of(const BoringDesign& design) {
    std::vector<std::pair<std::string, const BoringSafety*>> stages = {{"before", &design.before}};
    for (const auto& method : design.methods)
        stages.emplace_back("after, method " + letter(method.method), &method.after);
    return stages;
}

std::vector<std::string> with_columns(std::vector<std::string> head, const std::vector<std::string>& more) {
    head.insert(head.end(), more.begin(), more.end());
    return head;
}

std::string ground_table(const std::vector<BoringDesign>& designs) {
    std::vector<std::string> head = {"boring",
                                     "depth_m",
                                     "top_m",
                                     "bottom_m",
                                     "soil",
                                     "sand",
                                     "blow_count",
                                     "fines_pct",
                                     "d50_mm",
                                     "unit_weight_kN_m3",
                                     "total_stress_kPa",
                                     "effective_stress_kPa",
                                     "quake_effective_stress_kPa"};
    for (const auto& info : solver::quantity_table())
        head.push_back(info.name);
    CsvText csv(with_columns(head, {"relative_density_low_pct", "relative_density_high_pct", "remarks"}));
    for (const BoringDesign& design : designs)
        for (std::size_t i = 0; i < design.boring.samples.size(); ++i) {
            const auto& sample = design.boring.samples[i];
            csv.cell(design.boring.name).cell(sample.depth_m).cell(design.intervals[i].top_m);
            csv.cell(design.intervals[i].bottom_m)
                .cell(sample.soil)
                .cell(sample.sand)
                .cell(sample.blow_count);
            csv.cell(sample.fines_pct).cell(sample.d50_mm).cell(sample.unit_weight_kN_m3);
            csv.cell(design.at_boring[i].total_kPa).cell(design.at_boring[i].effective_kPa);
            csv.cell(design.in_quake[i].effective_kPa);
            const auto& state = design.states[i];
            std::vector<std::string> remarks;
            for (const auto& info : solver::quantity_table()) {
                if (state.empty()) {
                    csv.cell("");
                    continue;
                }
                const auto& chosen = solver::chosen(state, info.quantity);
                csv.cell(chosen.value);
                for (const std::string& remark : chosen.remarks)
                    remarks.push_back(info.name + ": " + remark);
            }
            if (state.empty()) {
                csv.cell("").cell("").cell("clay or silt: shown, not judged as sand").end_row();
                continue;
            }
            const auto& all = state[static_cast<std::size_t>(Quantity::RelativeDensity)].others;
            const auto [low, high] = std::minmax_element(
                all.begin(), all.end(), [](const auto& a, const auto& b) { return a.value < b.value; });
            csv.cell(low->value).cell(high->value).cell(joined(remarks)).end_row();
        }
    return csv.text();
}

std::string estimates_table(const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "depth_m", "quantity", "value", "relation", "chosen", "source", "remarks"});
    for (const BoringDesign& design : designs)
        for (std::size_t i = 0; i < design.states.size(); ++i)
            for (std::size_t q = 0; q < design.states[i].size(); ++q)
                for (const auto& estimate : design.states[i][q].others) {
                    csv.cell(design.boring.name).cell(design.boring.samples[i].depth_m);
                    csv.cell(solver::quantity_table()[q].name).cell(estimate.value).cell(estimate.relation);
                    csv.cell(estimate.relation == design.states[i][q].chosen.relation).cell(estimate.source);
                    csv.cell(joined(estimate.remarks)).end_row();
                }
    return csv.text();
}

std::string safety_table(const std::vector<BoringDesign>& designs) {
    std::vector<std::string> head = {"boring", "depth_m", "stage", "blow_count"};
    for (const auto& info : solver::procedure_table())
        head.push_back("safety_factor_" + info.name);
    CsvText csv(with_columns(head, {"procedures_disagree", "remarks"}));
    for (const BoringDesign& design : designs)
        for (const auto& [stage, safety] : stages_of(design))
            for (const auto& sample : safety->samples) {
                if (!sample.judged)
                    continue;
                csv.cell(design.boring.name)
                    .cell(sample.point.depth_m)
                    .cell(stage)
                    .cell(sample.point.blow_count);
                std::vector<std::string> remarks;
                for (std::size_t p = 0; p < sample.factors.size(); ++p) {
                    const auto& factor = sample.factors[p];
                    const std::string& name = solver::procedure_table()[p].name;
                    csv.cell(factor.value);
                    if (!factor.refused.empty())
                        remarks.push_back(name + " refuses: " + factor.refused);
                    for (const std::string& remark : factor.remarks)
                        remarks.push_back(name + ": " + remark);
                }
                csv.cell(sample.procedures_disagree()).cell(joined(remarks)).end_row();
            }
    return csv.text();
}

std::string safety_steps_table(const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "depth_m", "procedure", "quantity", "value"});
    for (const BoringDesign& design : designs)
        for (const auto& sample : design.before.samples)
            for (std::size_t p = 0; p < sample.factors.size(); ++p) {
                const auto& factor = sample.factors[p];
                auto rows = factor.intermediates;
                rows.insert(rows.end(), {{"resistance", factor.resistance},
                                         {"demand", factor.demand},
                                         {"safety_factor", factor.value}});
                for (const auto& [name, value] : rows) {
                    csv.cell(design.boring.name).cell(sample.point.depth_m);
                    csv.cell(solver::procedure_table()[p].name).cell(name).cell(value).end_row();
                }
            }
    return csv.text();
}

std::string severity_table(const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "stage", "procedure", "liquefaction_potential_index", "class", "settlement_m",
                 "reaches_to_m"});
    for (const BoringDesign& design : designs)
        for (const auto& [stage, safety] : stages_of(design))
            for (std::size_t p = 0; p < safety->severity.size(); ++p) {
                const auto& severity = safety->severity[p];
                csv.cell(design.boring.name).cell(stage).cell(solver::procedure_table()[p].name);
                csv.cell(severity.potential_index);
                csv.cell(severity.potential_index
                             ? solver::severity_name(solver::severity_class(*severity.potential_index))
                             : "");
                csv.cell(severity.settlement_m).cell(severity.reaches_to_m).end_row();
            }
    return csv.text();
}

std::string needs_table(const SiteFile& site, const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "depth_m", "method", "blow_count_before", "target_blow_count", "need",
                 "replacement_ratio", "blow_count_after", "relative_density_before_pct",
                 "relative_density_after_pct", "void_ratio_before", "void_ratio_after", "fines_factor",
                 "largest_blow_count", "limit", "remarks"});
    for (const BoringDesign& design : designs)
        for (std::size_t i = 0; i < design.needs.size(); ++i) {
            const auto& sample = design.needs[i];
            const auto& measured = design.boring.samples[i];
            if (sample.treated && sample.methods.empty()) {
                csv.cell(design.boring.name).cell(measured.depth_m).cell("").cell(measured.blow_count);
                for (int n = 0; n < 11; ++n)
                    csv.cell("");
                csv.cell("no target: " + sample.no_target).end_row();
            }
            for (std::size_t m = 0; m < sample.methods.size(); ++m) {
                const auto& need = sample.methods[m];
                const auto& r = need.result;
                csv.cell(design.boring.name).cell(measured.depth_m).cell(letter(site.aims.methods[m]));
                csv.cell(measured.blow_count).cell(sample.target_blow_count).cell(need_name(need.kind));
                csv.cell(r.replacement_ratio).cell(r.blow_count_after).cell(r.relative_density_before_pct);
                csv.cell(r.relative_density_after_pct).cell(r.void_ratio_before).cell(r.void_ratio_after);
                csv.cell(r.fines_factor).cell(need.largest_blow_count).cell(need.limit);
                csv.cell(joined(r.remarks)).end_row();
            }
        }
    return csv.text();
}

std::string spacings_table(const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "method", "governing_depth_m", "out_of_reach", "replacement_ratio", "spacing_m",
                 "practical_spacing_m", "practical_replacement_ratio", "mean_heave_m",
                 "mean_heave_by_efficiency_m"});
    for (const BoringDesign& design : designs)
        for (const auto& method : design.methods) {
            csv.cell(design.boring.name).cell(letter(method.method));
            csv.cell(method.governing ? std::optional(design.boring.samples[*method.governing].depth_m)
                                      : std::nullopt);
            csv.cell(method.out_of_reach).cell(method.replacement_ratio).cell(method.spacing_m);
            csv.cell(method.practical_spacing_m).cell(method.practical_ratio).cell(method.heave_m);
            csv.cell(method.heave_by_efficiency_m).end_row();
        }
    return csv.text();
}

std::string after_table(const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "depth_m", "method", "replacement_ratio", "blow_count_before", "target_blow_count",
                 "blow_count_after"});
    for (const BoringDesign& design : designs)
        for (std::size_t i = 0; i < design.needs.size(); ++i)
            for (const auto& method : design.methods) {
                if (!design.needs[i].treated)
                    continue;
                csv.cell(design.boring.name)
                    .cell(design.boring.samples[i].depth_m)
                    .cell(letter(method.method));
                csv.cell(method.practical_ratio).cell(design.boring.samples[i].blow_count);
                csv.cell(design.needs[i].target_blow_count).cell(method.blow_counts_after[i]).end_row();
            }
    return csv.text();
}

std::string ratios_table(const SiteFile& site, const std::vector<BoringDesign>& designs) {
    CsvText csv({"boring", "depth_m", "method", "replacement_ratio", "blow_count_after", "outside"});
    for (const BoringDesign& design : designs)
        for (const auto& method : design.methods) {
            if (!method.governing)
                continue;
            const auto steps =
                static_cast<int>(std::floor(site.aims.largest_replacement_ratio / 0.01 + 1e-9));
            for (int n = 0; n <= steps; ++n) {
                const auto result = predict_at(design, *method.governing, method.method, site.aims, 0.01 * n);
                csv.cell(design.boring.name).cell(design.boring.samples[*method.governing].depth_m);
                csv.cell(letter(method.method)).cell(0.01 * n).cell(result.blow_count_after);
                csv.cell(result.outside).end_row();
            }
        }
    return csv.text();
}

} // namespace

const char* need_name(solver::NeedKind kind) {
    switch (kind) {
    case solver::NeedKind::Reached:
        return "reached before treatment";
    case solver::NeedKind::Ratio:
        return "replacement ratio";
    case solver::NeedKind::OutOfReach:
        return "out of reach";
    }
    return "";
}

std::vector<NamedTable> site_tables(const SiteFile& site, const std::vector<BoringDesign>& designs) {
    return {{"ground.csv", ground_table(designs)},      {"estimates.csv", estimates_table(designs)},
            {"safety.csv", safety_table(designs)},      {"safety-steps.csv", safety_steps_table(designs)},
            {"severity.csv", severity_table(designs)},  {"needs.csv", needs_table(site, designs)},
            {"spacings.csv", spacings_table(designs)},  {"after.csv", after_table(designs)},
            {"ratios.csv", ratios_table(site, designs)}};
}

} // namespace interpile::io
