#include "io/study_result.h"

#include "io/case_parts.h"
#include "io/case_syntax.h"
#include "mesh/treated_area.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace interpile::io {

namespace {

constexpr std::array columns = {
    MemberColumn{"slice_depth_m", &MemberResult::depth_m, "z", "m", "depth of the slice"},
    MemberColumn{"vertical_stress_kPa", &MemberResult::vertical_stress_kPa, "σ_v'", "kPa",
                 "effective vertical stress before treatment"},
    MemberColumn{"spacing_m", &MemberResult::spacing_m, "s", "m", "center to center within a row"},
    MemberColumn{"replacement_ratio", &MemberResult::replacement_ratio, "a_s", "-", "area replacement ratio"},
    MemberColumn{"relative_density_before_pct", &MemberResult::density_before_pct, "D_r", "%",
                 "relative density before treatment"},
    MemberColumn{"relative_density_pct", &MemberResult::density_pct, "D_r", "%",
                 "relative density after treatment, mean between the piles"},
    MemberColumn{"weakest_relative_density_pct", &MemberResult::weakest_density_pct, "D_r", "%",
                 "relative density after treatment at the weakest place between the piles"},
    MemberColumn{"centroid_relative_density_pct", &MemberResult::centroid_density_pct, "D_r", "%",
                 "relative density after treatment at the centroid"},
    MemberColumn{"mid_span_relative_density_pct", &MemberResult::mid_span_density_pct, "D_r", "%",
                 "relative density after treatment at mid-span"},
    MemberColumn{"lateral_stress_ratio_before", &MemberResult::stress_ratio_before, "K_0", "-",
                 "lateral stress ratio before treatment"},
    MemberColumn{"lateral_stress_ratio", &MemberResult::stress_ratio, "K", "-",
                 "lateral stress ratio after treatment, mean between the piles"},
    MemberColumn{"heave_pct", &MemberResult::heave_pct, "", "%", "heave over thickness, upward positive"},
    MemberColumn{"efficiency", &MemberResult::efficiency, "η", "-", "densified over injected volume"},
    MemberColumn{"mid_span_excess_pressure_ratio", &MemberResult::mid_span_pressure_ratio, "r_u", "-",
                 "largest excess pore pressure at mid-span over vertical stress before treatment"},
    MemberColumn{"time_to_10_pct_min", &MemberResult::time_to_10_pct_min, "t", "min",
                 "after the last pile, until 10 % of the mean excess pressure between the piles remain"},
};

/// What is kept besides the columns.
constexpr std::array more = {
    MemberColumn{"e_max", &MemberResult::e_max, "", "", ""},
    MemberColumn{"e_min", &MemberResult::e_min, "", "", ""},
    MemberColumn{"increments", &MemberResult::increments, "", "", ""},
    MemberColumn{"iterations", &MemberResult::iterations, "", "", ""},
    MemberColumn{"wall_time_s", &MemberResult::wall_time_s, "", "", ""},
};

constexpr std::array states = {MemberState::NotRun, MemberState::Converged, MemberState::NotConverged,
                               MemberState::Failed};

std::string number_text(double value) {
    if (std::isnan(value))
        return "nan";
    if (std::isinf(value))
        return value > 0 ? "inf" : "-inf";
    const std::string text = fmt::format("{:.17g}", value);
    return text.find_first_of(".e") == std::string::npos ? text + ".0" : text;
}

/// a_s of the cell where the domain is one, else of the pattern.
double replacement_ratio_of(const Case& member, const std::vector<mesh::Vec2>& centers, double diameter_m) {
    if (member.layout.cell || mesh::is_round_cell(centers, member.domain, diameter_m))
        return mesh::area_replacement_ratio_in(member.domain, centers, diameter_m);
    if (member.layout.pattern != mesh::Pattern::Listed && !(member.layout.spacing_m > 0))
        return MemberResult::unknown;
    return mesh::area_replacement_ratio(member.layout, diameter_m).value_or(MemberResult::unknown);
}

} // namespace

std::string_view in_words(MemberState state) {
    switch (state) {
    case MemberState::NotRun:
        return "not run";
    case MemberState::Converged:
        return "converged";
    case MemberState::NotConverged:
        return "not converged";
    case MemberState::Failed:
        return "failed";
    }
    return {};
}

std::span<const MemberColumn> member_columns() {
    return columns;
}

MemberResult planned(const Case& member) {
    MemberResult result;
    const auto& slice = member.slice;
    result.densifies = solver::make_soil_model(member.soil)->densifies_by_cycles();
    result.depth_m = slice.depth_m;
    result.vertical_stress_kPa = slice.vertical_stress_kPa;
    result.e_max = slice.e_max;
    result.e_min = slice.e_min;
    result.density_before_pct = slice.relative_density_pct(slice.void_ratio);
    result.stress_ratio_before = slice.K0;
    if (member.layout.spacing_m > 0)
        result.spacing_m = member.layout.spacing_m;
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : member.plan.piles)
        centers.push_back(pile.center_m);
    if (!centers.empty())
        result.replacement_ratio =
            replacement_ratio_of(member, centers, member.plan.piles.front().diameter_m);
    return result;
}

std::string result_text(const MemberResult& result) {
    std::ostringstream reason;
    reason << toml::value<std::string>(result.reason);
    std::string text = fmt::format("# Result of one member of a study, written by interpile.\n"
                                   "program_version = \"{}\"\nstate = \"{}\"\nreason = {}\ndensifies = {}\n",
                                   INTERPILE_VERSION, in_words(result.state), reason.str(), result.densifies);
    for (const std::span<const MemberColumn> part :
         {std::span<const MemberColumn>(columns), std::span<const MemberColumn>(more)})
        for (const auto& column : part)
            text += fmt::format("{} = {}\n", column.name, number_text(result.*column.value));
    return text + "whole = true\n"; // last, so that a torn file is seen
}

std::optional<MemberResult> read_result(const std::filesystem::path& file) {
    if (!std::filesystem::exists(file))
        return {};
    toml::table table;
    try {
        table = toml::parse(read_text_file(file));
    } catch (const toml::parse_error&) {
        return {};
    }
    if (!table["whole"].value_or(false) ||
        table["program_version"].value_or("") != std::string(INTERPILE_VERSION))
        return {};
    MemberResult result;
    for (const MemberState state : states)
        if (table["state"].value_or("") == std::string(in_words(state)))
            result.state = state;
    result.reason = table["reason"].value_or("");
    result.densifies = table["densifies"].value_or(true);
    for (const std::span<const MemberColumn> part :
         {std::span<const MemberColumn>(columns), std::span<const MemberColumn>(more)})
        for (const auto& column : part)
            result.*column.value = table[column.name].value_or(MemberResult::unknown);
    return result;
}

} // namespace interpile::io
