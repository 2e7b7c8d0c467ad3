#include "io/study_validation.h"

#include "io/csv_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace interpile::io {

namespace {

constexpr double class_width_pct = 10;

struct Method {
    const char* letter;
    double MemberBlowCounts::*blow_count;
};
constexpr Method methods[] = {{"A", &MemberBlowCounts::method_a},
                              {"B", &MemberBlowCounts::method_b},
                              {"C", &MemberBlowCounts::method_c},
                              {"D", &MemberBlowCounts::method_d}};

struct Simulated {
    SimulatedCount kind;
    double MemberBlowCounts::*blow_count;
    const char* name;
};
constexpr Simulated simulated_counts[] = {
    {SimulatedCount::Density, &MemberBlowCounts::after, "density"},
    {SimulatedCount::DensityAndStress, &MemberBlowCounts::stressed, "density and lateral stress"}};

const char* name_of(SimulatedCount kind) {
    return simulated_counts[kind == SimulatedCount::Density ? 0 : 1].name;
}

void include(ValueRange& range, double value) {
    range.low = std::isnan(range.low) ? value : std::min(range.low, value);
    range.high = std::isnan(range.high) ? value : std::max(range.high, value);
}

/// A member with both blow counts.
struct Pair {
    const MemberResult* member;
    double ratio;
};

MethodDeviation deviation_of(const std::vector<Pair>& pairs, double agreement_pct) {
    MethodDeviation deviation;
    deviation.members = static_cast<int>(pairs.size());
    double sum = 0, squares = 0;
    for (const Pair& pair : pairs)
        sum += pair.ratio;
    deviation.bias = sum / static_cast<double>(pairs.size());
    for (const Pair& pair : pairs)
        squares += (pair.ratio - deviation.bias) * (pair.ratio - deviation.bias);
    if (pairs.size() > 1)
        deviation.standard_deviation = std::sqrt(squares / static_cast<double>(pairs.size() - 1));
    for (const Pair& pair : pairs)
        if (100 * std::abs(pair.ratio - 1) <= agreement_pct) {
            ++deviation.agreeing;
            include(deviation.replacement_ratio, pair.member->replacement_ratio);
            include(deviation.density_before_pct, pair.member->density_before_pct);
            include(deviation.depth_m, pair.member->depth_m);
        }
    for (const Pair& pair : pairs)
        if (deviation.replacement_ratio.contains(pair.member->replacement_ratio) &&
            deviation.density_before_pct.contains(pair.member->density_before_pct) &&
            deviation.depth_m.contains(pair.member->depth_m))
            ++deviation.in_range;
    return deviation;
}

void add_deviations(const Method& method, const Simulated& simulated, const StudyFile& study,
                    const std::vector<StudyRow>& rows, std::vector<MethodDeviation>& all) {
    std::vector<Pair> pairs;
    std::map<int, std::vector<Pair>> classes;
    for (const StudyRow& row : rows) {
        const double predicted = row.blow_counts.*method.blow_count;
        const double ratio = row.blow_counts.*simulated.blow_count / predicted;
        if (!(predicted > 0) || !std::isfinite(ratio))
            continue;
        pairs.push_back({&row.result, ratio});
        // Noise of the arithmetic must not push 30 % into the class below.
        classes[static_cast<int>(std::floor(row.result.density_before_pct / class_width_pct + 1e-9))]
            .push_back(pairs.back());
    }
    const auto add = [&](const std::vector<Pair>& part, const std::string& name) {
        all.push_back(deviation_of(part, study.comparison.agreement_pct));
        all.back().method = method.letter;
        all.back().simulated = simulated.kind;
        all.back().density_class = name;
    };
    if (pairs.empty())
        return;
    add(pairs, "all");
    for (const auto& [number, part] : classes)
        add(part, fmt::format("{:g} .. {:g}", class_width_pct * number, class_width_pct * (number + 1)));
}

/// Members that differ in nothing but the density before, by their values of the other factors, N before rising.
std::vector<std::vector<const StudyRow*>> rows_of_equal_work(const StudyFile& study,
                                                             const std::vector<StudyRow>& rows) {
    const auto density = std::find_if(study.factors.begin(), study.factors.end(), [](const auto& factor) {
        return factor.key == "ground.relative_density_pct" || factor.key == "ground.void_ratio";
    });
    if (density == study.factors.end())
        return {};
    std::map<std::vector<std::string>, std::vector<const StudyRow*>> groups;
    for (const StudyRow& row : rows) {
        auto values = study.members[row.number - 1].values;
        values.erase(values.begin() + (density - study.factors.begin()));
        groups[values].push_back(&row);
    }
    std::vector<std::vector<const StudyRow*>> all;
    for (auto& [values, group] : groups) {
        std::sort(group.begin(), group.end(), [](const StudyRow* a, const StudyRow* b) {
            return a->blow_counts.before < b->blow_counts.before;
        });
        all.push_back(std::move(group));
    }
    return all;
}

GainTrend trend_of(const std::string& subject, double MemberBlowCounts::*after,
                   const std::vector<std::vector<const StudyRow*>>& groups) {
    GainTrend trend;
    trend.subject = subject;
    const auto gain = [&](const StudyRow* row) { return row->blow_counts.*after - row->blow_counts.before; };
    for (const auto& group : groups)
        for (std::size_t k = 0; k + 1 < group.size(); ++k) {
            const double change = gain(group[k + 1]) - gain(group[k]);
            if (!std::isfinite(change))
                continue;
            ++trend.pairs;
            trend.falling += change < 0 ? 1 : 0;
            trend.rising += change > 0 ? 1 : 0;
        }
    return trend;
}

std::string range_text(const ValueRange& range, const char* format, double factor = 1) {
    const std::string low = fmt::format(fmt::runtime(format), factor * range.low);
    const std::string high = fmt::format(fmt::runtime(format), factor * range.high);
    return low == high ? low : low + " .. " + high;
}

} // namespace

StudyComparison compare_blow_counts(const StudyFile& study, const std::vector<StudyRow>& rows) {
    StudyComparison comparison;
    for (const auto& simulated : simulated_counts)
        for (const auto& method : methods)
            add_deviations(method, simulated, study, rows, comparison.deviations);
    const auto groups = rows_of_equal_work(study, rows);
    for (const auto& simulated : simulated_counts)
        comparison.trends.push_back(
            trend_of(fmt::format("simulation, {}", simulated.name), simulated.blow_count, groups));
    for (const auto& method : methods)
        if (*method.letter != 'A' || study.comparison.chart)
            comparison.trends.push_back(
                trend_of(fmt::format("method {}", method.letter), method.blow_count, groups));
    return comparison;
}

std::string deviation_table(const StudyFile& study, const StudyComparison& comparison) {
    CsvText table({"method", "simulated_blow_count_of", "relative_density_before_pct", "members", "bias",
                   "standard_deviation", "agreement_pct", "agreeing", "agreeing_replacement_ratio_low",
                   "agreeing_replacement_ratio_high", "agreeing_relative_density_before_low_pct",
                   "agreeing_relative_density_before_high_pct", "agreeing_depth_low_m",
                   "agreeing_depth_high_m", "members_in_these_ranges"});
    for (const auto& d : comparison.deviations) {
        table.cell(d.method).cell(name_of(d.simulated)).cell(d.density_class).cell(d.members).cell(d.bias);
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
        if (d.density_class != "all")
            continue;
        text +=
            fmt::format("  method {}, N of {}: {:.2f}, {}; {} of {} members; within {:g} %: {}", d.method,
                        name_of(d.simulated), d.bias,
                        std::isnan(d.standard_deviation) ? "-" : fmt::format("{:.2f}", d.standard_deviation),
                        d.members, study.members.size(), study.comparison.agreement_pct, d.agreeing);
        if (d.agreeing > 0)
            text += fmt::format(" (a_s {}, D_r before {} %, depth {} m; {} members there)",
                                range_text(d.replacement_ratio, "{:.3f}"),
                                range_text(d.density_before_pct, "{:.0f}"), range_text(d.depth_m, "{:g}"),
                                d.in_range);
        text += "\n";
    }
    text += "Gain of N with N before, all else equal:\n";
    for (const auto& trend : comparison.trends)
        text += trend.pairs == 0 ? fmt::format("  {}: no pairs of members to tell\n", trend.subject)
                                 : fmt::format("  {}: falls in {}, rises in {} of {} pairs\n", trend.subject,
                                               trend.falling, trend.rising, trend.pairs);
    return text + "Left out: members without result, and where a method goes beyond a relative density of "
                  "100 % or its chart.\n"
                  "The constants of the simulation are not those of a site: a deviation does not tell which "
                  "is right.\n";
}

} // namespace interpile::io
