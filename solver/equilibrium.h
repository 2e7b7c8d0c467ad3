#pragma once
// One increment: find the motion that balances the forces and gives the discs their planned areas.

#include "solver/anderson.h"
#include "solver/elastic_operator.h"
#include "solver/installation_plan.h"
#include "solver/momentum.h"

#include <Eigen/Core>

#include <string>
#include <utility>

namespace interpile::solver {

struct IncrementResult {
    bool converged = false;
    int iterations = 0;  ///< evaluations of the imbalance
    double residual = 0; ///< worst out-of-balance ratio at the end
    int worst_node = 0;
    double vertical_stress_kPa = 0;
    std::string trouble; ///< what the soil model said where a trial had no stress
};

/// Fixed point y <- y - P^-1 F(y), P the factored elastic operator, with Anderson mixing; F is always
/// computed from the last kept state. Heave and growth of the active discs are unknowns beside the
/// displacements, so the area of every disc is met in the same iteration and never overshot and taken back.
/// A small rest of force may be carried on to the next increment (StepSettings), where it is part of F again.
class Equilibrium {
public:
    Equilibrium(Momentum& momentum, const StepSettings& settings);

    /// Factor the operator at the kept state; needed once for every change of the active discs.
    void refresh();

    /// \param target_area   per active disc, area at the end of the increment [m2]
    /// \param log_radius_step  size of the increment in ln(a); sets the hourglass viscosity
    /// \param area_tolerance  how closely the disc areas must be met, as a share of them
    /// On convergence the state is kept, else nothing has changed.
    IncrementResult solve(const Eigen::VectorXd& target_area, double log_radius_step, double area_tolerance);

    /// Do not extrapolate the next increment from the last one (its direction has changed).
    void forget_direction() { last_.resize(0); }

    /// Solution of the last increment per unit of its size, which the next one extrapolates; empty: it starts from rest.
    const Eigen::VectorXd& direction() const { return last_; }
    void set_direction(Eigen::VectorXd direction) { last_ = std::move(direction); }

    long iterations() const { return iterations_; }
    long factorizations() const { return operator_.factorizations(); }

private:
    static constexpr int mixing_depth = 5;
    static constexpr int patience = 40; ///< iterations that an extrapolated start is given

    void unpack(const Eigen::VectorXd& y, Trial& trial) const;

    Momentum& momentum_;
    StepSettings settings_;
    ElasticOperator operator_;
    AndersonMixing mixing_{mixing_depth};
    Eigen::VectorXd last_; ///< solution of the last increment, per unit of ln(a)
    long iterations_ = 0;
};

} // namespace interpile::solver
