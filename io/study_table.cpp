#include "io/study_table.h"

#include "io/csv_text.h"
#include "io/hdf5.h"
#include "io/vocabulary.h"
#include "solver/design_methods/stress_factor.h"
#include "solver/design_methods/void_ratio_methods.h"
#include "solver/ground_state/meyerhof.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

struct BlowCountColumn {
    const char* name;
    double MemberBlowCounts::*value;
    const char *symbol, *meaning;
};

constexpr BlowCountColumn blow_count_columns[] = {
    {"blow_count_before", &MemberBlowCounts::before, "N_0", "blow count of the density before treatment"},
    {"blow_count_after", &MemberBlowCounts::after, "N_1",
     "blow count of the mean density after treatment alone"},
    {"blow_count_after_with_stress", &MemberBlowCounts::stressed, "N_1",
     "the same with the effect of the lateral stress (own derivation)"},
    {"blow_count_weakest", &MemberBlowCounts::weakest, "N_1",
     "blow count of the least density between the piles after treatment alone"},
    {"blow_count_centroid", &MemberBlowCounts::centroid, "N_1", "the same of the density at the centroid"},
    {"blow_count_mid_span", &MemberBlowCounts::mid_span, "N_1", "the same of the density at mid-span"},
    {"blow_count_method_A", &MemberBlowCounts::method_a, "N_1",
     "blow count after treatment by method A, a chart"},
    {"blow_count_method_B", &MemberBlowCounts::method_b, "N_1", "blow count after treatment by method B"},
    {"blow_count_method_C", &MemberBlowCounts::method_c, "N_1", "blow count after treatment by method C"},
    {"blow_count_method_D", &MemberBlowCounts::method_d, "N_1", "blow count after treatment by method D"},
};

/// Not a number where the method does not hold.
double of_method(const solver::DesignResult& result) {
    return result.outside.empty() ? result.blow_count_after : MemberResult::unknown;
}

/// A dataset for every column, and what it means.
class StudyDatasets {
public:
    StudyDatasets(const std::filesystem::path& path, std::size_t rows)
        : file_(hdf5::File::create(path)), rows_(rows) {
        const hdf5::Handle creation(H5Pcreate(H5P_GROUP_CREATE));
        H5Pset_obj_track_times(creation.get(), false); // equal contents, equal bytes
        group_ = hdf5::Handle(
            file_.check(H5Gcreate2(file_.id(), "/members", H5P_DEFAULT, creation.get(), H5P_DEFAULT),
                        "create", "/members"));
    }

    void root(const std::string& name, const std::string& text) {
        hdf5::write_attribute(file_, "/", name, text);
    }

    void numbers(const std::string& name, const std::vector<double>& values, const char* symbol,
                 std::string_view unit, const std::string& meaning) {
        const std::string object = "/members/" + name;
        hdf5::Dataset::create(file_, object, H5T_IEEE_F64LE, {rows_}).write(values.data());
        describe(object, symbol, unit, meaning);
    }

    void texts(const std::string& name, const std::vector<std::string>& values, const std::string& meaning) {
        const std::string object = "/members/" + name;
        std::size_t bytes = 1;
        for (const auto& value : values)
            bytes = std::max(bytes, value.size());
        std::string packed;
        for (std::string value : values) {
            value.resize(bytes);
            packed += value;
        }
        const auto type = hdf5::text_type(file_, bytes);
        hdf5::Dataset::create(file_, object, type.get(), {rows_}).write(type.get(), packed.data());
        describe(object, "", "-", meaning);
    }

    void close() {
        group_ = hdf5::Handle();
        file_.close();
    }

private:
    void describe(const std::string& object, const char* symbol, std::string_view unit,
                  const std::string& meaning) {
        hdf5::write_attribute(file_, object, "axes", std::string("member"));
        hdf5::write_attribute(file_, object, "symbol", std::string(symbol));
        hdf5::write_attribute(file_, object, "unit", std::string(unit));
        hdf5::write_attribute(file_, object, "long_name", meaning);
    }

    hdf5::File file_;
    hdf5::Handle group_;
    std::size_t rows_;
};

} // namespace

MemberBlowCounts blow_counts_of(const MemberResult& result, const ComparisonPlan& plan) {
    MemberBlowCounts counts;
    if (!(result.density_before_pct >= 0) || !(result.vertical_stress_kPa >= 0))
        return counts;
    const double stress_kPa = result.vertical_stress_kPa;
    counts.before = solver::meyerhof_blow_count(result.density_before_pct, stress_kPa);
    if (result.state == MemberState::Converged && result.density_pct >= 0) {
        const auto of_density = [&](double density_pct) {
            return density_pct >= 0 ? solver::meyerhof_blow_count(density_pct, stress_kPa)
                                    : MemberResult::unknown;
        };
        counts.after = of_density(result.density_pct);
        counts.weakest = of_density(result.weakest_density_pct);
        counts.centroid = of_density(result.centroid_density_pct);
        counts.mid_span = of_density(result.mid_span_density_pct);
        if (result.stress_ratio >= 0)
            counts.stressed = counts.after * solver::blow_count_stress_factor(stress_kPa, result.stress_ratio,
                                                                              result.stress_ratio_before);
    }
    if (!(result.replacement_ratio >= 0 && result.replacement_ratio < 1))
        return counts;
    const solver::LayerState layer{stress_kPa, plan.fines_pct, counts.before};
    solver::VoidRatioSettings settings;
    settings.alpha = plan.alpha;
    if (plan.limits_of_case)
        settings.limits = solver::VoidRatioLimits{result.e_max, result.e_min};
    const auto by = [&](solver::DesignMethod method) {
        return of_method(predict_blow_count(method, layer, result.replacement_ratio, settings));
    };
    counts.method_b = by(solver::DesignMethod::B);
    counts.method_c = by(solver::DesignMethod::C);
    counts.method_d = by(solver::DesignMethod::D);
    if (plan.chart)
        counts.method_a = of_method(predict_blow_count(*plan.chart, layer, result.replacement_ratio));
    return counts;
}

std::string study_table(const StudyFile& study, const std::vector<StudyRow>& rows) {
    std::vector<std::string> head = {"member"};
    for (const auto& factor : study.factors)
        head.push_back(factor.key);
    head.insert(head.end(), {"state", "reason"});
    for (const auto& column : member_columns())
        head.emplace_back(column.name);
    for (const auto& column : blow_count_columns)
        head.emplace_back(column.name);
    CsvText table(head);
    for (const StudyRow& row : rows) {
        table.cell(static_cast<int>(row.number));
        for (const auto& value : study.members[row.number - 1].values)
            table.cell(value);
        table.cell(in_words(row.result.state)).cell(row.result.reason);
        for (const auto& column : member_columns())
            table.cell(row.result.*column.value);
        for (const auto& column : blow_count_columns)
            table.cell(row.blow_counts.*column.value);
        table.end_row();
    }
    return table.text();
}

std::string study_times(const std::vector<StudyRow>& rows) {
    CsvText table({"member", "increments", "iterations", "wall_time_s"});
    for (const StudyRow& row : rows) {
        table.cell(static_cast<int>(row.number)).cell(row.result.increments).cell(row.result.iterations);
        table.cell(row.result.wall_time_s).end_row();
    }
    return table.text();
}

void write_study_file(const std::filesystem::path& path, const StudyFile& study,
                      const std::vector<StudyRow>& rows) {
    StudyDatasets file(path, rows.size());
    file.root("format", "interpile study");
    file.root("title", study.title);
    file.root("program_version", INTERPILE_VERSION);
    const auto collect = [&](const auto& value_of) {
        std::vector<double> values;
        for (const StudyRow& row : rows)
            values.push_back(value_of(row));
        return values;
    };
    const auto collect_texts = [&](const auto& text_of) {
        std::vector<std::string> texts;
        for (const StudyRow& row : rows)
            texts.emplace_back(text_of(row));
        return texts;
    };
    file.numbers("member", collect([](const auto& row) { return static_cast<double>(row.number); }), "", "-",
                 "number of the member, from 1");
    for (std::size_t f = 0; f < study.factors.size(); ++f) {
        const auto& factor = study.factors[f];
        const std::string meaning = "factor of the study, a key of the case";
        if (factor.numeric)
            file.numbers(factor.key,
                         collect([&](const auto& row) { return study.members[row.number - 1].numbers[f]; }),
                         "", unit_of(factor.key), meaning);
        else
            file.texts(factor.key, collect_texts([&](const auto& row) {
                           return study.members[row.number - 1].values[f];
                       }),
                       meaning);
    }
    file.texts("state", collect_texts([](const auto& row) { return in_words(row.result.state); }),
               "converged, not converged, failed, not run");
    file.texts("reason", collect_texts([](const auto& row) { return row.result.reason; }),
               "why a member has no result");
    for (const auto& column : member_columns())
        file.numbers(column.name, collect([&](const auto& row) { return row.result.*column.value; }),
                     column.symbol, column.unit, column.meaning);
    for (const auto& column : blow_count_columns)
        file.numbers(column.name, collect([&](const auto& row) { return row.blow_counts.*column.value; }),
                     column.symbol, "-", column.meaning);
    file.close();
}

} // namespace interpile::io
