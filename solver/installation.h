#pragma once
// Drive the piles of a plan in their order and tell an observer what happens.

#include "mesh/domain.h"
#include "mesh/grid.h"
#include "solver/installation_plan.h"
#include "solver/run_observer.h"
#include "solver/run_state.h"
#include "solver/slice.h"
#include "solver/soil_model.h"

#include <string>

namespace interpile::solver {

enum class Outcome { Finished, NotConverged, Stopped };

struct RunReport {
    Outcome outcome = Outcome::Finished;
    std::string why; ///< NotConverged: pile, stroke, place and residual in words
    long increments = 0;
    long iterations = 0;
    long factorizations = 0;
};

/// Run the whole plan. A stage is recorded before the first pile, after each pile (after each group driven
/// together) and, marked as not converged, where the run cannot go on.
/// \param from  go on from this state of a run of the same plan: what is told from here on, and the report, are the same
///   to the last digit as if the run had not been broken off; empty: from the beginning
/// \throws std::invalid_argument if a pile lies outside the domain, or the state is of another plan
RunReport install_piles(const mesh::Grid& grid, const mesh::Domain& domain, const Slice& slice,
                        const SoilModel& soil, const InstallationPlan& plan, RunObserver& observer,
                        const RunState* from = nullptr);

} // namespace interpile::solver
