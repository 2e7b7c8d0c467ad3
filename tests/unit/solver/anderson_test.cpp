#include "solver/anderson.h"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

using namespace interpile::solver;

// On a linear problem the mixing is a Krylov method: k distinct eigenvalues need about k steps (Walker & Ni
// 2011, from memory); the plain iteration converges like 0.9^n here.
TEST_CASE("mixing solves a linear fixed point in about as many steps as there are eigenvalues") {
    const int n = 60;
    Eigen::VectorXd eigenvalue(n), solution(n);
    for (int k = 0; k < n; ++k) {
        eigenvalue(k) = 0.1 + 0.3 * (k % 4);
        solution(k) = std::sin(k + 1.0);
    }
    Eigen::VectorXd y = Eigen::VectorXd::Zero(n);
    AndersonMixing mixing(5);
    mixing.restart(Eigen::VectorXd::Ones(n));
    int steps = 0;
    while ((y - solution).norm() > 1e-10 && ++steps < 50)
        mixing.step(y, eigenvalue.cwiseProduct(y - solution));
    CHECK(steps <= 8);
}
