#include "solver/soil_models/critical_line.h"

#include <Eigen/QR>

#include <cmath>
#include <numbers>

namespace interpile::solver {

namespace {

constexpr double pa = 101.325; // kPa

/// I_D = a + b (p'/p_a)^xi fitted to given values, and the sum of its squared errors.
struct DensityFit {
    double a, b, xi, error;
};

DensityFit fit(const Eigen::ArrayXd& mean_stress_kPa, const Eigen::VectorXd& density, double xi) {
    Eigen::MatrixXd terms(density.size(), 2);
    terms.col(0).setOnes();
    terms.col(1) = (mean_stress_kPa / pa).pow(xi);
    const Eigen::Vector2d ab = terms.colPivHouseholderQr().solve(density);
    return {ab(0), ab(1), xi, (terms * ab - density).squaredNorm()};
}

CriticalLine line_of(double a, double b, double xi, double e_max, double e_min) {
    return {e_max - a * (e_max - e_min), b * (e_max - e_min), xi};
}

} // namespace

double CriticalLine::void_ratio(double mean_stress_kPa) const {
    return e0 - lambda_c * std::pow(mean_stress_kPa / pa, xi);
}

CriticalLine line_of_toyoura_density(double e_max, double e_min) {
    constexpr double range = toyoura_e_max - toyoura_e_min;
    return line_of((toyoura_e_max - toyoura_line.e0) / range, toyoura_line.lambda_c / range, toyoura_line.xi,
                   e_max, e_min);
}

CriticalLine line_after_bolton(double e_max, double e_min, double Q, double R) {
    const Eigen::ArrayXd log_p = Eigen::ArrayXd::LinSpaced(200, std::log(10.0), std::log(1000.0));
    const Eigen::VectorXd density = R / (Q - log_p);
    const auto error_of = [&](double xi) { return fit(log_p.exp(), density, xi).error; };
    double low = 0.2, high = 1.2; // the range of the exponent; golden section
    for (int n = 0; n < 40; ++n) {
        const double part = (high - low) / std::numbers::phi;
        if (error_of(high - part) < error_of(low + part))
            high = low + part;
        else
            low = high - part;
    }
    const DensityFit best = fit(log_p.exp(), density, 0.5 * (low + high));
    return line_of(best.a, best.b, best.xi, e_max, e_min);
}

} // namespace interpile::solver
