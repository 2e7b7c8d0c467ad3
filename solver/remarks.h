#pragma once
// What a result shows that no ground or casing could take, said once each.

#include "solver/run_observer.h"
#include "solver/run_state.h"

namespace interpile::solver {

class Remarks {
public:
    /// \param observer  must outlive this
    Remarks(RunObserver& observer, double overburden_kPa)
        : observer_(observer), overburden_(overburden_kPa) {}

    /// \param water_contrast  PoreWater::contrast()
    void look_at(const IncrementRecord& record, double water_contrast);
    const RemarksMade& made() const { return made_; }
    void resume(const RemarksMade& made) { made_ = made; }

private:
    RunObserver& observer_;
    double overburden_;
    RemarksMade made_;
};

} // namespace interpile::solver
