#pragma once
// From the state of the slice to a record: fields per cell, means of the soil, balance of volumes.

#include "solver/momentum.h"
#include "solver/pile_growth.h"
#include "solver/run_observer.h"

#include <vector>

namespace interpile::solver {

/// Volumes of the slice per meter of initial thickness [m3/m], for the balance between two stages.
struct SliceVolumes {
    double pile = 0;             ///< discs
    double soil = 0;             ///< the rest
    double area = 0;             ///< of the slice in plan [m2]
    double heave = 0;            ///< logarithmic
    Eigen::ArrayXd soil_in_cell; ///< soil volume per cell
    Eigen::ArrayXd void_ratio;   ///< per cell
};

/// Measures and records; knows the discs of all piles placed so far and which cells ever yielded.
class StageRecording {
public:
    StageRecording(const Momentum& momentum, std::size_t piles);

    /// All discs seeded so far, by pile index (null before).
    std::vector<PileDisc*>& discs() { return discs_; }
    /// Note the cells that yielded in the increment just kept.
    void note_yielding();
    /// Volumes now.
    SliceVolumes volumes() const;
    /// From one set of volumes to another between which no disc was seeded.
    VolumeBalance balance(const SliceVolumes& from, const SliceVolumes& to) const;

    struct Means {
        double void_ratio, relative_density_pct; ///< of the soil, weighted by solids
    };
    Means means() const;

    /// Everything that is stored of a stage, without stage number, pile and balance.
    /// \param planned_center  per pile, for the discs not placed yet
    StageRecord record(const std::vector<mesh::Vec2>& planned_center) const;

private:
    /// Share of each cell's area that is soil now.
    Eigen::ArrayXd soil_share() const;
    mesh::Fields fields() const;

    const Momentum& momentum_;
    std::vector<PileDisc*> discs_;
    Eigen::Array<std::uint8_t, Eigen::Dynamic, 1> ever_yielded_;
};

} // namespace interpile::solver
