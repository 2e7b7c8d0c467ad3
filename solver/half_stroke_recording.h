#pragma once
// What is recorded at the end of every half stroke: the piles being driven, the ground between the piles, the points.

#include "solver/installation_plan.h"
#include "solver/momentum.h"
#include "solver/run_observer.h"
#include "solver/stage_recording.h"

#include <utility>
#include <vector>

namespace interpile::solver {

/// What the records of a group or a rest are counted from.
struct GroupSums {
    int place = 0;                     ///< 1..n in the order of work
    int resting_pile = -1;             ///< -1 while a group is driven
    SliceVolumes before;               ///< at its begin
    std::vector<double> seed_area_m2;  ///< per active disc, inside the domain
    double earlier_injected_m2 = 0;    ///< of the groups before, inside the domain
    double earlier_densified_m3_m = 0; ///< per meter of initial thickness
};

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

    const GroupSums& sums() const { return sums_; }
    /// Go on from there; the active discs must be those of that time.
    void resume(GroupSums sums) { sums_ = std::move(sums); }

private:
    struct Total {
        double injected_m2, densified_m3_m;
    };
    Total total_now() const; ///< since the start
    HalfStrokeRecord record_of_ground() const;

    const Momentum& momentum_;
    const StageRecording& recording_;
    const InstallationPlan& plan_;
    GroupSums sums_;
};

} // namespace interpile::solver
