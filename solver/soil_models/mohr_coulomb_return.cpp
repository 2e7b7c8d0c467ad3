#include "solver/soil_models/mohr_coulomb_return.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace interpile::solver {
namespace {

double dot(const std::array<double, 3>& a, const std::array<double, 3>& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

} // namespace

std::pair<double, double> K0_limits(const MohrCoulombStrength& strength, double vertical_stress_kPa) {
    // Major against minor: sigma_1 (1 - sin phi) - sigma_3 (1 + sin phi) = 2 c cos phi.
    const double up = 1 - strength.sin_phi, down = 1 + strength.sin_phi;
    return {std::max(0.0, up / down - strength.cohesive / (down * vertical_stress_kPa)),
            down / up + strength.cohesive / (up * vertical_stress_kPa)};
}

MohrCoulombReturn::MohrCoulombReturn(const MohrCoulombStrength& strength, double lambda, double G)
    : G_(G), lambda_(lambda), strength_(strength.cohesive), tension_(strength.tension) {
    const double up = 1 - strength.sin_phi, down = -(1 + strength.sin_phi);
    const double flow_up = 1 - strength.sin_psi, flow_down = -(1 + strength.sin_psi);
    // s_i (1 - sin phi) - s_j (1 + sin phi) <= 2 c cos phi for major and minor, then for the two edges.
    planes_[0] = plane({up, 0, down}, {flow_up, 0, flow_down}, strength_);
    planes_[1] = plane({up, down, 0}, {flow_up, flow_down, 0}, strength_);
    planes_[2] = plane({0, up, down}, {0, flow_up, flow_down}, strength_);
    // -s_k <= T, associated.
    planes_[3] = plane({0, 0, -1}, {0, 0, -1}, tension_);
    planes_[4] = plane({0, -1, 0}, {0, -1, 0}, tension_);
    planes_[5] = plane({-1, 0, 0}, {-1, 0, 0}, tension_);
    inverse_main_ = 1 / dot(planes_[0].yield, planes_[0].fall);
}

MohrCoulombReturn::Plane MohrCoulombReturn::plane(std::array<double, 3> yield, std::array<double, 3> flow,
                                                  double limit) const {
    const double trace = flow[0] + flow[1] + flow[2];
    std::array<double, 3> fall;
    for (int k = 0; k < 3; ++k)
        fall[k] = lambda_ * trace + 2 * G_ * flow[k];
    return {yield, flow, fall, limit};
}

bool MohrCoulombReturn::admissible(const std::array<double, 3>& s) const {
    // Round-off of stresses of the size of G times a strain of one.
    const double tolerance = 1e-10 * (std::abs(s[0]) + std::abs(s[2]) + strength_ + 1e-3 * G_);
    for (const auto& p : planes_)
        if (dot(p.yield, s) - p.limit > tolerance)
            return false;
    return s[0] >= s[1] - tolerance && s[1] >= s[2] - tolerance;
}

template <int N>
bool MohrCoulombReturn::try_planes(const std::array<int, N>& active, std::array<double, 3>& s) const {
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

bool MohrCoulombReturn::bring_back(std::array<double, 3>& s) const {
    const double excess = dot(planes_[0].yield, s) - strength_;
    if (excess <= 0 && -s[2] <= tension_)
        return false;
    // Nearly every return ends on the main plane or one of its edges.
    if (excess > 0) {
        const double multiplier = excess * inverse_main_;
        std::array<double, 3> back;
        for (int k = 0; k < 3; ++k)
            back[k] = s[k] - multiplier * planes_[0].fall[k];
        if (back[0] >= back[1] && back[1] >= back[2] && -back[2] <= tension_) {
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
    s.fill(-tension_);
    return true;
}

} // namespace interpile::solver
