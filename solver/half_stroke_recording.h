#pragma once
// What is recorded at the end of every half stroke: the piles being driven, the ground between the piles, the points.

#include "solver/installation_plan.h"
#include "solver/momentum.h"
#include "solver/run_observer.h"
#include "solver/stage_recording.h"

#include <vector>

namespace interpile::solver {

/// Sums injected area and densified volume over the groups driven one after another: each group replaces soil by its
/// seeds, so that a volume balance holds within a group only.
class HalfStrokeRecording {
public:
    /// All three must outlive this.
    HalfStrokeRecording(const Momentum& momentum, const StageRecording& recording,
                        const InstallationPlan& plan);

    /// The active discs of the slice have just been seeded.
    /// \param place   1..n in the order of work
    /// \param before  volumes now
    void begin_group(int place, const SliceVolumes& before);
    /// No disc is active; records are of the pile finished last.
    void begin_rest(int last_pile, const SliceVolumes& before);
    /// One record per active disc, or one of a rest, at the last kept state.
    std::vector<HalfStrokeRecord> records(int stroke, Phase phase) const;
    void end_group();

private:
    struct Sums {
        double injected_m2 = 0;    ///< inside the domain
        double densified_m3_m = 0; ///< per meter of initial thickness
    };
    Sums sums_now() const;
    HalfStrokeRecord record_of_ground() const;

    const Momentum& momentum_;
    const StageRecording& recording_;
    const InstallationPlan& plan_;
    int place_ = 0;
    int resting_pile_ = -1; ///< -1 while a group is driven
    SliceVolumes before_;
    std::vector<double> seed_area_m2_; ///< per active disc, inside the domain
    Sums earlier_;                     ///< of the groups before
};

} // namespace interpile::solver
