#pragma once
// When which rig begins which pile: how long the work at the slice rests between piles, over nights and at the end.

#include "solver/installation_plan.h"

#include <vector>

namespace interpile::solver {

/// Where a rig stands in its work.
struct RigClock {
    double ready_s = 0;        ///< for its next pile, since the first pile of all was begun
    double worked_today_s = 0; ///< moves and rests of the day included
    int day = 0;               ///< of the calendar, 0 the first
};

/// The clocks of all rigs. The slice takes one pile or group after the other: one that a rig is ready for while another
/// passes the slice begins when that has passed, without rest between them, and its rig is late by that.
class WorkCalendar {
public:
    explicit WorkCalendar(const Schedule& schedule);

    /// From the end of a group at the slice to the begin of the next [s]: what is left until the rig of that is ready. After
    /// the last one the rest of its pile and the final rest.
    /// \param rig, next_rig  of the group just driven and of the next; next_rig below 0: it was the last
    /// \param begun_s, now_s when it was begun, and the end of its driving past the slice
    double rest_s(int rig, int next_rig, double begun_s, double now_s);

    double ready_s(int rig) const { return rigs_.at(static_cast<std::size_t>(rig)).ready_s; }
    const std::vector<RigClock>& rigs() const { return rigs_; }
    void resume(std::vector<RigClock> rigs) { rigs_ = std::move(rigs); }

private:
    Schedule schedule_;
    std::vector<RigClock> rigs_;
};

/// Rig of a place in the order of work, 0 .. rigs - 1.
int rig_at(const InstallationPlan& plan, std::size_t place);

/// Time in which a pile is driven past the slice, by the plan: casing pass or growth, strokes, relaxation [s].
double time_at_slice_s(const StrokePlan& strokes, const Schedule& schedule);

/// When the groups of the order of work begin at the slice, by the plan, and at last the end of the final rest [s]; both
/// since the first begin.
std::vector<double> begins_s(const InstallationPlan& plan);

/// From the beginning of the first pile to the end of the final rest, by the plan [s].
double work_duration_s(const InstallationPlan& plan);

} // namespace interpile::solver
