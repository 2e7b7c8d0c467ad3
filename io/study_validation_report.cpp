#include "io/study_validation_report.h"

#include "io/csv_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

std::string range_text(const ValueRange& range, const char* format) {
    const std::string low = fmt::format(fmt::runtime(format), range.low);
    const std::string high = fmt::format(fmt::runtime(format), range.high);
    return low == high ? low : low + " .. " + high;
}

/// One line for each method and way of parting.
std::string bias_of_parts(const StudyComparison& comparison) {
    std::string text, line_before;
    for (const auto& d : comparison.deviations) {
        if (d.simulated != SimulatedCount::Density || d.parted_by == "all")
            continue;
        const auto line = fmt::format("  method {} by {}:", d.method, d.parted_by);
        text += line == line_before ? ", " : (text.empty() ? "" : "\n") + line + " ";
        text += fmt::format("{} {:.2f}", d.part, d.bias);
        line_before = line;
    }
    return text.empty() ? "" : "Bias of N of the density in parts of the members:\n" + text + "\n";
}

} // namespace

std::string deviation_table(const StudyFile& study, const StudyComparison& comparison) {
    CsvText table({"method", "simulated_blow_count_of", "parted_by", "part", "members", "bias",
                   "standard_deviation", "agreement_pct", "agreeing", "agreeing_replacement_ratio_low",
                   "agreeing_replacement_ratio_high", "agreeing_relative_density_before_low_pct",
                   "agreeing_relative_density_before_high_pct", "agreeing_depth_low_m",
                   "agreeing_depth_high_m", "members_in_these_ranges"});
    for (const auto& d : comparison.deviations) {
        table.cell(d.method)
            .cell(in_words(d.simulated))
            .cell(d.parted_by)
            .cell(d.part)
            .cell(d.members)
            .cell(d.bias);
        table.cell(d.standard_deviation).cell(study.comparison.agreement_pct).cell(d.agreeing);
        for (const ValueRange* range : {&d.replacement_ratio, &d.density_before_pct, &d.depth_m})
            table.cell(range->low).cell(range->high);
        table.cell(d.in_range).end_row();
    }
    return table.text();
}

std::string trend_table(const StudyComparison& comparison) {
    CsvText table({"subject", "pairs", "gain_falls_with_blow_count_before", "gain_rises"});
    for (const auto& trend : comparison.trends)
        table.cell(trend.subject).cell(trend.pairs).cell(trend.falling).cell(trend.rising).end_row();
    return table.text();
}

std::string comparison_summary(const StudyFile& study, const StudyComparison& comparison) {
    std::string text = "Simulated over predicted blow count after treatment (bias, scatter):\n";
    for (const auto& d : comparison.deviations) {
        if (d.parted_by != "all")
            continue;
        text +=
            fmt::format("  method {}, N of {}: {:.2f}, {}; {} of {} members; within {:g} %: {}", d.method,
                        in_words(d.simulated), d.bias,
                        std::isnan(d.standard_deviation) ? "-" : fmt::format("{:.2f}", d.standard_deviation),
                        d.members, study.members.size(), study.comparison.agreement_pct, d.agreeing);
        if (d.agreeing > 0)
            text += fmt::format(" (a_s {}, D_r before {} %, depth {} m; {} members there)",
                                range_text(d.replacement_ratio, "{:.3f}"),
                                range_text(d.density_before_pct, "{:.0f}"), range_text(d.depth_m, "{:g}"),
                                d.in_range);
        text += "\n";
    }
    text += bias_of_parts(comparison);
    if (std::any_of(comparison.trends.begin(), comparison.trends.end(),
                    [](const GainTrend& trend) { return trend.pairs > 0; }))
        text += "Gain of N with N before, all else equal:\n";
    for (const auto& trend : comparison.trends)
        if (trend.pairs > 0)
            text += fmt::format("  {}: falls in {}, rises in {} of {} pairs\n", trend.subject, trend.falling,
                                trend.rising, trend.pairs);
    return text + "Left out: members without result, and where a method goes beyond a relative density of "
                  "100 % or its chart.\n"
                  "The constants of the simulation are not those of a site: a deviation does not tell which "
                  "is right.\n";
}

} // namespace interpile::io
