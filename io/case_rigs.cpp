// Which rig makes which pile, of [schedule] and of a table of positions.

#include "io/case_parts.h"
#include "solver/rigs.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

constexpr double minute_s = 60;
constexpr const char* of_pile = "schedule.rig_of_pile";

/// Refuses a rig that is not there.
int checked(CaseValues& values, double rig, int rigs, const Fault& origin) {
    if (rig <= rigs)
        return static_cast<int>(rig) - 1;
    Fault fault = origin;
    fault.what = fmt::format("rig {} is not there, schedule.rigs is {}", rig, rigs);
    fault.mend = fmt::format("Rigs count from 1 to {}.", rigs);
    values.faults().add(std::move(fault));
    return 0;
}

/// 0 .. rigs - 1 by pile.
std::vector<int> rig_of_piles(CaseValues& values, const std::vector<PlacedPile>& piles,
                              const solver::InstallationPlan& plan) {
    const int rigs = plan.schedule.rigs;
    std::vector<int> rig(piles.size(), 0);
    const bool by_table = !piles.empty() && piles.front().rig.has_value();
    if (by_table && values.given(of_pile))
        values.fault(of_pile, "and the column rig of the table of positions exclude each other",
                     "Keep one of them.");
    else if (by_table)
        for (std::size_t pile = 0; pile < piles.size(); ++pile)
            rig[pile] = checked(values, *piles[pile].rig, rigs, piles[pile].origin);
    else if (!values.given(of_pile))
        for (std::size_t place = 0; place < plan.order.size(); ++place) // in turn
            rig[static_cast<std::size_t>(plan.order[place].front())] =
                static_cast<int>(place % static_cast<std::size_t>(rigs));
    else if (values.has(of_pile) && values.numbers(of_pile).size() != piles.size())
        values.fault(of_pile, fmt::format("has {} numbers for {} piles", values.numbers(of_pile).size(),
                                          piles.size()));
    else if (values.has(of_pile))
        for (std::size_t pile = 0; pile < piles.size(); ++pile)
            rig[pile] = checked(values, values.numbers(of_pile)[pile], rigs,
                                values.faults().at(values.element_place(of_pile, pile)));
    for (int k = 0; k < rigs && values.faults().empty(); ++k)
        if (std::find(rig.begin(), rig.end(), k) == rig.end())
            values.fault("schedule.rigs", fmt::format("leaves rig {} without a pile", k + 1),
                         "Give it one, or take fewer rigs.");
    return rig;
}

} // namespace

void read_rigs(CaseValues& values, const std::vector<PlacedPile>& piles, solver::InstallationPlan& plan) {
    if (!values.has("schedule.rigs")) // nor has the rest of [schedule] any effect
        return;
    if (values.count("schedule.rigs") == 1) {
        for (const char* path : {"schedule.rig_offset_min", of_pile})
            values.no_effect(path, "with one rig");
        if (!piles.empty() && piles.front().rig)
            values.fault("schedule.rigs", "is 1, but the table of positions has a column rig",
                         "Give the number of rigs, or take the column out of the table.");
        return;
    }
    solver::Schedule& schedule = plan.schedule;
    schedule.rigs = values.count("schedule.rigs");
    values.derive("schedule.rig_offset_min",
                  (schedule.pile_s + schedule.between_s) / minute_s / schedule.rigs);
    if (values.has("schedule.rig_offset_min"))
        schedule.rig_offset_s = minute_s * values.number("schedule.rig_offset_min");
    if (plan.order.empty()) // of a faulty case
        return;
    if (std::any_of(plan.order.begin(), plan.order.end(), [](const auto& group) { return group.size() > 1; }))
        return values.fault("schedule.rigs", "does not go with piles that [order] drives together",
                            "Take one rig, or another order; rig_offset_min = 0 drives the piles of all rigs "
                            "together.");
    const std::vector<int> rig = rig_of_piles(values, piles, plan);
    if (values.faults().empty())
        solver::share_among_rigs(plan, rig);
}

} // namespace interpile::io
