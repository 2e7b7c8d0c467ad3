#include "io/program/study_figures.h"

#include "io/vocabulary.h"
#include "postprocess/page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

namespace interpile::program {

namespace {

using io::StudyFile;
using io::StudyRow;

const std::string spacing_key = "layout.spacing_m";
constexpr std::array ratio_keys = {"layout.spacing_m", "layout.row_spacing_m", "pile.diameter_m"};
constexpr std::array density_keys = {"ground.relative_density_pct", "ground.void_ratio"};

std::string source_of(const StudyFile& study) {
    return fmt::format("interpile " INTERPILE_VERSION ", interpile study {}", study.file.filename().string());
}

template <class Keys>
bool is_among(const Keys& keys, const std::string& key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
}

/// "slice depth 6 m" of ground.slice_depth_m.
std::string value_in_words(const io::StudyFactor& factor, const std::string& value) {
    if (factor.key == density_keys[0])
        return fmt::format("D_r before {} %", value);
    std::string name = factor.key.substr(factor.key.rfind('.') + 1);
    const std::string unit(io::unit_of(name));
    for (const char* ending : {"_kN_m3", "_per_m", "_pct", "_kPa", "_deg", "_m2", "_h", "_m"})
        if (unit != "-" && name.ends_with(ending)) {
            name.resize(name.size() - std::string_view(ending).size());
            break;
        }
    std::replace(name.begin(), name.end(), '_', ' ');
    return unit == "-" ? fmt::format("{} {}", name, value) : fmt::format("{} {} {}", name, value, unit);
}

/// Rows by their values of some factors, in the order of the members.
struct Group {
    std::vector<std::string> values;
    std::vector<const StudyRow*> rows;
};

std::vector<Group> grouped(const StudyFile& study, const std::vector<const StudyRow*>& rows,
                           const std::vector<std::size_t>& by) {
    std::vector<Group> groups;
    std::map<std::vector<std::string>, std::size_t> places;
    for (const StudyRow* row : rows) {
        std::vector<std::string> values;
        for (const std::size_t f : by)
            values.push_back(study.members[row->number - 1].values[f]);
        const auto [found, is_new] = places.try_emplace(values, groups.size());
        if (is_new)
            groups.push_back({values, {}});
        groups[found->second].rows.push_back(row);
    }
    return groups;
}

std::string words_of(const StudyFile& study, const std::vector<std::size_t>& factors,
                     const std::vector<std::string>& values) {
    std::vector<std::string> parts;
    for (std::size_t k = 0; k < factors.size(); ++k)
        parts.push_back(value_in_words(study.factors[factors[k]], values[k]));
    return fmt::format("{}", fmt::join(parts, ", "));
}

std::vector<const StudyRow*> pointers_to(const std::vector<StudyRow>& rows) {
    std::vector<const StudyRow*> all;
    for (const auto& row : rows)
        all.push_back(&row);
    return all;
}

bool differs(const std::vector<StudyRow>& rows, double io::MemberResult::*value) {
    std::set<double> found;
    for (const auto& row : rows)
        if (std::isfinite(row.result.*value))
            found.insert(row.result.*value);
    return found.size() > 1;
}

postprocess::SpacingCurve curve_of(const std::string& name, const std::vector<const StudyRow*>& rows,
                                   bool over_ratio) {
    postprocess::SpacingCurve curve{name, {}};
    for (const StudyRow* row : rows) {
        const auto& result = row->result;
        curve.points.push_back({over_ratio ? result.replacement_ratio : result.spacing_m, result.density_pct,
                                result.weakest_density_pct, result.stress_ratio});
    }
    return curve;
}

bool has_density(const postprocess::SpacingFigure& figure) {
    return std::any_of(figure.curves.begin(), figure.curves.end(), [](const auto& curve) {
        return std::any_of(curve.points.begin(), curve.points.end(), [](const auto& point) {
            return std::isfinite(point.at) && std::isfinite(point.density_pct);
        });
    });
}

/// What holds for every figure of a study.
template <class Figure>
Figure begun(const StudyFile& study, const std::vector<const StudyRow*>& rows) {
    Figure figure;
    figure.title = study.title;
    figure.source = source_of(study);
    if (std::any_of(rows.begin(), rows.end(), [](const StudyRow* row) { return !row->result.densifies; }))
        figure.warnings.emplace_back(postprocess::no_prediction);
    const auto without = std::count_if(rows.begin(), rows.end(), [](const StudyRow* row) {
        return row->result.state != io::MemberState::Converged;
    });
    if (without > 0)
        figure.warnings.push_back(fmt::format("{} of {} members have no result.", without, rows.size()));
    return figure;
}

/// Factors that make curves and figures: the second one is that of the curves.
struct Roles {
    std::vector<std::size_t> curves, figures;
};

Roles roles_of(const StudyFile& study, bool over_ratio) {
    Roles roles;
    std::vector<std::size_t> others;
    for (std::size_t f = 0; f < study.factors.size(); ++f)
        if (over_ratio ? !is_among(ratio_keys, study.factors[f].key) : study.factors[f].key != spacing_key)
            others.push_back(f);
    auto second = std::find_if(others.begin(), others.end(),
                               [&](std::size_t f) { return is_among(density_keys, study.factors[f].key); });
    if (second == others.end())
        second = others.begin();
    if (second != others.end()) {
        roles.curves = {*second};
        others.erase(second);
    }
    roles.figures = others;
    return roles;
}

void add_curves_of_methods(postprocess::BlowCountFigure& figure, const StudyFile& study,
                           io::MemberResult ground) {
    constexpr int steps = 60;
    const std::pair<const char*, double io::MemberBlowCounts::*> methods[] = {
        {"method A", &io::MemberBlowCounts::method_a},
        {"method B", &io::MemberBlowCounts::method_b},
        {"method C", &io::MemberBlowCounts::method_c},
        {"method D", &io::MemberBlowCounts::method_d}};
    for (const auto& [name, value] : methods) {
        postprocess::BlowCountCurve curve;
        curve.name = name;
        for (int n = 0; n <= steps; ++n) {
            ground.replacement_ratio = figure.largest_ratio * n / steps;
            if (const double count = io::blow_counts_of(ground, study.comparison).*value;
                std::isfinite(count))
                curve.points.emplace_back(ground.replacement_ratio, count);
        }
        if (!curve.points.empty())
            figure.curves.push_back(std::move(curve));
    }
}

} // namespace

std::vector<postprocess::SpacingFigure> spacing_figures(const StudyFile& study,
                                                        const std::vector<StudyRow>& rows) {
    const bool over_ratio = study.over_replacement_ratio || !differs(rows, &io::MemberResult::spacing_m);
    if (over_ratio && !differs(rows, &io::MemberResult::replacement_ratio))
        return {};
    const auto all = pointers_to(rows);
    const bool sample = study.design == io::StudyDesign::Sample;
    const Roles roles = sample ? Roles{} : roles_of(study, over_ratio);
    std::vector<postprocess::SpacingFigure> figures;
    for (const Group& group : grouped(study, all, roles.figures)) {
        auto figure = begun<postprocess::SpacingFigure>(study, group.rows);
        figure.subtitle = sample ? fmt::format("{} members of a sample", rows.size())
                                 : words_of(study, roles.figures, group.values);
        figure.over_replacement_ratio = over_ratio;
        figure.joined = !sample;
        for (const Group& part : grouped(study, group.rows, roles.curves))
            figure.curves.push_back(
                curve_of(words_of(study, roles.curves, part.values), part.rows, over_ratio));
        if (has_density(figure))
            figures.push_back(std::move(figure));
        if (figures.size() == most_study_figures)
            break;
    }
    return figures;
}

std::vector<postprocess::BlowCountFigure> blow_count_figures(const StudyFile& study,
                                                             const std::vector<StudyRow>& rows) {
    if (study.design == io::StudyDesign::Sample || !differs(rows, &io::MemberResult::replacement_ratio))
        return {};
    std::vector<std::size_t> ground;
    for (std::size_t f = 0; f < study.factors.size(); ++f)
        if (!is_among(ratio_keys, study.factors[f].key))
            ground.push_back(f);
    std::vector<postprocess::BlowCountFigure> figures;
    for (const Group& group : grouped(study, pointers_to(rows), ground)) {
        auto figure = begun<postprocess::BlowCountFigure>(study, group.rows);
        figure.subtitle = words_of(study, ground, group.values);
        figure.measured_name = "simulated: N of the mean density between the piles";
        figure.also_measured_name = "simulated: the same with the effect of K (own derivation)";
        double largest = 0;
        for (const StudyRow* row : group.rows) {
            largest = std::max(largest, row->result.replacement_ratio);
            if (std::isfinite(row->blow_counts.after))
                figure.measured.emplace_back(row->result.replacement_ratio, row->blow_counts.after);
            if (std::isfinite(row->blow_counts.stressed))
                figure.also_measured.emplace_back(row->result.replacement_ratio, row->blow_counts.stressed);
        }
        figure.largest_ratio = 1.1 * largest;
        figure.blow_count_before = group.rows.front()->blow_counts.before;
        figure.notes = {
            fmt::format("Methods with fines of {:g} %; each curve ends where its method reaches a relative "
                        "density of 100 %.",
                        study.comparison.fines_pct)};
        add_curves_of_methods(figure, study, group.rows.front()->result);
        if (!figure.measured.empty() && !figure.curves.empty())
            figures.push_back(std::move(figure));
        if (figures.size() == most_study_figures)
            break;
    }
    return figures;
}

} // namespace interpile::program
