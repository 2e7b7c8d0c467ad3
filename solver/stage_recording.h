#pragma once
// From the state of the slice to a record: fields per cell, means of the soil, balance of volumes.

#include "solver/momentum.h"
#include "solver/pile_growth.h"
#include "solver/run_observer.h"

#include <cstdint>
#include <utility>
#include <vector>

namespace interpile::solver {

/// Volumes per meter of initial slice thickness [m3/m]: of the discs being driven and of the ground around
/// them (soil and earlier piles), for the balance over the driving of a group.
struct SliceVolumes {
    double driven = 0;             ///< discs being driven
    Eigen::ArrayXd ground_in_cell; ///< everything else, per cell
    Eigen::ArrayXd void_ratio;     ///< per cell
    Eigen::ArrayXd area_m2;        ///< per cell, in plan
    Eigen::ArrayXd thickness;      ///< per cell, over the initial one
};

using YieldMarks = Eigen::Array<std::uint8_t, Eigen::Dynamic, 1>; ///< per cell, 1: yielded in some increment

/// Measures and records; knows the discs of all piles placed so far and which cells ever yielded.
class StageRecording {
public:
    StageRecording(const Momentum& momentum, std::size_t piles);

    /// All discs seeded so far, by pile index (null before).
    std::vector<PileDisc*>& discs() { return discs_; }
    /// Note the cells that yielded in the increment just kept.
    void note_yielding();
    const YieldMarks& ever_yielded() const { return ever_yielded_; }
    void resume(YieldMarks ever_yielded) { ever_yielded_ = std::move(ever_yielded); }
    /// Volumes now, split for the discs that are active.
    SliceVolumes volumes() const;
    /// From one set of volumes to another between which no disc was seeded.
    static VolumeBalance balance(const SliceVolumes& from, const SliceVolumes& to);

    struct Means {
        double void_ratio, relative_density_pct; ///< of the soil, weighted by solids
    };
    Means means() const;
    /// r_u per cell: excess pore pressure over initial sigma_v'; 0 without overburden.
    Eigen::ArrayXd excess_pressure_ratio() const;
    double mean_excess_pressure_kPa() const; ///< of the whole domain, by area
    /// The same ratio of cells that are ground for the most part; 0 in piles, where the drive makes it.
    Eigen::ArrayXd ground_pressure_ratio() const;
    /// Share of each cell's area that is pile.
    Eigen::ArrayXd pile_share() const { return 1 - share_outside(discs_); }

    /// Everything that is stored of a stage, without stage number, pile and balance.
    /// \param planned_center  per pile, for the discs not placed yet
    StageRecord record(const std::vector<mesh::Vec2>& planned_center) const;

private:
    /// Share of each cell's area that lies in none of the discs now.
    Eigen::ArrayXd share_outside(const std::vector<PileDisc*>& discs) const;
    mesh::Fields fields() const;

    const Momentum& momentum_;
    std::vector<PileDisc*> discs_;
    YieldMarks ever_yielded_;
};

} // namespace interpile::solver
