// A cylinder under a load at its drained rim: the middle is squeezed by the rim before it drains (De Leeuw 1965).

#include "support/consolidation.h"
#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace interpile;
using namespace interpile::test;

namespace {

/// p/p0 = sum 2 (1 + theta) [J0(b r/a) - J0(b)]/{J1(b) [(1 + theta) b - 4 theta/((1 + theta) b)]} exp(-b^2 tau) with the
/// roots of (1 + theta) b J0(b) = 2 theta J1(b); incompressible grains and water: theta = G/(lambda + G) = 1 - 2 nu.
/// Source: from memory of De Leeuw (1965); derived again by Laplace inversion, table bm6b.
class DeLeeuw {
public:
    explicit DeLeeuw(double nu) : theta_(1 - 2 * nu) {
        const auto equation = [&](double b) {
            return (1 + theta_) * b * std::cyl_bessel_j(0, b) - 2 * theta_ * std::cyl_bessel_j(1, b);
        };
        constexpr double grain = 0.05;
        for (double b = grain; b < 200; b += grain)
            if (equation(b) * equation(b + grain) < 0) {
                double low = b, high = b + grain;
                for (int n = 0; n < 60; ++n) {
                    const double middle = 0.5 * (low + high);
                    (equation(low) * equation(middle) > 0 ? low : high) = middle;
                }
                root_.push_back(low);
            }
    }
    double operator()(double r, double tau) const {
        double sum = 0;
        for (const double b : root_)
            sum += 2 * (1 + theta_) * (std::cyl_bessel_j(0, b * r) - std::cyl_bessel_j(0, b)) /
                   (std::cyl_bessel_j(1, b) * ((1 + theta_) * b - 4 * theta_ / ((1 + theta_) * b))) *
                   std::exp(-b * b * tau);
        return sum;
    }

private:
    double theta_;
    std::vector<double> root_;
};

struct CylinderError {
    double field = 0, peak = 0; ///< of p/p0: worst cell and time, highest in the middle
};

/// \param share  of the time passed: size of a time step
CylinderError cylinder_error(double nu, int cells, double share) {
    // Soft, so that the compression of the water counts nothing: n G/K_w = 2e-5.
    const ElasticGround soil{.G = 100, .nu = nu, .load = 1e-3};
    mesh::Domain domain;
    domain.shape = mesh::DomainShape::Round;
    domain.high = {1, 1};
    domain.side = {mesh::BoundaryKind::Symmetry, mesh::BoundaryKind::ConstantStress,
                   mesh::BoundaryKind::Symmetry, mesh::BoundaryKind::ConstantStress};
    const auto grid = mesh::make_grid(domain, {}, {1.0 / cells, 2, 1.2});
    REQUIRE(grid.cells_x == cells);
    Consolidation cylinder(soil, domain, grid, soil.water());
    const DeLeeuw exact(nu);
    CylinderError error;
    double peak = 0, exact_peak = 0;
    for (const double tau : {0.01, 0.02, 0.03, 0.04, 0.05, 0.055, 0.06, 0.065, 0.07, 0.1, 0.2}) {
        cylinder.go_to(tau / soil.c_v(), share);
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            const auto c = grid.corners(cell);
            const double r = (0.25 * (c[0] + c[1] + c[2] + c[3])).norm();
            error.field =
                std::max(error.field, std::abs(cylinder.pressure()(cell) / soil.load - exact(r, tau)));
        }
        const double middle = 0.5 * std::sqrt(2.0) / cells; // radius of the first cell
        peak = std::max(peak, cylinder.pressure()(0) / soil.load);
        exact_peak = std::max(exact_peak, exact(middle, tau));
    }
    error.peak = std::abs(peak / exact_peak - 1);
    std::printf("nu %.1f, %d cells: peak %.4f, exact %.4f\n", nu, cells, peak, exact_peak);
    return error;
}

} // namespace

TEST_CASE("De Leeuw's series is the reference table", "[verification][water]") {
    for (const auto& [name, nu] : {std::pair("nu000", 0.0), std::pair("nu020", 0.2)}) {
        const Table table(std::string("bm6b_deleeuw_incompressible-") + name);
        const DeLeeuw exact(nu);
        for (const auto& row : table.rows()) {
            const double tau = table.number(row, "tau=c*t/a^2");
            if (tau >= 1e-3)
                REQUIRE(exact(table.number(row, "r_over_a"), tau) ==
                        Approx(table.number(row, "p_over_p0")).margin(2e-6));
        }
    }
}

TEST_CASE("the pressure in a loaded cylinder rises before it falls, De Leeuw 1965", "[verification][water]") {
    const double nu = GENERATE(0.0, 0.2);
    Convergence field, peak;
    for (const int cells : {8, 16, 24}) {
        const CylinderError error = cylinder_error(nu, cells, 0.015);
        field.add(1.0 / cells, error.field);
        peak.add(1.0 / cells, error.peak);
    }
    INFO(field.table("cylinder, pressure, share of p0"));
    INFO(peak.table("cylinder, highest pressure in the middle, relative"));
    CHECK(field.finest() < 0.01);
    CHECK(field.order() > 1.5);
    CHECK(peak.finest() < 0.005);
}
