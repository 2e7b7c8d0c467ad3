#include "solver/work_calendar.h"

#include <algorithm>

namespace interpile::solver {

namespace {

constexpr double whole_day_s = 24 * 3600;
constexpr double round_off_s = 1e-6; // no rest is as short

/// Days from a day of work to the next one.
int days_to_next(const Schedule& schedule, int day) {
    const int first = schedule.begins ? weekday(*schedule.begins) : 0;
    int days = 1;
    while ((first + day + days) % 7 >= schedule.days_per_week)
        ++days;
    return days;
}

} // namespace

WorkCalendar::WorkCalendar(const Schedule& schedule) : schedule_(schedule) {
    for (int rig = 0; rig < schedule.rigs; ++rig)
        rigs_.push_back({rig * schedule.rig_offset_s, 0, 0});
}

double WorkCalendar::rest_s(int rig, int next_rig, double begun_s, double now_s) {
    RigClock& clock = rigs_.at(static_cast<std::size_t>(rig));
    const double pile = std::max(now_s - begun_s, schedule_.pile_s);
    double until = begun_s + pile + schedule_.final_rest_s;
    if (next_rig >= 0) {
        clock.worked_today_s += pile + schedule_.between_s + (begun_s - clock.ready_s);
        clock.ready_s = begun_s + pile + schedule_.between_s;
        if (schedule_.day_s > 0 &&
            clock.worked_today_s + pile > schedule_.day_s) { // the next waits for a new day
            const int days = days_to_next(schedule_, clock.day);
            clock.ready_s += std::max(0.0, days * whole_day_s - clock.worked_today_s);
            clock.worked_today_s = 0;
            clock.day += days;
        }
        until = ready_s(next_rig);
    }
    const double rest = until - now_s;
    return rest > round_off_s ? rest : 0;
}

int rig_at(const InstallationPlan& plan, std::size_t place) {
    return plan.rig.empty() ? 0 : plan.rig.at(place);
}

double time_at_slice_s(const StrokePlan& strokes, const Schedule& schedule) {
    const bool first_growth = strokes.strokes == 0 || strokes.casing_diameter_m > 0;
    // Without a casing pass there is nothing to withdraw from before the first growth.
    const int withdrawals = std::max(0, strokes.strokes - (first_growth ? 0 : 1));
    return (first_growth ? schedule.casing_pass_s : 0) + withdrawals * schedule.withdrawal_s +
           strokes.strokes * schedule.redrive_s +
           (strokes.final_pressure_ratio > 0 ? schedule.withdrawal_s : 0);
}

std::vector<double> begins_s(const InstallationPlan& plan) {
    WorkCalendar calendar(plan.schedule);
    const double at_slice = time_at_slice_s(plan.strokes, plan.schedule);
    std::vector<double> begins = {0};
    for (std::size_t place = 0; place < plan.order.size(); ++place) {
        const bool is_last = place + 1 == plan.order.size();
        const double begun = begins.back(), now = begun + at_slice;
        begins.push_back(
            now + calendar.rest_s(rig_at(plan, place), is_last ? -1 : rig_at(plan, place + 1), begun, now));
    }
    return begins;
}

double work_duration_s(const InstallationPlan& plan) {
    return begins_s(plan).back();
}

} // namespace interpile::solver
