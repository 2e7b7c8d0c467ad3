#include "solver/rigs.h"

#include "solver/work_calendar.h"

#include <algorithm>
#include <limits>

namespace interpile::solver {

namespace {

/// Piles by rig, each in the order of work.
std::vector<std::vector<int>> queues_of(const InstallationPlan& plan, const std::vector<int>& rig_of_pile) {
    std::vector<std::vector<int>> queues(static_cast<std::size_t>(plan.schedule.rigs));
    for (const auto& group : plan.order)
        for (const int pile : group)
            queues.at(static_cast<std::size_t>(rig_of_pile.at(static_cast<std::size_t>(pile))))
                .push_back(pile);
    return queues;
}

/// As the work of one rig.
void drive_together(InstallationPlan& plan, const std::vector<std::vector<int>>& queues) {
    plan.order.clear();
    std::size_t longest = 0;
    for (const auto& queue : queues)
        longest = std::max(longest, queue.size());
    for (std::size_t round = 0; round < longest; ++round) {
        auto& group = plan.order.emplace_back();
        for (const auto& queue : queues)
            if (round < queue.size())
                group.push_back(queue[round]);
    }
}

} // namespace

void share_among_rigs(InstallationPlan& plan, const std::vector<int>& rig_of_pile) {
    const auto queues = queues_of(plan, rig_of_pile);
    if (plan.schedule.rig_offset_s == 0)
        return drive_together(plan, queues);
    const std::size_t piles = plan.order.size();
    const double at_slice = time_at_slice_s(plan.strokes, plan.schedule);
    WorkCalendar calendar(plan.schedule);
    std::vector<std::size_t> done(queues.size(), 0);
    plan.order.clear();
    plan.rig.clear();
    double now = 0;
    while (plan.order.size() < piles) {
        int next = -1;
        for (std::size_t rig = 0; rig < queues.size(); ++rig)
            if (done[rig] < queues[rig].size() &&
                (next < 0 || calendar.ready_s(static_cast<int>(rig)) < calendar.ready_s(next)))
                next = static_cast<int>(rig);
        const double begun = std::max(now, calendar.ready_s(next));
        plan.order.push_back(
            {queues[static_cast<std::size_t>(next)][done[static_cast<std::size_t>(next)]++]});
        plan.rig.push_back(next);
        now = begun + at_slice;
        calendar.rest_s(next, next, begun, now); // its rig is ready again when that is over
    }
}

} // namespace interpile::solver
