#pragma once
// How much of the work on a group of piles, or of a rest, is done: the places where PileDriver can go on.

namespace interpile::solver {

struct WorkDone {
    int half_strokes = 0;   ///< of the group, in the order of PileDriver::drive()
    double rest_s = 0;      ///< of a rest
    double rest_step_s = 0; ///< duration wanted for the next step of a rest; without meaning at its begin
};

} // namespace interpile::solver
