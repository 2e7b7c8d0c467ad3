#pragma once
// Where a run stands between two half strokes or two steps of a rest: everything that the rest of the run depends on,
// and nothing that it computes anew there (operator, hourglass resistance, matrix of the pore water).

#include "solver/half_stroke_recording.h"
#include "solver/momentum.h"
#include "solver/pile_growth.h"
#include "solver/run_observer.h"
#include "solver/stage_recording.h"
#include "solver/work_calendar.h"
#include "solver/work_done.h"

#include <Eigen/Core>

#include <vector>

namespace interpile::solver {

/// Which remarks about the result have been made.
struct RemarksMade {
    bool pressure = false, vertical_stress = false, density = false, contrast = false;
};

struct RunState {
    KeptSlice slice;
    std::vector<PileDisc> discs; ///< of all piles placed so far, by pile
    YieldMarks ever_yielded;
    GroupSums sums;

    int place = 0;             ///< index of the group in the order of work
    double place_begun_s = 0;  ///< time of the records when its piles were begun
    bool resting = false;      ///< its piles are finished, water flows
    double rest_s = 0;         ///< duration of the whole rest
    WorkDone done;             ///< of the group or of the rest
    Eigen::VectorXd direction; ///< of the last increment of a rest, see Equilibrium::direction(); else empty
    VolumeBalance pending;     ///< of rests, for the next stage
    std::vector<RigClock> rigs;
    int stages = 0; ///< recorded so far

    RemarksMade remarks;
    long increments = 0, iterations = 0, factorizations = 0; ///< for the report
};

} // namespace interpile::solver
