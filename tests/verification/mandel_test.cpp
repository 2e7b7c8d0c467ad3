// A slab squeezed between rigid smooth plates drains at its sides: the pressure rises before it falls (Mandel 1953). The
// plates press across the plane of the slice: one heave strain whose mean total vertical stress is kept.

#include "support/consolidation.h"
#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

using namespace interpile;
using namespace interpile::test;
using std::numbers::pi;

namespace {

/// p/p0 = 2 sum sin b/(b - sin b cos b) [cos(b x/a) - cos b] exp(-b^2 tau), tan b/b = (1 - nu)/(1/2 - nu),
/// incompressible grains and water: p0 is half of the mean load.
/// Source: from memory of Mandel (1953), Geotechnique 3, and Abousleiman et al. (1996), Geotechnique 46; derived again by
/// Laplace inversion, table bm6a.
class Mandel {
public:
    explicit Mandel(double nu) {
        const double ratio = (1 - nu) / (0.5 - nu);
        for (int n = 0; n < 60; ++n) { // tan b rises to infinity: one root in each half turn
            double low = n * pi + 1e-9, high = (n + 0.5) * pi;
            for (int step = 0; step < 60; ++step) {
                const double middle = 0.5 * (low + high);
                (std::tan(middle) < ratio * middle ? low : high) = middle;
            }
            root_.push_back(0.5 * (low + high));
        }
    }
    double operator()(double x, double tau) const {
        double sum = 0;
        for (const double b : root_)
            sum += 2 * std::sin(b) / (b - std::sin(b) * std::cos(b)) * (std::cos(b * x) - std::cos(b)) *
                   std::exp(-b * b * tau);
        return sum;
    }

private:
    std::vector<double> root_;
};

struct SlabError {
    double field = 0; ///< of p/p0: worst cell and time, tau >= 0.005
    double plate = 0; ///< of the approach of the plates, over its undrained value
    double peak = 0;  ///< relative, of the highest pressure in the middle
};

/// The load is put on in one step without time to drain, then the slab drains.
SlabError slab_error(double nu, const std::string& set, int cells) {
    // Soft, so that the compression of the water counts little: n G/K_w = 2e-4. Nearly incompressible ground under a small
    // load: round-off of the areas alone is 1e-8 of the pressure.
    const ElasticGround soil{.G = 1000,
                             .nu = nu,
                             .load = 0.02,
                             .vertical_stress_kPa = 0.02,
                             .K0 = 0,
                             .vertical = solver::VerticalCondition::Shared};
    using enum mesh::BoundaryKind;
    mesh::Domain domain;
    domain.high = {1, 1.0 / cells};
    domain.side = {Symmetry, ConstantStress, Symmetry, Symmetry};
    const auto grid = mesh::make_grid(domain, {}, {1.0 / cells, 2, 1.2});
    REQUIRE(grid.cells_x == cells);
    solver::Water water = soil.water();
    water.initial_excess_kPa = 0;
    Consolidation slab(soil, domain, grid, water, 1e-6);
    solver::KeptSlice unloaded = slab.momentum.kept();
    unloaded.soil.stress.setZero();
    slab.momentum.restore(unloaded);
    slab.step(1e-9 / soil.c_v());
    slab.equilibrium.forget_direction(); // the load is on

    const double p0 = soil.load / 2;
    CHECK(slab.pressure()(0) == Approx(p0).epsilon(1e-3)); // Skempton's B = 1
    const Table table("bm6a_mandel_incompressible-" + set), peaks("bm6_peaks");
    const Mandel exact(nu);
    SlabError error;
    double peak = 0;
    for (const double tau :
         {0.001, 0.005, 0.01, 0.02, 0.03, 0.05, 0.06, 0.07, 0.08, 0.09, 0.1, 0.2, 0.5, 1.0}) {
        slab.go_to(tau / soil.c_v(), 0.01);
        peak = std::max(peak, slab.pressure()(0) / p0);
        if (tau < 0.005)
            continue;
        for (int cell = 0; cell < cells; ++cell)
            error.field = std::max(error.field,
                                   std::abs(slab.pressure()(cell) / p0 - exact((cell + 0.5) / cells, tau)));
        for (const auto& row : table.rows())
            if (table.number(row, "x_over_a") == 0 && table.number(row, "tau=c*t/a^2") == tau)
                // G 10 000 kPa, load 100 kPa in the table; undrained strain load/(4 G)
                error.plate = std::max(error.plate, std::abs(4 * (slab.momentum.heave() * soil.G / soil.load -
                                                                  table.number(row, "eps_z") * 100)));
    }
    for (const auto& row : peaks.rows("incompressible_" + set))
        if (row.cells[1] == "Mandel centre")
            error.peak = std::abs(peak / peaks.number(row, "peak_p_over_p0") - 1);
    return error;
}

} // namespace

TEST_CASE("Mandel's series is the reference table", "[verification][water]") {
    for (const auto& [set, nu] : {std::pair("nu000", 0.0), std::pair("nu020", 0.2)}) {
        const Table table(std::string("bm6a_mandel_incompressible-") + set);
        const Mandel exact(nu);
        for (const auto& row : table.rows()) {
            const double tau = table.number(row, "tau=c*t/a^2");
            if (tau >= 1e-3)
                REQUIRE(exact(table.number(row, "x_over_a"), tau) ==
                        Approx(table.number(row, "p_over_p0")).margin(2e-6));
        }
    }
}

TEST_CASE("the pressure between two plates rises before it falls, Mandel 1953", "[verification][water]") {
    const auto [set, nu] = GENERATE(table<std::string, double>({{"nu000", 0.0}, {"nu020", 0.2}}));
    Convergence field, plate, peak;
    for (const int cells : {10, 20, 40}) {
        const SlabError error = slab_error(nu, set, cells);
        field.add(1.0 / cells, error.field);
        plate.add(1.0 / cells, error.plate);
        peak.add(1.0 / cells, error.peak);
    }
    INFO(field.table("slab, nu " + set + ", pressure, share of p0"));
    INFO(plate.table("slab, approach of the plates, share of the undrained one"));
    INFO(peak.table("slab, highest pressure in the middle, relative"));
    CHECK(field.finest() < 0.01);
    CHECK(field.order() > 1.5);
    CHECK(plate.finest() < 0.005);
    CHECK(peak.finest() < 0.005);
}
