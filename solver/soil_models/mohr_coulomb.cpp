#include "solver/soil_models/mohr_coulomb.h"

#include "solver/soil_models/elastic_step.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace interpile::solver {
namespace {

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

MohrCoulombStrength strength_of(const MohrCoulombParameters& p) {
    const double phi = radians(p.friction_angle_deg);
    return {std::sin(phi), std::sin(radians(p.dilation_angle_deg)), 2 * p.cohesion_kPa * std::cos(phi),
            p.tension_strength_kPa};
}

} // namespace

MohrCoulomb::MohrCoulomb(std::string name, const MohrCoulombParameters& p)
    : name_(std::move(name)), parameters_(p), strength_(strength_of(p)), G_(p.shear_modulus_kPa),
      lambda_(2 * G_ * p.poisson_ratio / (1 - 2 * p.poisson_ratio)), surface_(strength_, lambda_, G_) {}

void MohrCoulomb::update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                         Eigen::Index count) const {
    for (Eigen::Index cell = first; cell < first + count; ++cell) {
        const PlaneStress trial = elastic_trial(motion, start, cell, lambda_, G_);
        const PrincipalStress principal(trial);
        std::array<double, 3> s = principal.s;
        const bool yields = surface_.bring_back(s);
        store(end, start, motion, cell, yields ? principal.restore(s) : trial, yields);
    }
}

ElasticModuli MohrCoulomb::moduli(const SoilState&, Eigen::Index) const {
    return {lambda_ + 2 * G_ / 3, G_};
}

std::string MohrCoulomb::refuse_at_rest(double vertical_stress_kPa, double K0) const {
    if (vertical_stress_kPa == 0)
        return {};
    const auto [lowest, highest] = K0_limits(strength_, vertical_stress_kPa);
    if (K0 >= lowest * (1 - 1e-9) && K0 <= highest * (1 + 1e-9))
        return {};
    return fmt::format(
        "K0 must lie between {:.3g} and {:.3g} for friction angle {:.3g} deg and cohesion {:.3g} kPa", lowest,
        highest, parameters_.friction_angle_deg, parameters_.cohesion_kPa);
}

} // namespace interpile::solver
