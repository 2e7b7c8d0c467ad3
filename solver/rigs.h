#pragma once
// Piles of several rigs in the order in which the slice sees them.

#include "solver/installation_plan.h"

#include <vector>

namespace interpile::solver {

/// Merge the work of the rigs of plan.schedule into plan.order and plan.rig, by the time each rig is ready. Rigs that begin
/// at the same time, without an offset between them, drive their piles together, stroke by stroke, as one
/// (plan.rig stays empty).
/// \param rig_of_pile  0 .. rigs - 1 by pile; each rig takes its piles in the order of work
/// \pre plan.order has one pile in each group, and every rig a pile
void share_among_rigs(InstallationPlan& plan, const std::vector<int>& rig_of_pile);

} // namespace interpile::solver
