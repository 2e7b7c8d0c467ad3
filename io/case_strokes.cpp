// [pile] and [steps] of a case.

#include "io/case_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::io {

namespace {

/// Strokes of one depth from the plan of withdrawal and re-driving; -1 if that is faulty.
int strokes_from_travel(CaseValues& values) {
    for (const auto* path : {"pile.withdrawal_m", "pile.redrive_m"})
        if (!values.given(path))
            values.missing(path,
                           "the strokes follow from withdrawal_m and redrive_m unless `strokes` is given");
    if (!values.has("pile.withdrawal_m") || !values.has("pile.redrive_m") ||
        !values.has("pile.stroke_reach_m"))
        return -1;
    const double withdrawal = values.number("pile.withdrawal_m");
    const double redrive = values.number("pile.redrive_m");
    const double reach = values.number("pile.stroke_reach_m");
    if (redrive >= withdrawal) {
        values.fault("pile.redrive_m", fmt::format("is not less than withdrawal_m = {}", withdrawal),
                     "The casing must rise from stroke to stroke.");
        return -1;
    }
    const double rise = withdrawal - redrive; // D, net rise per stroke [m]
    const double strokes = reach > 0 ? 2 * reach / rise : withdrawal / rise - 1;
    constexpr double most = 500; // as for the key `strokes`
    if (strokes > most) {
        values.fault("pile.redrive_m",
                     fmt::format("gives {:.0f} strokes at one depth, more than {}", strokes, most),
                     "The net rise withdrawal_m - redrive_m is too small.");
        return -1;
    }
    return static_cast<int>(std::lround(strokes));
}

int read_stroke_count(CaseValues& values) {
    if (values.given("pile.strokes")) {
        for (const auto* path : {"pile.withdrawal_m", "pile.redrive_m", "pile.stroke_reach_m"})
            values.no_effect(path, "where pile.strokes is given directly");
        return values.has("pile.strokes") ? values.count("pile.strokes") : -1;
    }
    const int strokes = strokes_from_travel(values);
    if (strokes >= 0)
        values.derive("pile.strokes", strokes);
    return strokes;
}

/// Piles with a diameter of their own, by the rules for pile.diameter_m.
void check_diameters(CaseValues& values, const solver::StrokePlan& plan, const std::vector<PlacedPile>& piles,
                     bool elastic) {
    for (std::size_t i = 0; i < piles.size(); ++i) {
        if (!piles[i].diameter_m)
            continue;
        const double diameter = *piles[i].diameter_m;
        Fault fault = piles[i].origin;
        if (plan.casing_diameter_m >= diameter) {
            fault.what = fmt::format("pile {}: diameter_m = {} is not above pile.casing_diameter_m = {}",
                                     i + 1, diameter, plan.casing_diameter_m);
            fault.mend = "The strokes widen a pile from the casing; leave out the casing, or the pile.";
        } else if (2 * plan.seed_radius_m >= diameter && !elastic) {
            fault.what = fmt::format("pile {}: diameter_m = {} is not above 2 x pile.seed_radius_m = {:.6g}",
                                     i + 1, diameter, 2 * plan.seed_radius_m);
            fault.mend = "Give a smaller pile.seed_radius_m; all piles share it.";
        } else {
            continue;
        }
        values.faults().add(std::move(fault));
    }
}

} // namespace

solver::StrokePlan read_strokes(CaseValues& values, const std::vector<PlacedPile>& piles) {
    solver::StrokePlan plan;
    plan.strokes = read_stroke_count(values);
    if (values.has("pile.withdrawal_pressure_ratio"))
        plan.withdrawal_pressure_ratio = values.number("pile.withdrawal_pressure_ratio");
    if (values.has("pile.final_pressure_ratio"))
        plan.final_pressure_ratio = values.number("pile.final_pressure_ratio");
    if (!values.has("pile.diameter_m"))
        return plan;
    const double diameter = values.number("pile.diameter_m");
    // A small growth of a large disc makes sense as an elastic check only.
    const bool elastic = values.has("soil.model") && values.text("soil.model") == "elastic";
    values.derive("pile.seed_radius_m", diameter / (2 * std::numbers::sqrt3));
    if (values.has("pile.seed_radius_m")) {
        plan.seed_radius_m = values.number("pile.seed_radius_m");
        if (plan.seed_radius_m >= diameter / 2 && !elastic)
            values.fault("pile.seed_radius_m",
                         fmt::format("is not less than half of diameter_m = {}", diameter),
                         "Leave it out: the default is diameter_m / (2 sqrt(3)).");
    }
    if (values.has("pile.casing_diameter_m") && plan.strokes > 0) // else one monotonic growth, no casing pass
        plan.casing_diameter_m = values.number("pile.casing_diameter_m");
    if (plan.casing_diameter_m >= diameter)
        values.fault("pile.casing_diameter_m", fmt::format("is not less than diameter_m = {}", diameter),
                     "The strokes widen the pile from the casing to its finished diameter.");
    else
        check_diameters(values, plan, piles, elastic);
    return plan;
}

solver::StepSettings read_steps(CaseValues& values) {
    solver::StepSettings steps;
    if (values.has("soil.model"))
        if (const auto* model = solver::find_soil_model(values.text("soil.model")))
            steps = model->steps;
    const auto number = [&](const std::string& key, double& target) {
        if (values.has("steps." + key))
            target = values.number("steps." + key);
    };
    const auto count = [&](const std::string& key, int& target) {
        if (values.has("steps." + key))
            target = values.count("steps." + key);
    };
    values.derive("steps.radius_step", steps.radius_step);
    values.derive("steps.tolerance", steps.tolerance);
    values.derive("steps.carry_over_tolerance", steps.carry_over_tolerance);
    values.derive("steps.hourglass", steps.hourglass);
    count("increments_per_pile", steps.increments_per_pile);
    number("radius_step", steps.radius_step);
    count("increments_per_half_stroke", steps.increments_per_half_stroke);
    number("tolerance", steps.tolerance);
    count("max_iterations", steps.max_iterations);
    count("max_halvings", steps.max_halvings);
    number("hourglass", steps.hourglass);
    count("carry_over_iterations", steps.carry_over_iterations);
    number("carry_over_tolerance", steps.carry_over_tolerance);
    if (steps.carry_over_tolerance < steps.tolerance && values.has("steps.carry_over_tolerance") &&
        values.has("steps.tolerance"))
        values.fault(values.given("steps.carry_over_tolerance") ? "steps.carry_over_tolerance"
                                                                : "steps.tolerance",
                     fmt::format("contradicts {}", values.given("steps.carry_over_tolerance")
                                                       ? values.as_written("steps.tolerance")
                                                       : values.as_written("steps.carry_over_tolerance")),
                     "carry_over_tolerance must be at least the tolerance.");
    return steps;
}

} // namespace interpile::io
