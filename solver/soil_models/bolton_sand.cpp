#include "solver/soil_models/bolton_sand.h"

#include "solver/soil_models/elastic_step.h"
#include "solver/soil_models/mohr_coulomb_return.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::solver {
namespace {

// Opened ground keeps the stiffness of this mean stress.
constexpr double softest_mean_stress = 10; // kPa
// Least mean stress in the operator of the solver, about that around a growing pile: ground whose stress rises within an
// increment would find it too soft. Demonstration case: 5400 iterations, 10900 with the stiffness of the last kept state.
constexpr double operator_mean_stress = 200; // kPa

enum HistoryColumn : int {
    SinceReversal = 0,
    FromCenter = 3,
    Radius = 6,
    Furthest,
    Compaction,
    AtReversal,
    C1,
    Pending // compaction of the last kept increment
};

double sine(double degrees) {
    return std::sin(degrees * std::numbers::pi / 180);
}

double log_mean_stress(const SoilState& state, Eigen::Index cell) {
    const double p = (state.stress(cell, 0) + state.stress(cell, 1) + state.stress(cell, 2)) / 3;
    return std::log(std::max(p, softest_mean_stress));
}

/// Three columns as a deviator turned by the rotation of the cell, c2 and s2 of twice its angle.
PlaneDeviator turned(const Eigen::ArrayXXd& from, Eigen::Index cell, int first, double c2, double s2) {
    const double middle = 0.5 * (from(cell, first) + from(cell, first + 1));
    const double half = 0.5 * (from(cell, first) - from(cell, first + 1)), xy = from(cell, first + 2);
    const double along = c2 * half - s2 * xy;
    return {middle + along, middle - along, s2 * half + c2 * xy};
}

void put(Eigen::ArrayXXd& to, Eigen::Index cell, int first, const PlaneDeviator& t) {
    to(cell, first) = t.xx;
    to(cell, first + 1) = t.yy;
    to(cell, first + 2) = t.xy;
}

ShearMemory turned_memory(const SoilState& state, Eigen::Index cell, double c, double s) {
    const auto& history = state.history;
    const double c2 = c * c - s * s, s2 = 2 * c * s;
    return {turned(history, cell, SinceReversal, c2, s2),
            turned(history, cell, FromCenter, c2, s2),
            history(cell, Radius),
            history(cell, Furthest),
            history(cell, Compaction),
            history(cell, AtReversal),
            history(cell, C1)};
}

void put(SoilState& state, Eigen::Index cell, const ShearMemory& memory) {
    put(state.history, cell, SinceReversal, memory.since_reversal);
    put(state.history, cell, FromCenter, memory.from_center);
    state.history(cell, Radius) = memory.radius;
    state.history(cell, Furthest) = memory.furthest;
    state.history(cell, Compaction) = memory.compaction;
    state.history(cell, AtReversal) = memory.at_reversal;
    state.history(cell, C1) = memory.C1;
}

} // namespace

BoltonSand::BoltonSand(const BoltonSandParameters& p)
    : parameters_(p),
      compaction_(p.compaction_factor, p.compaction_threshold, p.strength.e_max, p.strength.e_min),
      lambda_over_G_(2 * p.poisson_ratio / (1 - 2 * p.poisson_ratio)),
      least_sin_phi_(sine(p.strength.friction_angle_deg(BoltonStrength::lowest_index))) {}

double BoltonSand::shear_modulus(double log_mean_stress) const {
    const double log_100 = std::log(100.0);
    return parameters_.shear_modulus_kPa *
           std::exp(parameters_.stiffness_exponent * (log_mean_stress - log_100));
}

void BoltonSand::initialize(SoilState& state) const {
    state.history.setZero();
    for (Eigen::Index cell = 0; cell < state.void_ratio.size(); ++cell)
        state.history(cell, C1) = compaction_.constant(state.void_ratio(cell));
}

void BoltonSand::update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                        Eigen::Index count) const {
    const BoltonStrength& strength = parameters_.strength;
    for (Eigen::Index cell = first; cell < first + count; ++cell) {
        const double log_p = log_mean_stress(start, cell);
        const double G = shear_modulus(log_p), lambda = lambda_over_G_ * G, K = lambda + 2 * G / 3;
        PlaneStress trial = elastic_trial(motion, start, cell, lambda, G);

        ShearMemory memory = turned_memory(start, cell, motion(cell, RotationCos), motion(cell, RotationSin));
        const double third = (motion(cell, StrainXX) + motion(cell, StrainYY) + motion(cell, StrainZZ)) / 3;
        end.history(cell, Pending) = compaction_.advance(
            memory, {motion(cell, StrainXX) - third, motion(cell, StrainYY) - third, motion(cell, StrainXY)},
            start.void_ratio(cell));
        const double relaxation = K * start.history(cell, Pending); // contraction in a held volume
        trial.xx -= relaxation;
        trial.yy -= relaxation;
        trial.zz -= relaxation;

        const PrincipalStress principal(trial);
        std::array<double, 3> s = principal.s;
        // Most cells stay below the least friction there is. What is not a number goes on to be refused.
        bool yields = false;
        if (!(s[0] * (1 - least_sin_phi_) <= s[2] * (1 + least_sin_phi_))) {
            const double index = strength.index(start.void_ratio(cell), log_p);
            yields = MohrCoulombReturn({sine(strength.friction_angle_deg(index)),
                                        sine(BoltonStrength::dilation_angle_deg(index))},
                                       lambda, G)
                         .bring_back(s);
        }
        if (yields) {
            const double change = s[0] + s[1] + s[2] - principal.s[0] - principal.s[1] - principal.s[2];
            CyclicCompaction::loosen(memory, -change / (3 * K));
            trial = principal.restore(s);
        }
        put(end, cell, memory);
        store(end, start, motion, cell, trial, yields);
    }
}

ElasticModuli BoltonSand::moduli(const SoilState& state, Eigen::Index cell) const {
    const double G = shear_modulus(std::max(log_mean_stress(state, cell), std::log(operator_mean_stress)));
    return {(lambda_over_G_ + 2. / 3) * G, G};
}

std::string BoltonSand::refuse_at_rest(double vertical_stress_kPa, double K0) const {
    const double phi = parameters_.strength.critical_friction_angle_deg;
    const auto [lowest, highest] = K0_limits({sine(phi)}, vertical_stress_kPa);
    if (K0 >= lowest && K0 <= highest)
        return {};
    return fmt::format("K0 must lie between {:.3g} and {:.3g} for a critical friction angle of {} deg",
                       lowest, highest, phi);
}

} // namespace interpile::solver
