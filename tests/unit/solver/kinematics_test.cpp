#include "solver/kinematics.h"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile::solver;

namespace {

Diagonals moved(const Diagonals& d, const Eigen::Matrix2d& f) {
    const Eigen::Vector2d a = f * Eigen::Vector2d(d.ax, d.ay), b = f * Eigen::Vector2d(d.bx, d.by);
    return {a.x(), a.y(), b.x(), b.y()};
}

Diagonals change(const Diagonals& now, const Diagonals& start) {
    return {now.ax - start.ax, now.ay - start.ay, now.bx - start.bx, now.by - start.by};
}

} // namespace

// Against the matrix square root and logarithm by the spectral decomposition of a general library (Eigen's
// SelfAdjointEigenSolver).
TEST_CASE("logarithmic stretch and rotation agree with matrix functions") {
    const Diagonals start = {1.1, 0.9, -0.8, 1.0};
    const double angle = GENERATE(0.0, 0.3, -1.2);
    const double size = GENERATE(1e-9, 1e-3, 0.08, 0.6);
    const Eigen::Matrix2d rotation = Eigen::Rotation2Dd(angle).toRotationMatrix();
    Eigen::Matrix2d stretch_in;
    stretch_in << 1 + size, 0.4 * size, 0.4 * size, 1 - 0.3 * size;
    const Eigen::Matrix2d f = stretch_in * rotation;
    const CellStretch s = stretch(change(moved(start, f), start), start);

    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> squared(f * f.transpose());
    const auto of_stretch = [&](double (*function)(double)) {
        const Eigen::Vector2d stretches = squared.eigenvalues().cwiseSqrt();
        const Eigen::Vector2d values(function(stretches[0]), function(stretches[1]));
        return Eigen::Matrix2d(squared.eigenvectors() * values.asDiagonal() *
                               squared.eigenvectors().transpose());
    };
    const Eigen::Matrix2d v = of_stretch([](double stretch) { return stretch; });
    const Eigen::Matrix2d log_v = of_stretch([](double stretch) { return std::log(stretch); });
    const Eigen::Matrix2d r = v.inverse() * f;
    CHECK(s.xx == Approx(log_v(0, 0)).margin(1e-14 + 1e-11 * size));
    CHECK(s.yy == Approx(log_v(1, 1)).margin(1e-14 + 1e-11 * size));
    CHECK(s.xy == Approx(log_v(0, 1)).margin(1e-14 + 1e-11 * size));
    CHECK(s.cos_r == Approx(r(0, 0)).margin(1e-13));
    CHECK(s.sin_r == Approx(r(1, 0)).margin(1e-13));
}

TEST_CASE("the strains of a path add up to the area exactly") {
    Diagonals d = {1, 1, -1, 1};
    const double area = d.twice_area();
    double sum = 0;
    for (int k = 0; k < 500; ++k) {
        Eigen::Matrix2d f;
        f << 1 + 0.01 * std::sin(k), 0.02 * std::cos(1.3 * k), -0.015 * std::sin(0.7 * k),
            1 - 0.008 * std::cos(k);
        const Diagonals next = moved(d, f);
        const CellStretch s = stretch(change(next, d), d);
        sum += s.xx + s.yy;
        d = next;
    }
    CHECK(std::exp(sum) == Approx(d.twice_area() / area).epsilon(1e-12));
}
