#include "solver/equilibrium.h"

#include <cmath>
#include <limits>
#include <stdexcept>

namespace interpile::solver {

Equilibrium::Equilibrium(Momentum& momentum, const StepSettings& settings)
    : momentum_(momentum), settings_(settings), operator_(momentum) {}

void Equilibrium::refresh() {
    operator_.factor();
}

void Equilibrium::unpack(const Eigen::VectorXd& y, Trial& trial) const {
    const Eigen::Index discs = static_cast<Eigen::Index>(momentum_.active().size());
    trial.displacement = y.head(operator_.displacements());
    trial.growth = y.tail(discs);
    trial.heave =
        momentum_.slice().vertical == VerticalCondition::Shared ? y(operator_.displacements()) : 0.0;
}

IncrementResult Equilibrium::solve(const Eigen::VectorXd& target_area, double log_radius_step,
                                   double area_tolerance) {
    Eigen::VectorXd y = Eigen::VectorXd::Zero(operator_.unknowns());
    bool extrapolated = last_.size() == y.size();
    if (extrapolated)
        y = last_ * log_radius_step;
    mixing_.restart(operator_.weights());

    IncrementResult result;
    Trial trial;
    Imbalance imbalance;
    Eigen::VectorXd correction;
    for (int iteration = 1; iteration <= settings_.max_iterations; ++iteration) {
        ++iterations_;
        unpack(y, trial);
        try {
            momentum_.evaluate(trial, imbalance);
        } catch (const std::runtime_error& trouble) { // a wild trial; a smaller increment may do
            result.trouble = trouble.what();
            result.residual = std::numeric_limits<double>::quiet_NaN();
            return result;
        }
        const Eigen::VectorXd excess = imbalance.disc_area - target_area;
        const bool shared = momentum_.slice().vertical == VerticalCondition::Shared;
        result.iterations = iteration;
        result.residual = shared ? std::max(imbalance.worst, imbalance.vertical_ratio) : imbalance.worst;
        result.worst_node = imbalance.worst_node;
        result.vertical_stress_kPa = imbalance.vertical_stress_kPa;
        if (!std::isfinite(result.residual))
            return result;
        const bool areas_met =
            excess.size() == 0 || (excess.array() / target_area.array()).abs().maxCoeff() < area_tolerance;
        const double tolerance = iteration > settings_.carry_over_iterations ? settings_.carry_over_tolerance
                                                                             : settings_.tolerance;
        if (areas_met && result.residual <= tolerance) {
            momentum_.keep(trial);
            last_ = y / log_radius_step;
            result.converged = true;
            return result;
        }
        if (extrapolated && iteration == patience) { // the last direction misleads: start from rest
            extrapolated = false;
            y.setZero();
            mixing_.restart(operator_.weights());
            continue;
        }
        operator_.apply(imbalance.force, imbalance.vertical, excess, correction);
        mixing_.step(y, correction);
    }
    return result;
}

} // namespace interpile::solver
