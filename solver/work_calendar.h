#pragma once
// How long the work rests between piles, over the night and at the end.

#include "solver/installation_plan.h"

namespace interpile::solver {

/// Rests after one pile after the other; keeps how much of the day is spent.
class WorkCalendar {
public:
    explicit WorkCalendar(const Schedule& schedule) : schedule_(schedule) {}

    /// The rest of the time of a pile, the way to the next one, the night; after the last pile the final rest [s].
    /// \param at_slice_s  that driving the pile past the slice has taken
    double rest_s(double at_slice_s, bool is_last);

    double worked_today_s() const { return worked_today_s_; }
    void resume(double worked_today_s) { worked_today_s_ = worked_today_s; }

private:
    Schedule schedule_;
    double worked_today_s_ = 0; ///< moves and rests of the day included
};

/// Time in which a pile is driven past the slice, by the plan: casing pass or growth, strokes, relaxation [s].
double time_at_slice_s(const StrokePlan& strokes, const Schedule& schedule);

/// From the beginning of the first pile to the end of the final rest, by the plan [s].
double work_duration_s(const InstallationPlan& plan);

} // namespace interpile::solver
