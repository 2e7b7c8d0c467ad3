#pragma once
// What every soil model offers: the stress after a strain increment, for a batch of cells.

#include <Eigen/Core>

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::solver {

/// A parameter outside its range, or parameters that contradict each other.
class InvalidParameter : public std::invalid_argument {
    using std::invalid_argument::invalid_argument;
};

/// State of n cells as columns: each quantity of all cells lies contiguous in memory.
struct SoilState {
    Eigen::ArrayXXd stress;    ///< n x 4: xx, yy, zz, xy; effective, compression positive [kPa]
    Eigen::ArrayXd void_ratio; ///< n [-]
    Eigen::ArrayXXd history;   ///< n x SoilModel::history_size(), meaning known to the model only
    Eigen::Array<std::uint8_t, Eigen::Dynamic, 1> yielding; ///< n; 1 where the last increment yielded

    void resize(Eigen::Index cells, Eigen::Index history_size);
};

/// Motion of n cells over one increment, on top of the state at its start: first a rigid rotation of the
/// material (cosine, sine, counterclockwise), then the logarithmic strain of the left stretch, shortening
/// positive, growth of a pile taken out. xy is tensor shear, not gamma; zz is out of plane (vertical). n x 6.
enum MotionColumn : int {
    StrainXX = 0,
    StrainYY,
    StrainZZ,
    StrainXY,
    RotationCos,
    RotationSin,
    MotionColumns
};
using Motion = Eigen::Array<double, Eigen::Dynamic, MotionColumns>;

/// Elastic moduli [kPa].
struct ElasticModuli {
    double bulk = 0;
    double shear = 0;
};

/// One soil law. Implementations keep no state of their own: all of it lives in SoilState, so that a trial is
/// thrown away by not keeping its result. Reversal memory and the like go into `history` and are final only
/// when the solver keeps the increment.
class SoilModel {
public:
    virtual ~SoilModel() = default;

    /// Name as in the case file.
    virtual std::string name() const = 0;
    /// Numbers of history per cell.
    virtual Eigen::Index history_size() const { return 0; }
    /// Fill `history` from stress and void ratio before the first increment.
    virtual void initialize(SoilState&) const {}

    /// Advance cells [first, first + count) by one increment, always from `start`, the last kept state.
    /// \param motion  rows first.. of the whole array
    /// \param start   state at the start of the increment; `end` must have the same size and is overwritten
    /// \throws std::runtime_error naming the cell where no admissible stress is found
    /// Safe to call on disjoint ranges from several threads.
    virtual void update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                        Eigen::Index count) const = 0;

    /// Moduli for unloading at this state; they set the elastic operator of the solver.
    virtual ElasticModuli moduli(const SoilState& state, Eigen::Index cell) const = 0;

    /// Whether repeated strokes can densify this soil. False for laws that are elastic inside a fixed yield
    /// surface; the program then says that its densities are not a prediction.
    virtual bool densifies_by_cycles() const = 0;

    /// Whether a horizontal stress K0 sigma_v (both directions) is admissible.
    /// \return empty if it is, else the allowed range of K0 in words
    virtual std::string refuse_at_rest(double vertical_stress_kPa, double K0) const = 0;

    /// Void ratio at the critical state for a mean effective stress; empty for laws without a critical state line.
    virtual std::optional<double> void_ratio_at_critical_state(double /*mean_stress_kPa*/) const {
        return {};
    }
    /// q/p' at the critical state in triaxial compression or extension, positive; empty for models without one.
    virtual std::optional<double> critical_stress_ratio(bool /*extension*/) const { return {}; }
};

} // namespace interpile::solver
