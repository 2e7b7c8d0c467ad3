#include "io/study_validation.h"

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
    {SimulatedCount::DensityAndStress, &MemberBlowCounts::stressed, "density and lateral stress"},
    {SimulatedCount::Weakest, &MemberBlowCounts::weakest, "least density"},
    {SimulatedCount::Centroid, &MemberBlowCounts::centroid, "density at the centroid"},
    {SimulatedCount::MidSpan, &MemberBlowCounts::mid_span, "density at mid-span"}};

bool is_mean(SimulatedCount kind) {
    return kind == SimulatedCount::Density || kind == SimulatedCount::DensityAndStress;
}

void include(ValueRange& range, double value) {
    range.low = std::isnan(range.low) ? value : std::min(range.low, value);
    range.high = std::isnan(range.high) ? value : std::max(range.high, value);
}

/// A member with both blow counts.
struct Pair {
    const StudyRow* row;
    double ratio;
    const MemberResult* member = &row->result;
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

std::vector<Pair> pairs_of(const Method& method, const Simulated& simulated,
                           const std::vector<StudyRow>& rows) {
    std::vector<Pair> pairs;
    for (const StudyRow& row : rows) {
        const double predicted = row.blow_counts.*method.blow_count;
        const double ratio = row.blow_counts.*simulated.blow_count / predicted;
        if (predicted > 0 && std::isfinite(ratio))
            pairs.push_back({&row, ratio});
    }
    return pairs;
}

/// A part of the members by name, in the order in which a table lists them.
using Parts = std::vector<std::pair<std::string, std::vector<Pair>>>;

Parts by_density(const std::vector<Pair>& pairs) {
    std::map<int, std::vector<Pair>> classes;
    for (const Pair& pair : pairs) // noise of the arithmetic must not push 30 % into the class below
        classes[static_cast<int>(std::floor(pair.member->density_before_pct / class_width_pct + 1e-9))]
            .push_back(pair);
    Parts parts;
    for (auto& [number, part] : classes)
        parts.emplace_back(
            fmt::format("{:g} .. {:g}", class_width_pct * number, class_width_pct * (number + 1)), part);
    return parts;
}

/// Values as they first come; none of a factor with a single value, or with as many as members of a sample have.
Parts by_factor(const std::vector<Pair>& pairs, const StudyFile& study, std::size_t factor) {
    constexpr std::size_t most_values = 12;
    Parts parts;
    for (const Pair& pair : pairs) {
        const auto& value = study.members[pair.row->number - 1].values[factor];
        auto part =
            std::find_if(parts.begin(), parts.end(), [&](const auto& named) { return named.first == value; });
        if (part == parts.end())
            part = parts.insert(parts.end(), {value, {}});
        part->second.push_back(pair);
    }
    return parts.size() < 2 || parts.size() > most_values ? Parts() : parts;
}

class Deviations {
public:
    Deviations(const StudyFile& study, std::vector<MethodDeviation>& all) : study_(study), all_(all) {}

    void add(const Method& method, const Simulated& simulated, const std::vector<StudyRow>& rows) {
        const auto pairs = pairs_of(method, simulated, rows);
        if (pairs.empty())
            return;
        const auto add_part = [&](const std::string& by, const std::string& part,
                                  const std::vector<Pair>& members) {
            all_.push_back(deviation_of(members, study_.comparison.agreement_pct));
            all_.back().method = method.letter;
            all_.back().simulated = simulated.kind;
            all_.back().parted_by = by;
            all_.back().part = part;
        };
        add_part("all", "", pairs);
        if (!is_mean(simulated.kind))
            return;
        for (const auto& [part, members] : by_density(pairs))
            add_part("relative_density_before_pct", part, members);
        for (std::size_t k = 0; k < study_.factors.size(); ++k)
            for (const auto& [part, members] : by_factor(pairs, study_, k))
                if (study_.factors[k].key != "ground.relative_density_pct")
                    add_part(study_.factors[k].key, part, members);
        for (const double fines_pct : study_.comparison.other_fines_pct)
            if (const auto again = pairs_of(method, simulated, with_fines(rows, fines_pct)); !again.empty())
                add_part("validation.fines_pct", fmt::format("{:g}", fines_pct), again);
    }

private:
    /// Kept, since pairs point at its rows.
    const std::vector<StudyRow>& with_fines(std::vector<StudyRow> rows, double fines_pct) {
        auto plan = study_.comparison;
        plan.fines_pct = fines_pct;
        for (auto& row : rows) {
            const auto of_others = blow_counts_of(row.result, plan);
            for (const auto& method : methods)
                row.blow_counts.*method.blow_count = of_others.*method.blow_count;
        }
        other_rows_ = std::move(rows);
        return other_rows_;
    }

    const StudyFile& study_;
    std::vector<MethodDeviation>& all_;
    std::vector<StudyRow> other_rows_;
};

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

} // namespace

std::string_view in_words(SimulatedCount kind) {
    return std::find_if(std::begin(simulated_counts), std::end(simulated_counts),
                        [&](const Simulated& simulated) { return simulated.kind == kind; })
        ->name;
}

StudyComparison compare_blow_counts(const StudyFile& study, const std::vector<StudyRow>& rows) {
    StudyComparison comparison;
    Deviations deviations(study, comparison.deviations);
    for (const auto& simulated : simulated_counts)
        for (const auto& method : methods)
            deviations.add(method, simulated, rows);
    const auto groups = rows_of_equal_work(study, rows);
    for (const auto& simulated : simulated_counts)
        if (is_mean(simulated.kind))
            comparison.trends.push_back(
                trend_of(fmt::format("simulation, {}", simulated.name), simulated.blow_count, groups));
    for (const auto& method : methods)
        if (*method.letter != 'A' || study.comparison.chart)
            comparison.trends.push_back(
                trend_of(fmt::format("method {}", method.letter), method.blow_count, groups));
    return comparison;
}

} // namespace interpile::io
