#include "io/water_report.h"

#include "io/progress.h"
#include "mesh/pile_layout.h"
#include "solver/pore_water.h"
#include "solver/soil_model.h"
#include "solver/work_calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace interpile::io {

namespace {

using Numbers = std::vector<std::pair<std::string, std::string>>;

double half_spacing_m(const Case& run_case) {
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : run_case.plan.piles)
        centers.push_back(pile.center_m);
    return 0.5 * (run_case.layout.cell || centers.size() < 2 ? run_case.layout.spacing_m
                                                             : mesh::smallest_distance_m(centers));
}

/// 90 % of an exponential decay at the rate of the first mode of a layer or of a pile, drained at one end:
/// (pi^2/4) k M/(gamma_w H^2).
double first_mode_90_percent_s(double permeability_m_s, double length_m, double modulus_kPa) {
    const double mode = std::numbers::pi * std::numbers::pi / 4;
    return std::log(10) * solver::gamma_w * length_m * length_m / (mode * permeability_m_s * modulus_kPa);
}

double piles_over_domain(const Case& run_case) {
    double share = 0;
    for (const auto& pile : run_case.plan.piles)
        share += mesh::area_replacement_ratio_in(run_case.domain, {pile.center_m}, pile.diameter_m);
    return share;
}

/// How long 90 % of a pressure takes to go, by each way it can.
void add_dissipation(Numbers& numbers, const Case& run_case) {
    const auto& water = run_case.plan.water;
    const double modulus = elastic_modulus_kPa(run_case);
    const double c_h = consolidation_coefficient_m2_s(water.permeability_m_s, modulus);
    numbers.emplace_back(
        "elastic oedometric modulus",
        fmt::format("{:.3g} MPa, before treatment; far less where the sand yields", modulus / 1000));
    numbers.emplace_back("coefficient of consolidation",
                         fmt::format("c_h {:.3g} m2/s, by that modulus: an upper bound", c_h));
    if (const double distance = half_spacing_m(run_case); distance > 0)
        numbers.emplace_back("90 % dissipation, horizontally",
                             fmt::format("{} over half the spacing, {:.3g} m: a lower bound",
                                         duration_words(time_to_90_percent_s(distance, c_h)), distance));
    if (water.leak_length_m > 0)
        numbers.emplace_back("90 % dissipation, by the leak",
                             fmt::format("{} over {:.3g} m: a lower bound",
                                         duration_words(first_mode_90_percent_s(
                                             water.vertical_permeability_m_s, water.leak_length_m, modulus)),
                                         water.leak_length_m));
    const double pile_area = piles_over_domain(run_case);
    if (water.pile_permeability_m_s > 0 && water.pile_leak_length_m > 0 && pile_area > 0)
        numbers.emplace_back(
            "90 % dissipation, up the piles",
            fmt::format("{} along {:.3g} m of all finished piles: a lower bound",
                        duration_words(first_mode_90_percent_s(pile_area * water.pile_permeability_m_s,
                                                               water.pile_leak_length_m, modulus)),
                        water.pile_leak_length_m));
}

void add_durations(Numbers& numbers, const Case& run_case) {
    const auto& plan = run_case.plan;
    const auto& schedule = plan.schedule;
    const double at_slice = solver::time_at_slice_s(plan.strokes, schedule);
    if (plan.strokes.strokes > 0)
        numbers.emplace_back("a stroke",
                             fmt::format("{}, of it {} withdrawal",
                                         duration_words(schedule.withdrawal_s + schedule.redrive_s),
                                         duration_words(schedule.withdrawal_s)));
    numbers.emplace_back("a pile", fmt::format("{}, of it {} past the slice",
                                               duration_words(std::max(at_slice, schedule.pile_s)),
                                               duration_words(at_slice)));
    if (schedule.rigs > 1)
        numbers.emplace_back("rigs", schedule.rig_offset_s > 0
                                         ? fmt::format("{}, each begins {} after the one before it",
                                                       schedule.rigs, duration_words(schedule.rig_offset_s))
                                         : fmt::format("{}, driving their piles together", schedule.rigs));
    const double whole = solver::work_duration_s(plan);
    numbers.emplace_back("whole work", schedule.final_rest_s > 0
                                           ? fmt::format("{}, then {} of rest",
                                                         duration_words(whole - schedule.final_rest_s),
                                                         duration_words(schedule.final_rest_s))
                                           : duration_words(whole));
    if (schedule.begins)
        numbers.emplace_back(
            "by the calendar",
            fmt::format(
                "{} to {}{}", solver::in_words(*schedule.begins),
                solver::in_words(solver::later(*schedule.begins, whole - schedule.final_rest_s)),
                schedule.final_rest_s > 0
                    ? fmt::format(", rest until {}", solver::in_words(solver::later(*schedule.begins, whole)))
                    : ""));
}

/// A rig is ready for a pile while that of another still passes the slice.
bool passes_overlap(const solver::InstallationPlan& plan) {
    const auto begins = solver::begins_s(plan);
    const double at_slice = solver::time_at_slice_s(plan.strokes, plan.schedule);
    for (std::size_t place = 1; place < plan.order.size(); ++place)
        if (solver::rig_at(plan, place) != solver::rig_at(plan, place - 1) &&
            begins[place] - begins[place - 1] <= at_slice * (1 + 1e-9))
            return true;
    return false;
}

/// Of the ring around the thinnest pile; 0 without one.
double smear_thickness_m(const Case& run_case) {
    double diameter_m = std::numeric_limits<double>::infinity();
    for (const auto& pile : run_case.plan.piles)
        diameter_m = std::min(diameter_m, pile.diameter_m);
    const double ratio = run_case.plan.water.smear_diameter_ratio;
    return ratio > 1 && std::isfinite(diameter_m) ? 0.5 * (ratio - 1) * diameter_m : 0;
}

bool can_drain(const Case& run_case) {
    const auto& water = run_case.plan.water;
    const auto& side = run_case.domain.side;
    const bool side_open = water.open_sides && std::any_of(side.begin(), side.end(), [](auto kind) {
                               return kind != mesh::BoundaryKind::Symmetry;
                           });
    return side_open || water.leak_length_m > 0 ||
           (water.pile_permeability_m_s > 0 && water.pile_leak_length_m > 0);
}

} // namespace

double elastic_modulus_kPa(const Case& run_case) {
    const auto& slice = run_case.slice;
    const auto soil = solver::make_soil_model(run_case.soil);
    solver::SoilState state;
    state.resize(1, soil->history_size());
    const double horizontal = slice.K0 * slice.vertical_stress_kPa;
    state.stress.row(0) << horizontal, horizontal, slice.vertical_stress_kPa, 0;
    state.void_ratio(0) = slice.void_ratio;
    soil->initialize(state);
    const auto moduli = soil->moduli(state, 0);
    return moduli.bulk + 4.0 / 3 * moduli.shear;
}

double consolidation_coefficient_m2_s(double permeability_m_s, double modulus_kPa) {
    return permeability_m_s * modulus_kPa / solver::gamma_w;
}

double time_to_90_percent_s(double distance_m, double consolidation_coefficient_m2_s) {
    return 0.848 * distance_m * distance_m / consolidation_coefficient_m2_s;
}

std::vector<std::pair<std::string, std::string>> water_numbers(const Case& run_case) {
    Numbers numbers;
    const auto& water = run_case.plan.water;
    if (water.drainage == solver::Drainage::Drained)
        return numbers;
    numbers.emplace_back("bulk modulus of the pore water",
                         fmt::format("{:.3g} MPa", 1e-3 / solver::water_compressibility_1_kPa(
                                                              water.saturation, water.static_pressure_kPa)));
    if (water.drainage == solver::Drainage::Coupled) {
        add_dissipation(numbers, run_case);
        add_durations(numbers, run_case);
    }
    return numbers;
}

std::vector<std::string> water_remarks(const Case& run_case) {
    const std::string slice =
        "A horizontal slice knows no vertical shear, no rotation of the casing and no crushing of grains";
    const auto& water = run_case.plan.water;
    if (water.drainage == solver::Drainage::Drained)
        return {slice + ", and no pore pressure: it is drained."};
    std::vector<std::string> sentences = {slice + "."};
    if (water.drainage == solver::Drainage::Undrained) {
        sentences.emplace_back(
            "No water flows: excess pore pressures stay, and what density their dissipation would "
            "bring is not in the result.");
        return sentences;
    }
    sentences.emplace_back(
        "Water flows horizontally within the slice; excess pressures that the same piles raise above "
        "and below it, and flow to and from there, are not in the result.");
    if (water.leak_length_m > 0)
        sentences.push_back(fmt::format(
            "water.leak_length_m stands for vertical flow by the first mode of a layer {:.4g} m thick "
            "drained at one end: too slow at first, right once that mode is left.",
            water.leak_length_m));
    if (water.pile_permeability_m_s > 0 && water.pile_leak_length_m > 0)
        sentences.push_back(fmt::format("Finished piles drain along {:.4g} m by the first mode of their own "
                                        "length. A pile being driven does "
                                        "not drain; clogging{} left out.",
                                        water.pile_leak_length_m,
                                        water.smear_diameter_ratio > 1 ? " is" : " and smear are"));
    if (const double ring = smear_thickness_m(run_case); ring > 0 && ring < run_case.grid.fine_cell_m)
        sentences.push_back(fmt::format("The smeared ring is {:.3g} m thick, less than a cell of {:.3g} m: "
                                        "it acts as resistance of the cells at "
                                        "the pile, coarsely. Refine the grid to see it.",
                                        ring, run_case.grid.fine_cell_m));
    if (passes_overlap(run_case.plan))
        sentences.emplace_back(
            "Piles of several rigs pass the slice at the same time: they are driven one after "
            "the other in the order of their begin, without rest between them, so that the "
            "work takes longer here than on the site. schedule.rig_offset_min = 0 drives them "
            "together.");
    if (!can_drain(run_case))
        sentences.emplace_back(
            "Nothing drains this slice: no open side, no leak length, no permeable piles. Pressures "
            "only even out.");
    sentences.emplace_back(
        "The times for 90 % dissipation take the soil as elastic and everything else as perfect; "
        "read dissipation from the result.");
    return sentences;
}

} // namespace interpile::io
