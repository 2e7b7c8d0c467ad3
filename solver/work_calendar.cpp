#include "solver/work_calendar.h"

#include <algorithm>

namespace interpile::solver {

double WorkCalendar::rest_s(double at_slice_s, bool is_last) {
    const double pile = std::max(at_slice_s, schedule_.pile_s);
    if (is_last)
        return pile - at_slice_s + schedule_.final_rest_s;
    double rest = pile - at_slice_s + schedule_.between_s;
    worked_today_s_ += pile + schedule_.between_s;
    constexpr double whole_day_s = 24 * 3600;
    if (schedule_.day_s > 0 && worked_today_s_ + pile > schedule_.day_s) { // the next does not fit into today
        rest += std::max(0.0, whole_day_s - worked_today_s_);
        worked_today_s_ = 0;
    }
    return rest;
}

double time_at_slice_s(const StrokePlan& strokes, const Schedule& schedule) {
    const bool first_growth = strokes.strokes == 0 || strokes.casing_diameter_m > 0;
    // Without a casing pass there is nothing to withdraw from before the first growth.
    const int withdrawals = std::max(0, strokes.strokes - (first_growth ? 0 : 1));
    return (first_growth ? schedule.casing_pass_s : 0) + withdrawals * schedule.withdrawal_s +
           strokes.strokes * schedule.redrive_s +
           (strokes.final_pressure_ratio > 0 ? schedule.withdrawal_s : 0);
}

double work_duration_s(const InstallationPlan& plan) {
    WorkCalendar calendar(plan.schedule);
    const double at_slice = time_at_slice_s(plan.strokes, plan.schedule);
    double duration = 0;
    for (std::size_t place = 0; place < plan.order.size(); ++place)
        duration += at_slice + calendar.rest_s(at_slice, place + 1 == plan.order.size());
    return duration;
}

} // namespace interpile::solver
