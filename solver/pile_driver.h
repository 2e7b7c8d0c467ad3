#pragma once
// Drives one pile, or several together: casing pass, strokes of withdrawal and re-driving, relaxation.

#include "solver/equilibrium.h"
#include "solver/installation_plan.h"
#include "solver/momentum.h"
#include "solver/pile_growth.h"
#include "solver/run_observer.h"
#include "solver/work_done.h"

#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

namespace interpile::solver {

/// Why driving ended before the pile was complete.
class CannotGoOn : public std::runtime_error {
public:
    CannotGoOn(const std::string& why, double residual) : std::runtime_error(why), residual_(residual) {}
    double residual() const { return residual_; }

private:
    double residual_;
};

class PileDriver {
public:
    /// Called after every converged increment.
    /// \return true to stop
    /// The record holds everything but place in order, mean density and share done of the whole run;
    /// share_done is that of this pile.
    using AfterIncrement = std::function<bool(IncrementRecord)>;

    /// Called at the end of every half stroke; not for one that was stopped, nor for a withdrawal without pressure to
    /// lose.
    using AfterHalfStroke = std::function<void(int stroke, Phase phase)>;

    /// Called before every half stroke and after every step of a rest: a driver given what is done, on a slice and an
    /// equilibrium in the state of this moment, goes on to the last digit as this one does. Nothing else carries over: a
    /// half stroke begins with a new operator and without direction; a step of a rest too, but with the direction.
    using AtRestartPoint = std::function<void(const WorkDone&)>;

    PileDriver(Momentum& momentum, Equilibrium& equilibrium, const InstallationPlan& plan,
               AfterIncrement after, AfterHalfStroke after_half_stroke, AtRestartPoint at_restart_point);

    /// Drive the discs, already the active ones of the slice, through what is left of the stroke plan.
    /// \param seed_area_m2  per disc, inside the domain, when it was seeded
    /// \return false if AfterIncrement asked to stop
    /// \throws CannotGoOn with pile, stroke, place and residual in words
    bool drive(const std::vector<PileDisc*>& discs, const std::vector<double>& seed_area_m2,
               const WorkDone& done = {});

    /// Let water flow for a time while nothing is driven, in growing steps; no disc is active.
    /// \param duration_s  of the whole rest, with what is done of it
    /// \return false if AfterIncrement asked to stop
    /// \throws CannotGoOn with time, place and residual in words
    bool rest(double duration_s, int last_pile, const WorkDone& done = {});

private:
    struct Stroke {
        int number;
        Phase phase;
        double share_before, share_after; ///< of this pile's work
        double increment_s = 0;           ///< duration of one increment
    };
    /// One half stroke of the plan.
    struct HalfStroke {
        Stroke stroke;
        Eigen::ArrayXd injected_area_m2; ///< to grow to, per full disc; empty: withdraw
        int least_increments = 0;        ///< of a growth
        double pressure_kPa = 0;         ///< to withdraw to
    };
    std::vector<HalfStroke> half_strokes() const;
    /// Grow to injected areas (of full discs) in increments of equal ln(radius).
    bool grow(const Stroke& stroke, const Eigen::ArrayXd& injected_area_m2, int least_increments);
    /// Shrink until the mean disc pressure has fallen to the limit. What a withdrawal takes away is total pressure (over
    /// hydrostatic): where no water can flow, the effective one of an elastic disc would not fall at all.
    bool shrink(const Stroke& stroke, double pressure_kPa);
    /// One increment to the target areas, met within a share of them; halved until it converges.
    bool step(const Stroke& stroke, const Eigen::VectorXd& target_area, double tolerance, double share_done);
    void begin_half_stroke(double log_radius_step, double increment_s);
    Eigen::VectorXd areas() const;
    /// Of a finished pile, for each disc [m2].
    Eigen::ArrayXd finished_areas() const;
    double highest_pressure() const; ///< effective and excess pore pressure together [kPa]
    /// What every record of an increment holds.
    IncrementRecord record_of(const IncrementResult& result) const;
    [[noreturn]] void give_up(const std::string& where, const IncrementResult& result) const;

    Momentum& momentum_;
    Equilibrium& equilibrium_;
    const InstallationPlan& plan_;
    AfterIncrement after_;
    AfterHalfStroke after_half_stroke_;
    AtRestartPoint at_restart_point_;
    std::vector<PileDisc*> discs_;
    Eigen::VectorXd seed_area_;
    Eigen::Index largest_ = 0; ///< the disc that grows most; increments follow it
    int since_refresh_ = 0;
    double last_step_s_ = 0; ///< duration of the last increment
};

} // namespace interpile::solver
