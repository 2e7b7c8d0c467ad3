// Critical state lines from e_max and e_min, against Bolton's index and Toyoura sand's measured line.

#include "solver/soil_models/critical_line.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

using namespace interpile::solver;

namespace {

/// Largest distance over 10 .. `high` kPa.
template <class Distance>
double largest(double high_kPa, Distance distance) {
    double worst = 0;
    for (double p = 10; p <= high_kPa * 1.0001; p *= 1.05)
        worst = std::max(worst, std::abs(distance(p)));
    return worst;
}

} // namespace

// I_R = I_D (Q - ln p') - R = 0, from memory of Bolton (1986), Geotechnique 36(1), 65-78.
TEST_CASE("the line after Bolton keeps to the density where the sand neither dilates nor contracts") {
    const auto [Q, allowed] = GENERATE(table<double, double>({{9, 0.015}, {10, 0.0035}, {12, 0.001}}));
    const double R = GENERATE(1.0, 1.2), e_max = 0.85, e_min = 0.5;
    const auto line = line_after_bolton(e_max, e_min, Q, R);
    const double worst = largest(1000, [&, q = Q](double p) {
        return (e_max - line.void_ratio(p)) / (e_max - e_min) - R / (q - std::log(p));
    });
    std::printf("Q %g, R %g: e_0 %.4f, lambda_c %.4f, xi %.3f, off in I_D by %.4f\n", Q, R, line.e0,
                line.lambda_c, line.xi, worst);
    CHECK(worst < R * allowed);
}

// Measured line of Toyoura sand as the published constants give it, from memory of Dafalias & Manzari (2004); Bolton's index
// itself is 0.014 in void ratio off at 1000 kPa.
TEST_CASE("with the void ratios of Toyoura sand the lines lie at its measured line") {
    const auto bolton = line_after_bolton(toyoura_e_max, toyoura_e_min, 10, 1);
    const auto off = [&](double p) { return bolton.void_ratio(p) - toyoura_line.void_ratio(p); };
    std::printf("after Bolton - Toyoura sand: up to %.4f to 500 kPa, %.4f to 1000 kPa\n", largest(500, off),
                largest(1000, off));
    CHECK(largest(500, off) < 0.009);
    CHECK(largest(1000, off) < 0.017);
    const auto same = line_of_toyoura_density(toyoura_e_max, toyoura_e_min);
    CHECK(same.e0 == Approx(0.934).epsilon(1e-12));
    CHECK(same.lambda_c == Approx(0.019).epsilon(1e-12));
}

TEST_CASE("a line of equal relative density has that of Toyoura sand at every stress") {
    const auto line = line_of_toyoura_density(0.75, 0.45);
    CHECK(largest(1000, [&](double p) {
              return (0.75 - line.void_ratio(p)) / 0.3 - (0.977 - toyoura_line.void_ratio(p)) / 0.38;
          }) < 1e-12);
}
