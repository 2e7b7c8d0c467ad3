// [water] and [schedule] of a case.

#include "io/case_parts.h"
#include "io/water_vocabulary.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

constexpr double minute_s = 60, hour_s = 3600;

solver::Drainage drainage_of(const CaseValues& values) {
    const std::string& word = values.text("water.drainage");
    return word == "coupled"     ? solver::Drainage::Coupled
           : word == "undrained" ? solver::Drainage::Undrained
                                 : solver::Drainage::Drained;
}

/// Every key of a table but one means nothing.
void without_effect(CaseValues& values, const std::string& table, const std::string& but,
                    const std::string& because) {
    for (const KeyInfo& info : water_and_schedule())
        if (info.table == table && info.key != but)
            values.no_effect(fmt::format("{}.{}", info.table, info.key), because);
}

void set(double& to, const CaseValues& values, std::string_view path, double factor = 1) {
    if (values.has(path))
        to = factor * values.number(path);
}

double static_pressure_kPa(const CaseValues& values) {
    const double depth = values.has("ground.slice_depth_m") ? values.number("ground.slice_depth_m") : 0;
    const double table =
        values.has("ground.water_table_depth_m") ? values.number("ground.water_table_depth_m") : 0;
    return solver::gamma_w * std::max(0.0, depth - table);
}

void read_smear(CaseValues& values, solver::Water& water) {
    const char *diameter = "water.smear_diameter_ratio", *permeability = "water.smear_permeability_ratio";
    if (!values.has(diameter))
        return;
    if (water.pile_permeability_m_s == 0 && values.has("water.pile_permeability_m_s")) {
        values.no_effect(diameter, "where finished piles do not drain (pile_permeability_m_s = 0)");
        values.no_effect(permeability, "where finished piles do not drain (pile_permeability_m_s = 0)");
        return;
    }
    if (values.number(diameter) == 1) {
        values.no_effect(permeability, "without a ring (smear_diameter_ratio = 1)");
        return;
    }
    if (!values.given(permeability))
        values.missing(permeability, "a smeared ring needs it");
    set(water.smear_diameter_ratio, values, diameter);
    set(water.smear_permeability_ratio, values, permeability);
}

/// Duration of a stroke; 0 where it is not known.
double read_stroke_s(CaseValues& values, const solver::StrokePlan& strokes) {
    if (strokes.strokes <= 0) {
        values.no_effect("schedule.stroke_s", "without strokes");
        return 0;
    }
    const bool travel = values.has("pile.withdrawal_m") && values.has("pile.redrive_m");
    if (travel && values.has("schedule.withdrawal_speed_m_min") && values.has("schedule.redrive_speed_m_min"))
        values.derive("schedule.stroke_s", minute_s * (values.number("pile.withdrawal_m") /
                                                           values.number("schedule.withdrawal_speed_m_min") +
                                                       values.number("pile.redrive_m") /
                                                           values.number("schedule.redrive_speed_m_min")));
    else if (values.given("pile.strokes") && !values.given("schedule.stroke_s"))
        values.missing("schedule.stroke_s", "pile.strokes is given directly");
    return values.has("schedule.stroke_s") ? values.number("schedule.stroke_s") : 0;
}

double read_pile_s(CaseValues& values, double stroke_s) {
    const bool travel = values.has("pile.withdrawal_m") && values.has("pile.redrive_m");
    if (values.has("schedule.pile_length_m") && travel && stroke_s > 0 &&
        values.has("schedule.penetration_speed_m_min")) {
        const double length = values.number("schedule.pile_length_m");
        const double rise = values.number("pile.withdrawal_m") - values.number("pile.redrive_m");
        values.derive("schedule.pile_min", length / values.number("schedule.penetration_speed_m_min") +
                                               length / rise * stroke_s / minute_s);
    } else if (!values.given("schedule.pile_min") && !values.any_unsound("schedule")) {
        values.missing("schedule.pile_min",
                       "it does not follow from pile_length_m and strokes of withdrawal_m and redrive_m");
    }
    return values.has("schedule.pile_min") ? minute_s * values.number("schedule.pile_min") : 0;
}

/// The days of the work.
void read_calendar(CaseValues& values, solver::Schedule& schedule) {
    if (values.has("schedule.begins"))
        schedule.begins = solver::local_time(values.text("schedule.begins"));
    if (values.has("schedule.work_h_per_day") && schedule.day_s == 0)
        values.no_effect("schedule.work_days_per_week", "without work_h_per_day");
    if (values.has("schedule.work_days_per_week"))
        schedule.days_per_week = values.count("schedule.work_days_per_week");
    if (schedule.begins && solver::weekday(*schedule.begins) >= schedule.days_per_week)
        values.fault("schedule.begins",
                     fmt::format("is {}, on which with work_days_per_week = {} nobody works",
                                 solver::in_words(*schedule.begins), schedule.days_per_week),
                     "Days of work count from Monday on.");
}

} // namespace

solver::Water read_water(CaseValues& values) {
    solver::Water water;
    if (!values.has("water.drainage"))
        return water;
    water.drainage = drainage_of(values);
    if (water.drainage == solver::Drainage::Drained) {
        without_effect(values, "water", "drainage", "with drainage = \"drained\"");
        return water;
    }
    values.derive("water.static_pressure_kPa", static_pressure_kPa(values));
    set(water.saturation, values, "water.saturation");
    set(water.static_pressure_kPa, values, "water.static_pressure_kPa");
    if (water.drainage == solver::Drainage::Undrained) {
        for (const char* key : {"permeability_m_s", "vertical_permeability_m_s", "sides", "leak_length_m",
                                "pile_permeability_m_s", "pile_leak_length_m", "smear_diameter_ratio",
                                "smear_permeability_ratio"})
            values.no_effect(fmt::format("water.{}", key), "with drainage = \"undrained\"");
        return water;
    }
    if (!values.given("water.permeability_m_s"))
        values.missing("water.permeability_m_s", "coupled flow needs it");
    if (values.has("water.permeability_m_s"))
        values.derive("water.vertical_permeability_m_s", values.number("water.permeability_m_s"));
    set(water.permeability_m_s, values, "water.permeability_m_s");
    set(water.vertical_permeability_m_s, values, "water.vertical_permeability_m_s");
    water.open_sides = values.has("water.sides") && values.text("water.sides") == "open";
    set(water.leak_length_m, values, "water.leak_length_m");
    set(water.pile_permeability_m_s, values, "water.pile_permeability_m_s");
    if (values.has("ground.slice_depth_m"))
        values.derive("water.pile_leak_length_m", values.number("ground.slice_depth_m"));
    set(water.pile_leak_length_m, values, "water.pile_leak_length_m");
    read_smear(values, water);
    return water;
}

solver::Schedule read_schedule(CaseValues& values, const solver::StrokePlan& strokes) {
    solver::Schedule schedule;
    if (!values.has("water.drainage"))
        return schedule;
    if (drainage_of(values) != solver::Drainage::Coupled) {
        without_effect(values, "schedule", "", "without drainage = \"coupled\"");
        return schedule;
    }
    if (values.has("pile.diameter_m") && values.has("schedule.penetration_speed_m_min"))
        values.derive("schedule.casing_pass_s", minute_s * values.number("pile.diameter_m") /
                                                    values.number("schedule.penetration_speed_m_min"));
    set(schedule.casing_pass_s, values, "schedule.casing_pass_s");
    const double stroke_s = read_stroke_s(values, strokes);
    double up = 1, down = 1; // shares of a stroke
    if (values.has("pile.withdrawal_m") && values.has("pile.redrive_m") &&
        values.has("schedule.withdrawal_speed_m_min") && values.has("schedule.redrive_speed_m_min")) {
        up = values.number("pile.withdrawal_m") / values.number("schedule.withdrawal_speed_m_min");
        down = values.number("pile.redrive_m") / values.number("schedule.redrive_speed_m_min");
    }
    schedule.withdrawal_s = stroke_s * up / (up + down);
    schedule.redrive_s = stroke_s - schedule.withdrawal_s;
    schedule.pile_s = read_pile_s(values, stroke_s);
    const double here_s = schedule.casing_pass_s + std::max(0, strokes.strokes) * stroke_s;
    if (schedule.pile_s > 0 && here_s > schedule.pile_s * (1 + 1e-9))
        values.fault(
            values.given("schedule.pile_min") ? "schedule.pile_min" : "schedule.pile_length_m",
            fmt::format("makes a pile of {:.1f} min, but its casing pass and {} strokes at this depth take "
                        "{:.1f} min",
                        schedule.pile_s / minute_s, strokes.strokes, here_s / minute_s),
            "Strokes of one rig cannot overlap: lengthen the pile or its time, or lessen the strokes.");
    set(schedule.between_s, values, "schedule.between_min", minute_s);
    set(schedule.day_s, values, "schedule.work_h_per_day", hour_s);
    read_calendar(values, schedule);
    set(schedule.final_rest_s, values, "schedule.final_rest_h", hour_s);
    set(schedule.largest_step_s, values, "schedule.largest_step_min", minute_s);
    return schedule;
}

} // namespace interpile::io
