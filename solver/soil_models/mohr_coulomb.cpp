#include "solver/soil_models/mohr_coulomb.h"

#include "solver/soil_models/elastic_step.h"

#include <Eigen/Dense>

#include <cmath>
#include <limits>
#include <numbers>
#include <sstream>
#include <stdexcept>

namespace interpile::solver {
namespace {

double radians(double degrees) {
    return degrees * std::numbers::pi / 180;
}

double dot(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

} // namespace

MohrCoulomb::MohrCoulomb(std::string name, const MohrCoulombParameters& p)
    : name_(std::move(name)), parameters_(p), G_(p.shear_modulus_kPa),
      lambda_(2 * G_ * p.poisson_ratio / (1 - 2 * p.poisson_ratio)),
      sin_phi_(std::sin(radians(p.friction_angle_deg))),
      strength_(2 * p.cohesion_kPa * std::cos(radians(p.friction_angle_deg))) {
    const double sin_psi = std::sin(radians(p.dilation_angle_deg));
    const double up = 1 - sin_phi_, down = -(1 + sin_phi_), flow_up = 1 - sin_psi, flow_down = -(1 + sin_psi);
    // s_i (1 - sin phi) - s_j (1 + sin phi) <= 2 c cos phi for major and minor, then for the two edges.
    planes_[0] = plane({up, 0, down}, {flow_up, 0, flow_down}, strength_);
    planes_[1] = plane({up, down, 0}, {flow_up, flow_down, 0}, strength_);
    planes_[2] = plane({0, up, down}, {0, flow_up, flow_down}, strength_);
    // -s_k <= T, associated.
    planes_[3] = plane({0, 0, -1}, {0, 0, -1}, p.tension_strength_kPa);
    planes_[4] = plane({0, -1, 0}, {0, -1, 0}, p.tension_strength_kPa);
    planes_[5] = plane({-1, 0, 0}, {-1, 0, 0}, p.tension_strength_kPa);
    inverse_main_ = 1 / dot(planes_[0].yield, planes_[0].fall);
}

MohrCoulomb::Plane MohrCoulomb::plane(std::array<double, 3> yield, std::array<double, 3> flow,
                                      double limit) const {
    const double trace = flow[0] + flow[1] + flow[2];
    std::array<double, 3> fall;
    for (int k = 0; k < 3; ++k)
        fall[k] = lambda_ * trace + 2 * G_ * flow[k];
    return {yield, flow, fall, limit};
}

bool MohrCoulomb::admissible(const std::array<double, 3>& s) const {
    // Round-off of stresses of the size of G times a strain of one.
    const double tolerance = 1e-10 * (std::abs(s[0]) + std::abs(s[2]) + strength_ + 1e-3 * G_);
    for (const auto& p : planes_)
        if (dot(p.yield, s) - p.limit > tolerance)
            return false;
    return s[0] >= s[1] - tolerance && s[1] >= s[2] - tolerance;
}

template <int N>
bool MohrCoulomb::try_planes(const std::array<int, N>& active, std::array<double, 3>& s) const {
    Eigen::Matrix<double, N, N> system;
    Eigen::Matrix<double, N, 1> excess;
    for (int a = 0; a < N; ++a) {
        const auto& p = planes_[active[a]];
        excess(a) = dot(p.yield, s) - p.limit;
        for (int b = 0; b < N; ++b)
            system(a, b) = dot(p.yield, planes_[active[b]].fall);
    }
    if (std::abs(system.determinant()) < 1e-12 * std::pow(G_, N))
        return false;
    const Eigen::Matrix<double, N, 1> multiplier = system.inverse() * excess;
    if (multiplier.minCoeff() < -1e-14)
        return false;
    std::array<double, 3> back = s;
    for (int a = 0; a < N; ++a)
        for (int k = 0; k < 3; ++k)
            back[k] -= multiplier(a) * planes_[active[a]].fall[k];
    if (!admissible(back))
        return false;
    s = back;
    return true;
}

bool MohrCoulomb::bring_back(std::array<double, 3>& s) const {
    const double excess = dot(planes_[0].yield, s) - strength_;
    if (excess <= 0 && -s[2] <= parameters_.tension_strength_kPa)
        return false;
    // Nearly every return ends on the main plane or one of its edges.
    if (excess > 0) {
        const double multiplier = excess * inverse_main_;
        std::array<double, 3> back;
        for (int k = 0; k < 3; ++k)
            back[k] = s[k] - multiplier * planes_[0].fall[k];
        if (back[0] >= back[1] && back[1] >= back[2] && -back[2] <= parameters_.tension_strength_kPa) {
            s = back;
            return true;
        }
        if (try_planes<2>({0, 1}, s) || try_planes<2>({0, 2}, s))
            return true;
    }
    for (int a = 1; a < plane_count; ++a)
        if (try_planes<1>({a}, s))
            return true;
    for (int a = 0; a < plane_count; ++a)
        for (int b = a + 1; b < plane_count; ++b)
            if (try_planes<2>({a, b}, s))
                return true;
    for (int a = 0; a < plane_count; ++a)
        for (int b = a + 1; b < plane_count; ++b)
            for (int c = b + 1; c < plane_count; ++c)
                if (try_planes<3>({a, b, c}, s))
                    return true;
    // No sum of flow directions leads back (possible for psi well below phi near the apex): all three
    // stresses rest at the tension strength, as soil that has opened.
    if (!(s[0] + s[1] + s[2] < std::numeric_limits<double>::infinity()))
        throw std::runtime_error("not a number in a stress increment");
    s.fill(-parameters_.tension_strength_kPa);
    return true;
}

void MohrCoulomb::update(const Motion& motion, const SoilState& start, SoilState& end, Eigen::Index first,
                         Eigen::Index count) const {
    for (Eigen::Index cell = first; cell < first + count; ++cell) {
        const PlaneStress trial = elastic_trial(motion, start, cell, lambda_, G_);
        const PrincipalStress principal(trial);
        std::array<double, 3> s = principal.s;
        const bool yields = bring_back(s);
        store(end, start, motion, cell, yields ? principal.restore(s) : trial, yields);
    }
}

ElasticModuli MohrCoulomb::moduli(const SoilState&, Eigen::Index) const {
    return {lambda_ + 2 * G_ / 3, G_};
}

std::string MohrCoulomb::refuse_at_rest(double vertical_stress_kPa, double K0) const {
    if (vertical_stress_kPa == 0)
        return {};
    // Major against minor: sigma_1 (1 - sin phi) - sigma_3 (1 + sin phi) = 2 c cos phi.
    const double up = 1 - sin_phi_, down = 1 + sin_phi_;
    const double lowest = up / down - strength_ / (down * vertical_stress_kPa);
    const double highest = down / up + strength_ / (up * vertical_stress_kPa);
    if (K0 >= lowest * (1 - 1e-9) && K0 <= highest * (1 + 1e-9))
        return {};
    std::ostringstream text;
    text.precision(3);
    text << "K0 must lie between " << std::max(0.0, lowest) << " and " << highest << " for friction angle "
         << parameters_.friction_angle_deg << " deg and cohesion " << parameters_.cohesion_kPa << " kPa";
    return text.str();
}

} // namespace interpile::solver
