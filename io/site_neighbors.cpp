#include "io/site_neighbors.h"

#include "io/csv_cells.h"
#include "solver/number_check.h"
#include "solver/surroundings/ground_displacement.h"
#include "solver/surroundings/noise.h"
#include "solver/surroundings/screening_sources.h"
#include "solver/surroundings/vibration.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace interpile::io {
namespace {

using solver::LevelAtDistance;
using solver::Nuisance;
using solver::screening_source;
using solver::ScreeningSource;

constexpr const char* border_name = "site border";
constexpr double no_end = std::numeric_limits<double>::max();

/// Levels of one kind of work.
struct Work {
    const ScreeningSource& vibration;
    const ScreeningSource& noise;
};

Work non_vibratory_work() {
    constexpr auto name = "non-vibratory sand pile";
    return {screening_source(name, Nuisance::Vibration), screening_source(name, Nuisance::Noise)};
}

/// The hammer spans the level of the vibratory sand pile and is what the rule of 50 m is made for.
Work vibratory_work() {
    return {screening_source("vibratory hammer from 40 kW", Nuisance::Vibration),
            screening_source("vibratory sand pile", Nuisance::Noise)};
}

void check_range(const char* name, const NumberRange& range, double largest) {
    solver::require_between(fmt::format("{}.low", name).c_str(), range.low, 0, largest);
    solver::require_between(fmt::format("{}.high", name).c_str(), range.high, range.low, largest);
}

void check(const NeighborsPlan& plan) {
    if (plan.piles_m.empty())
        throw std::invalid_argument("piles_m is empty; give at least one pile");
    solver::require_positive("pile_diameter_m", plan.pile_diameter_m);
    solver::require_positive("casing_diameter_m", plan.casing_diameter_m);
    solver::require_between("casing_diameter_m", plan.casing_diameter_m, 0, plan.pile_diameter_m);
    solver::require_between("top_depth_m", plan.top_depth_m, 0, no_end);
    solver::require_between("bottom_depth_m", plan.bottom_depth_m, plan.top_depth_m, no_end);
    check_range("efficiency", plan.efficiency, 1);
    check_range("attenuation_per_m", plan.attenuation_per_m, no_end);
    solver::require_positive("border_distance_m", plan.border_distance_m);
    solver::require_finite("vibration_limit_dB", plan.vibration_limit_dB);
    solver::require_finite("noise_limit_dB", plan.noise_limit_dB);
}

NeighborLevel against(double limit_dB, NumberRange level_dB) {
    const auto check = level_dB.high <= limit_dB  ? LimitCheck::Within
                       : level_dB.low <= limit_dB ? LimitCheck::MayBeAbove
                                                  : LimitCheck::Above;
    return {level_dB, check};
}

WorkLevels levels_at(double distance_m, const Work& work, const NeighborsPlan& plan) {
    const auto vibration = [&](double level_dB, double attenuation_per_m) {
        return solver::vibration_level_dB({level_dB, work.vibration.distance_m}, distance_m,
                                          attenuation_per_m);
    };
    const auto noise = [&](double level_dB) {
        return solver::noise_level_dB(solver::sound_power_dB({level_dB, work.noise.distance_m}), distance_m);
    };
    // Nearer than measured the stronger attenuation gives the higher level.
    const auto [low, high] = std::minmax({vibration(work.vibration.low_dB, plan.attenuation_per_m.low),
                                          vibration(work.vibration.low_dB, plan.attenuation_per_m.high),
                                          vibration(work.vibration.high_dB, plan.attenuation_per_m.low),
                                          vibration(work.vibration.high_dB, plan.attenuation_per_m.high)});
    return {against(plan.vibration_limit_dB, {low, high}),
            against(plan.noise_limit_dB, {noise(work.noise.low_dB), noise(work.noise.high_dB)})};
}

PushedGround pushed_at(const mesh::Vec2& at_m, const NeighborsPlan& plan) {
    const auto pushed_by = [&](double diameter_m, double top_m, double bottom_m) {
        return solver::group_displacement(at_m, plan.piles_m, {diameter_m / 2, top_m, bottom_m}, 0);
    };
    auto bound = pushed_by(plan.pile_diameter_m, plan.top_depth_m, plan.bottom_depth_m);
    if (plan.top_depth_m > 0) {
        const auto casing = pushed_by(plan.casing_diameter_m, 0, plan.top_depth_m);
        bound.shift_m += casing.shift_m;
        bound.heave_m += casing.heave_m;
    }
    const double outward_m = bound.shift_m.norm();
    const NumberRange share = {1 - plan.efficiency.high, 1 - plan.efficiency.low};
    return {outward_m,
            bound.heave_m,
            {share.low * outward_m, share.high * outward_m},
            {share.low * bound.heave_m, share.high * bound.heave_m}};
}

double nearest_pile_m(const mesh::ObservationPoint& point, const NeighborsPlan& plan) {
    double nearest = no_end;
    for (const auto& pile : plan.piles_m)
        nearest = std::min(nearest, (point.at_m - pile).norm());
    const double radius_m = plan.pile_diameter_m / 2;
    if (!(nearest >= radius_m && nearest < no_end))
        throw std::invalid_argument(fmt::format("point \"{}\" at ({}, {}) m lies inside a pile or nowhere; "
                                                "move it to at least {} m from every axis",
                                                point.name, point.at_m.x(), point.at_m.y(), radius_m));
    return nearest;
}

NeighborRow row_at(std::string place, double distance_m, const NeighborsPlan& plan) {
    const auto quiet = non_vibratory_work();
    const auto loud = vibratory_work();
    const double measured_m = std::max({quiet.vibration.distance_m, quiet.noise.distance_m,
                                        loud.vibration.distance_m, loud.noise.distance_m});
    return {std::move(place),
            distance_m,
            {},
            levels_at(distance_m, quiet, plan),
            levels_at(distance_m, loud, plan),
            distance_m < measured_m};
}

std::string cells(const NeighborLevel& level) {
    return fmt::format(",{:.1f},{:.1f},{}", level.level_dB.low, level.level_dB.high,
                       description(level.check));
}

std::string cells(const std::optional<PushedGround>& pushed) {
    if (!pushed)
        return ",,,,,,";
    const auto& p = *pushed;
    return fmt::format(",{:.1f},{:.1f},{:.1f},{:.1f},{:.1f},{:.1f}", 1e3 * p.outward_bound_m,
                       1e3 * p.outward_m.low, 1e3 * p.outward_m.high, 1e3 * p.heave_bound_m,
                       1e3 * p.heave_m.low, 1e3 * p.heave_m.high);
}

} // namespace

const char* description(LimitCheck check) {
    switch (check) {
    case LimitCheck::Within:
        return "within";
    case LimitCheck::MayBeAbove:
        return "may be above";
    case LimitCheck::Above:
        break;
    }
    return "above";
}

std::vector<NeighborRow> screen_neighbors(const NeighborsPlan& plan) {
    check(plan);
    std::vector<NeighborRow> rows;
    for (const auto& point : plan.points) {
        rows.push_back(row_at(point.name, nearest_pile_m(point, plan), plan));
        rows.back().pushed = pushed_at(point.at_m, plan);
    }
    rows.push_back(row_at(border_name, plan.border_distance_m, plan));
    return rows;
}

std::string neighbors_table(const NeighborsPlan& plan) {
    std::string table = "kind,place,nearest_pile_m,"
                        "outward_bound_mm,outward_low_mm,outward_high_mm,"
                        "heave_bound_mm,heave_low_mm,heave_high_mm";
    for (const char* what :
         {"non_vibratory_vibration", "non_vibratory_noise", "vibratory_vibration", "vibratory_noise"})
        table += fmt::format(",{0}_low_dB,{0}_high_dB,{0}_against_limit", what);
    table += ",vibration_limit_dB,noise_limit_dB,nearer_than_measured\n";
    for (const auto& row : screen_neighbors(plan)) {
        table += fmt::format("screening,{},{:.2f}", written_cell(row.place), row.nearest_pile_m);
        table += cells(row.pushed);
        for (const auto* work : {&row.non_vibratory, &row.vibratory})
            table += cells(work->vibration) + cells(work->noise);
        table += fmt::format(",{:.1f},{:.1f},{}\n", plan.vibration_limit_dB, plan.noise_limit_dB,
                             row.nearer_than_measured ? "yes" : "no");
    }
    return table;
}

} // namespace interpile::io
