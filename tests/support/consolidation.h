#pragma once
// Elastic ground under a load that the water carries at first, followed step by step.

#include "mesh/grid.h"
#include "solver/equilibrium.h"
#include "solver/soil_models/elastic.h"

#include <Eigen/Core>
#include <fmt/format.h>

#include <memory>
#include <stdexcept>
#include <utility>

namespace interpile::test {

/// Everything of it in SI units and kPa.
struct ElasticGround {
    double G = 5000, nu = 0.25;     ///< kPa, -
    double load = 0.05;             ///< kPa: small, so that large strains do not show
    double void_ratio = 0.8;        ///< n = e/(1 + e)
    double vertical_stress_kPa = 0; ///< effective, before the load
    double permeability_m_s = 1e-6;
    double K0 = 0.5; ///< before the load
    solver::VerticalCondition vertical = solver::VerticalCondition::Fixed;
    double constrained() const { return 2 * G * (1 - nu) / (1 - 2 * nu); } ///< lambda + 2 G
    /// n/K_w, K_w 2.2e6 kPa.
    double storage() const { return void_ratio / (1 + void_ratio) / 2.2e6; }
    /// Of one-dimensional flow and strain.
    double c_v() const { return permeability_m_s / solver::gamma_w / (1 / constrained() + storage()); }
    solver::Water water() const {
        solver::Water water;
        water.drainage = solver::Drainage::Coupled;
        water.permeability_m_s = water.vertical_permeability_m_s = permeability_m_s;
        water.open_sides = true;
        water.initial_excess_kPa = load;
        return water;
    }
    solver::Slice slice() const {
        solver::Slice slice;
        slice.vertical_stress_kPa = vertical_stress_kPa;
        slice.void_ratio = void_ratio;
        slice.K0 = K0;
        slice.vertical = vertical;
        return slice;
    }
};

class Consolidation {
public:
    Consolidation(const ElasticGround& ground, const mesh::Domain& domain, const mesh::Grid& grid,
                  const solver::Water& water, double tolerance = 1e-9)
        : Consolidation(std::make_unique<solver::Elastic>(ground.G, ground.nu), ground.slice(), domain, grid,
                        water, tolerance) {}
    /// Ground that is not the same everywhere.
    Consolidation(std::unique_ptr<const solver::SoilModel> law, const solver::Slice& slice,
                  const mesh::Domain& domain, const mesh::Grid& grid, const solver::Water& water,
                  double tolerance)
        : soil(std::move(law)), momentum(grid, domain, slice, *soil, water),
          equilibrium(momentum, settings(tolerance)) {
        momentum.set_hourglass(1e-6);
    }
    void step(double duration_s) {
        momentum.set_duration(duration_s);
        equilibrium.refresh();
        const auto result = equilibrium.solve(Eigen::VectorXd(), duration_s, 1);
        if (!result.converged)
            throw std::runtime_error(
                fmt::format("no equilibrium in a step of {} s, residual {}", duration_s, result.residual));
        time_s += duration_s;
    }
    /// To a time in steps of a share of the time since the load.
    void go_to(double until_s, double share) {
        while (time_s < until_s * (1 - 1e-12))
            step(std::min(until_s - time_s, share * std::max(time_s, until_s * 1e-3)));
    }
    const Eigen::ArrayXd& pressure() const { return momentum.pore_water().pressure_kPa(); }

    std::unique_ptr<const solver::SoilModel> soil;
    solver::Momentum momentum;
    solver::Equilibrium equilibrium;
    double time_s = 0;

private:
    static solver::StepSettings settings(double tolerance) {
        solver::StepSettings s;
        s.tolerance = s.carry_over_tolerance = tolerance;
        return s;
    }
};

} // namespace interpile::test
