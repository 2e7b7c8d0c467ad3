#include "solver/soil_models/mohr_coulomb.h"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace interpile::solver;

namespace {

double degrees(double d) {
    return d * std::numbers::pi / 180;
}

MohrCoulombParameters sand(double phi, double psi, double c = 0, double tension = 0) {
    MohrCoulombParameters p;
    p.friction_angle_deg = phi;
    p.dilation_angle_deg = psi;
    p.cohesion_kPa = c;
    p.tension_strength_kPa = tension;
    p.shear_modulus_kPa = 10000;
    p.poisson_ratio = 0.25;
    return p;
}

Eigen::Matrix3d elasticity(const MohrCoulombParameters& p) {
    const double G = p.shear_modulus_kPa, lambda = 2 * G * p.poisson_ratio / (1 - 2 * p.poisson_ratio);
    return lambda * Eigen::Matrix3d::Ones() + 2 * G * Eigen::Matrix3d::Identity();
}

double yield(const MohrCoulombParameters& p, double major, double minor) {
    const double sin_phi = std::sin(degrees(p.friction_angle_deg));
    return major * (1 - sin_phi) - minor * (1 + sin_phi) -
           2 * p.cohesion_kPa * std::cos(degrees(p.friction_angle_deg));
}

} // namespace

// Rankine's passive ratio tan^2(45 deg + phi/2) at failure; any textbook of soil mechanics.
TEST_CASE("plane compression ends at Rankine's ratio and dilates by its angle") {
    const auto p = sand(35, 5);
    const MohrCoulomb soil("mohr-coulomb", p);
    SoilState start, end;
    start.resize(1, 0);
    start.stress.row(0) << 100, 100, 100, 0;
    start.void_ratio(0) = 0.8;
    end = start;
    Motion motion = Motion::Zero(1, MotionColumns);
    motion(0, RotationCos) = 1;
    // Shorten x under constant sigma_y; the dilation of the last step is read off once everything flows.
    double volumetric = 0;
    const double step = 1e-4;
    for (int k = 0; k < 400; ++k) {
        double low = -0.01, high = 0.01; // strain in y such that sigma_y stays 100
        for (int n = 0; n < 60; ++n) {
            motion(0, StrainXX) = step;
            motion(0, StrainYY) = 0.5 * (low + high);
            soil.update(motion, start, end, 0, 1);
            (end.stress(0, 1) < 100 ? low : high) = motion(0, StrainYY);
        }
        volumetric = motion(0, StrainXX) + motion(0, StrainYY);
        std::swap(start, end);
    }
    const double passive = std::pow(std::tan(degrees(45 + 35.0 / 2)), 2);
    CHECK(start.stress(0, 0) / start.stress(0, 1) == Approx(passive).epsilon(1e-6));
    // Plane flow on the main plane: sin psi = -(eps_x + eps_y)/(eps_x - eps_y).
    const double sin_psi = -volumetric / (2 * step - volumetric);
    CHECK(sin_psi == Approx(std::sin(degrees(5))).epsilon(1e-6));
}

// The return is exact if the plastic strain is a non-negative sum of flow directions of active planes:
// checked by solving for those multipliers again with least squares, from the stresses alone.
TEST_CASE("random returns satisfy yield, flow rule and complementarity") {
    const auto p = GENERATE(sand(33, 3), sand(40, 40), sand(31, 0), sand(30, -8), sand(35, 5, 10, 5));
    const double sin_phi = std::sin(degrees(p.friction_angle_deg));
    const double sin_psi = std::sin(degrees(p.dilation_angle_deg));
    const MohrCoulombReturn surface(
        {sin_phi, sin_psi, 2 * p.cohesion_kPa * std::sqrt(1 - sin_phi * sin_phi), p.tension_strength_kPa},
        elasticity(p)(0, 1), p.shear_modulus_kPa);
    Eigen::Matrix<double, 3, 6> flow;
    flow << 1 - sin_psi, 1 - sin_psi, 0, 0, 0, -1, //
        0, -(1 + sin_psi), 1 - sin_psi, 0, -1, 0,  //
        -(1 + sin_psi), 0, -(1 + sin_psi), -1, 0, 0;
    std::mt19937 random(7);
    std::normal_distribution<double> normal(0, 300);
    int outside = 0;
    for (int n = 0; n < 2000; ++n) {
        std::array<double, 3> s = {80 + normal(random), 80 + normal(random), 80 + normal(random)};
        std::sort(s.begin(), s.end(), std::greater<>());
        const Eigen::Vector3d trial(s[0], s[1], s[2]);
        outside += surface.bring_back(s);
        const Eigen::Vector3d back(s[0], s[1], s[2]);
        const double scale = 1 + trial.cwiseAbs().maxCoeff();
        REQUIRE(yield(p, s[0], s[2]) < 1e-9 * scale);
        REQUIRE(s[2] > -p.tension_strength_kPa - 1e-9 * scale);
        const Eigen::Vector3d plastic = elasticity(p).inverse() * (trial - back);
        if (plastic.norm() * p.shear_modulus_kPa < 1e-9 * scale || p.dilation_angle_deg <= 0)
            continue; // without dilation the apex region has no exact flow
        std::vector<int> active;
        const double tolerance = 1e-7 * scale;
        const std::array<double, 6> f = {yield(p, s[0], s[2]),           yield(p, s[0], s[1]),
                                         yield(p, s[1], s[2]),           -s[2] - p.tension_strength_kPa,
                                         -s[1] - p.tension_strength_kPa, -s[0] - p.tension_strength_kPa};
        for (int k = 0; k < 6; ++k)
            if (f[k] > -tolerance)
                active.push_back(k);
        REQUIRE(!active.empty());
        // Smallest misfit over all non-negative combinations of up to three active directions.
        double misfit = plastic.norm();
        for (std::size_t mask = 1; mask < (1u << active.size()); ++mask) {
            Eigen::MatrixXd columns(3, 0);
            for (std::size_t k = 0; k < active.size(); ++k)
                if (mask >> k & 1) {
                    columns.conservativeResize(3, columns.cols() + 1);
                    columns.rightCols<1>() = flow.col(active[k]);
                }
            if (columns.cols() > 3)
                continue;
            const Eigen::VectorXd multiplier = columns.colPivHouseholderQr().solve(plastic);
            if (multiplier.minCoeff() > -1e-9)
                misfit = std::min(misfit, (columns * multiplier - plastic).norm());
        }
        REQUIRE(misfit < 1e-7 * plastic.norm() + 1e-12);
    }
    CHECK(outside > 500);
}

TEST_CASE("K0 at rest is accepted between Rankine's active and passive ratio only") {
    const MohrCoulomb soil("mohr-coulomb", sand(30, 0));
    CHECK(soil.refuse_at_rest(100, 0.34).empty());
    CHECK(soil.refuse_at_rest(100, 2.99).empty());
    CHECK_FALSE(soil.refuse_at_rest(100, 0.33).empty());
    CHECK_FALSE(soil.refuse_at_rest(100, 3.01).empty());
}

TEST_CASE("stress turns with the material") {
    const MohrCoulomb soil("mohr-coulomb", sand(35, 5));
    SoilState start, end;
    start.resize(1, 0);
    start.stress.row(0) << 150, 100, 120, 10;
    end = start;
    const double angle = 0.4;
    Motion motion = Motion::Zero(1, MotionColumns);
    motion(0, RotationCos) = std::cos(angle);
    motion(0, RotationSin) = std::sin(angle);
    soil.update(motion, start, end, 0, 1);
    Eigen::Matrix2d s;
    s << 150, 10, 10, 100;
    const Eigen::Matrix2d r = Eigen::Rotation2Dd(angle).toRotationMatrix();
    const Eigen::Matrix2d turned = r * s * r.transpose();
    CHECK(end.stress(0, 0) == Approx(turned(0, 0)));
    CHECK(end.stress(0, 1) == Approx(turned(1, 1)));
    CHECK(end.stress(0, 3) == Approx(turned(0, 1)));
}
