#include "solver/pore_water.h"
#include "solver/slice.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace interpile;
using namespace interpile::solver;

namespace {

constexpr double e0 = 0.8, k = 2e-6, G = 8000; // -, m/s, kPa

/// A graded block of ground, its cells distorted if wanted.
struct Block {
    mesh::Domain domain;
    mesh::Grid grid;
    Water water;
    explicit Block(bool distorted = false, double length = 4) {
        domain.high = {length, 3};
        grid = mesh::make_grid(domain, {{1, 1}}, {0.2, 0.5, 1.2});
        const double wave = std::numbers::pi / 3;
        for (int n = 0; distorted && n < grid.node_count(); ++n) { // sides stay where they are
            auto p = grid.node_m.col(n);
            const double bump = std::sin(std::numbers::pi * p.x() / length) * std::sin(wave * p.y());
            p += 0.12 * bump * mesh::Vec2(std::sin(5 * p.x() + p.y()), std::cos(4 * p.y() - p.x()));
        }
        water.drainage = Drainage::Coupled;
        water.permeability_m_s = water.vertical_permeability_m_s = k;
    }
    FlowState state(double thickness = 1) const {
        FlowState s{grid, Eigen::ArrayXd(grid.cell_count()), Eigen::ArrayXd::Constant(grid.cell_count(), e0),
                    Eigen::ArrayXd::Constant(grid.cell_count(), G), Eigen::ArrayXd::Zero(grid.cell_count())};
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            const auto c = grid.corners(cell);
            const mesh::Vec2 a = c[2] - c[0], b = c[3] - c[1];
            s.volume_m3_m(cell) = thickness * 0.5 * (a.x() * b.y() - a.y() * b.x());
        }
        return s;
    }
    PoreWater pores() const {
        return PoreWater(domain, water, Eigen::ArrayXd::Constant(grid.cell_count(), e0));
    }
    Eigen::ArrayXd x() const {
        Eigen::ArrayXd x(grid.cell_count());
        for (int cell = 0; cell < x.size(); ++cell) {
            const auto c = grid.corners(cell);
            x(cell) = 0.25 * (c[0] + c[1] + c[2] + c[3]).x();
        }
        return x;
    }
};

Eigen::ArrayXd random_squeezing(int cells, double low) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> amount(low, 1e-4);
    return Eigen::ArrayXd::NullaryExpr(cells, [&] { return amount(random); });
}

} // namespace

TEST_CASE("compressibility of pore water with gas, by hand") {
    // S_r/K_w + (1 - S_r)/p_abs, from memory of Verruijt, Soil mechanics; K_w 2.2e6 kPa, p_abs 101.3 + 50 kPa
    CHECK(water_compressibility_1_kPa(1, 0) == Approx(4.5454545e-7));
    CHECK(water_compressibility_1_kPa(0.98, 50) == Approx(0.98 / 2.2e6 + 0.02 / 151.3));
    CHECK(water_compressibility_1_kPa(0.98, 50) == Approx(1.326332e-4).epsilon(1e-5));
    CHECK_THROWS_AS(water_compressibility_1_kPa(0, 0), std::invalid_argument);
    CHECK_THROWS_AS(water_compressibility_1_kPa(1.1, 0), std::invalid_argument);
    CHECK_THROWS_AS(water_compressibility_1_kPa(1, -1), std::invalid_argument);
}

TEST_CASE("permeability after Kozeny and Carman") {
    // from memory of Carman (1939): e^3/(1+e); 0.9 against 0.6: (0.729/1.9)/(0.216/1.6) = 2.842105
    CHECK(permeability_factor(0.7, 0.7) == 1);
    CHECK(permeability_factor(0.9, 0.6) == Approx(2.842105).epsilon(1e-6));
}

TEST_CASE("water that cannot flow is compressed by what is squeezed out") {
    Block block;
    block.water.drainage = Drainage::Undrained;
    block.water.saturation = 0.9;
    PoreWater pores = block.pores();
    const FlowState state = block.state();
    pores.set_step(state, 0);
    constexpr double strain = 1e-4; // dp = strain/(n C_f), the same everywhere
    pores.evaluate(strain * state.volume_m3_m);
    const double n = e0 / (1 + e0), expected = strain / n / water_compressibility_1_kPa(0.9, 0);
    CHECK((pores.trial_pressure_kPa() / expected - 1).abs().maxCoeff() < 1e-10);
}

TEST_CASE("uniform flow has Darcy's discharge in every cell, distorted or not") {
    Block block(GENERATE(false, true));
    block.water.open_sides = true; // at the east end, where the pressure is 0
    block.domain.side = {mesh::BoundaryKind::Symmetry, mesh::BoundaryKind::RigidSmooth,
                         mesh::BoundaryKind::Symmetry, mesh::BoundaryKind::Symmetry};
    PoreWater pores = block.pores();
    constexpr double thickness = 1.2, gradient = 3; // kPa/m
    FlowState state = block.state(thickness);
    state.shear_modulus_kPa *= 1e9; // the stabilization of pressures would move water too
    // Squeeze what makes p = gradient (L - x) in one step from nothing, without flow.
    pores.set_step(state, 0);
    const Eigen::ArrayXd p = gradient * (block.domain.high.x() - block.x());
    pores.evaluate((pores.matrix().selfadjointView<Eigen::Lower>() * p.matrix()).array());
    pores.keep();
    REQUIRE((pores.pressure_kPa() - p).abs().maxCoeff() < 1e-9);
    const Eigen::Matrix2Xd discharge = pores.discharge_m_s(state);
    const double darcy = k * gradient / gamma_w; // m/s
    const Eigen::ArrayXd x = block.x();
    double worst = 0;
    for (int cell = 0; cell < x.size(); ++cell)
        if (cell % block.grid.cells_x > 0) // the closed end bends the flow
            worst = std::max(worst, (discharge.col(cell) - Eigen::Vector2d(darcy, 0)).norm() / darcy);
    INFO("worst " << worst);
    CHECK(worst < 1e-10);

    // For a moment, before the closed end is felt, the same flow leaves at the open one.
    constexpr double duration = 1e-3;
    pores.set_step(state, duration);
    pores.evaluate(Eigen::ArrayXd::Zero(x.size()));
    pores.keep();
    CHECK(pores.balance().through_sides ==
          Approx(darcy * thickness * block.domain.high.y() * duration).epsilon(1e-4));
}

TEST_CASE("water is kept whatever is squeezed") {
    Block block(true);
    const bool open = GENERATE(false, true);
    block.water.open_sides = open;
    block.water.leak_length_m = open ? 3 : 0;
    block.water.saturation = 0.99;
    PoreWater pores = block.pores();
    const FlowState state = block.state(1.1);
    const Eigen::ArrayXd squeezed = random_squeezing(block.grid.cell_count(), -1e-4);
    for (const double duration : {0.1, 10.0, 1000.0}) {
        pores.set_step(state, duration);
        pores.evaluate(squeezed);
        pores.keep();
    }
    const WaterBalance& b = pores.balance();
    const double turnover = 3 * squeezed.abs().sum();
    CHECK(b.squeezed == Approx(3 * squeezed.sum()));
    CHECK(std::abs(b.closing_error()) < 1e-12 * turnover);
    if (!open) {
        CHECK(std::abs(b.through_sides) < 1e-12 * turnover);
        CHECK(b.leaked == 0);
    } else {
        CHECK(std::abs(b.through_sides) > 1e-3 * turnover);
        CHECK(std::abs(b.leaked) > 1e-3 * std::abs(b.squeezed));
    }
    CHECK(pores.time_s() == Approx(1010.1));
}

TEST_CASE("closed sides keep the water and even out its pressure") {
    const Block block(true);
    PoreWater pores = block.pores();
    const FlowState state = block.state();
    const Eigen::ArrayXd squeezed = random_squeezing(block.grid.cell_count(), 0);
    pores.set_step(state, 1e9);
    pores.evaluate(squeezed);
    // All water is compressed alike: p = sum of squeezed/(n C_f V)
    const double expected =
        squeezed.sum() / (e0 / (1 + e0) * water_compressibility_1_kPa(1, 0) * state.volume_m3_m.sum());
    CHECK((pores.trial_pressure_kPa() / expected - 1).abs().maxCoeff() < 1e-5);
}

TEST_CASE("the leak decays as the first mode of a layer drained at one end") {
    // exp(-pi^2/4 c_v t/H^2), from memory of Terzaghi; no skeleton here, so m_v = n C_f
    Block block;
    block.water.leak_length_m = 2;
    block.water.saturation = 0.95;
    block.water.initial_excess_kPa = 10;
    const FlowState state = block.state();
    const double m_v = e0 / (1 + e0) * water_compressibility_1_kPa(0.95, 0);
    const double rate = std::numbers::pi * std::numbers::pi / 4 * k / gamma_w / m_v / 4;
    const auto error = [&](int steps) {
        PoreWater pores = block.pores();
        pores.set_step(state, 1 / rate / steps);
        for (int n = 0; n < steps; ++n) {
            pores.evaluate(Eigen::ArrayXd::Zero(block.grid.cell_count()));
            pores.keep();
        }
        CHECK(pores.pressure_kPa().maxCoeff() == Approx(pores.pressure_kPa().minCoeff()));
        return pores.pressure_kPa()(0) / (10 * std::exp(-1)) - 1;
    };
    CHECK(error(400) < 2e-3);
    CHECK(error(200) / error(400) == Approx(2).epsilon(0.05)); // backward Euler: first order
}

TEST_CASE("a pile drains along itself, without permeability as the ground around it") {
    Block block;
    block.water.leak_length_m = 2;
    block.water.pile_leak_length_m = 1;
    const bool drains = GENERATE(true, false);
    block.water.pile_permeability_m_s = drains ? 1e-4 : 0;
    FlowState state = block.state();
    state.finished_share.setOnes();
    block.water.initial_excess_kPa = 10;
    PoreWater pores = block.pores();
    pores.set_step(state, 1e-4);
    pores.evaluate(Eigen::ArrayXd::Zero(block.grid.cell_count()));
    pores.keep();
    const double leak = std::numbers::pi * std::numbers::pi / 4 / gamma_w * (drains ? 1e-4 : k / 4);
    CHECK(pores.balance().leaked == Approx(leak * 1e-4 * (state.volume_m3_m * pores.pressure_kPa()).sum()));
}

TEST_CASE("water that cannot be is refused") {
    Block block;
    for (const double saturation : {0.0, 1.1}) {
        block.water.saturation = saturation;
        CHECK_THROWS_AS(block.pores(), std::invalid_argument);
    }
}

// Water without tension: absolute pressure zero is -(101.3 + static) kPa of excess; the volume drawn in beyond it must come
// back before pressure rises again.
TEST_CASE("pores take in gas at absolute zero and give it back") {
    Block block;
    block.water.drainage = Drainage::Undrained;
    block.water.static_pressure_kPa = 50;
    PoreWater pores = block.pores();
    CHECK(pores.cavitation_pressure_kPa() == Approx(-151.3));
    const FlowState state = block.state();
    const Eigen::ArrayXd pore_volume = state.volume_m3_m * e0 / (1 + e0);
    const auto draw = [&](double share) { // of the pore volume, evenly: no jumps, so every cell stands alone
        pores.set_step(state, 0);
        pores.evaluate(-share * pore_volume);
        pores.keep();
    };
    draw(1e-5); // K_w 2.2e6 kPa
    CHECK(pores.pressure_kPa().minCoeff() == Approx(-22));
    draw(1e-2);
    const double beyond = 1.001e-2 - 151.3 / 2.2e6; // what gas must fill, at 50 kPa for all of the pores
    CHECK(pores.pressure_kPa().minCoeff() == Approx(-151.3 - 50 * beyond).epsilon(1e-9));
    CHECK(pores.pressure_kPa().maxCoeff() == Approx(pores.pressure_kPa().minCoeff()));
    draw(-1e-2);
    CHECK(pores.pressure_kPa().minCoeff() == Approx(-22).epsilon(1e-6));
    draw(-1e-5);
    CHECK(pores.pressure_kPa().abs().maxCoeff() < 1e-6);
    CHECK(std::abs(pores.balance().closing_error()) < 1e-12);
}
