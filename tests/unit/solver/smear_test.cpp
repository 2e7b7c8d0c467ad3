// The smeared ring: which ground carries it, what it does to permeability and flow, and that without it nothing changes.

#include "mesh/grid.h"
#include "mesh/ground_area.h"
#include "solver/pore_water.h"
#include "solver/slice.h"
#include "solver/smear.h"
#include "solver/soil_parameters.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <memory>
#include <numbers>

using namespace interpile;
using namespace interpile::solver;

namespace {

constexpr double pi = std::numbers::pi, radius = 0.5;

/// A seeded disc in the middle of a square.
struct Square {
    mesh::Domain domain;
    mesh::Grid grid;
    Slice slice;
    std::unique_ptr<SoilModel> soil = make_soil_model({"elastic", {8000, 0.3}});
    PileDisc disc;
    std::unique_ptr<Momentum> momentum;

    explicit Square(double cell_m) {
        domain.high = {4, 4};
        grid = mesh::make_grid(domain, {{2, 2}}, {cell_m, 2, 1.2});
        slice.vertical_stress_kPa = 60;
        slice.void_ratio = 0.8;
        momentum = std::make_unique<Momentum>(grid, domain, slice, *soil);
        disc = seed_disc(grid, domain, 0, {2, 2}, radius);
    }
    Eigen::ArrayXd pile() const {
        Eigen::ArrayXd share = Eigen::ArrayXd::Zero(grid.cell_count());
        for (const auto& part : disc.parts)
            share(part.cell) = part.share;
        return share;
    }
    Eigen::ArrayXd smear(double ratio) const { return smear_share(*momentum, {{&disc, {2, 2}}}, ratio); }
};

} // namespace

TEST_CASE("the ring lies between the pile and the smeared circle and nowhere else") {
    const Square square(0.1);
    constexpr double ratio = 2;
    const Eigen::ArrayXd pile = square.pile(), smear = square.smear(ratio);
    const Eigen::ArrayXd distance =
        (mesh::cell_middles(square.grid).colwise() - mesh::Vec2(2, 2)).colwise().norm().transpose();
    const double diagonal = 0.1 / std::numbers::sqrt2;
    for (Eigen::Index cell = 0; cell < smear.size(); ++cell) {
        if (distance(cell) > ratio * radius + diagonal)
            CHECK(smear(cell) == 0);
        else if (distance(cell) < ratio * radius - diagonal && pile(cell) < 1 - 1e-9)
            CHECK(smear(cell) == Approx(1)); // all of the ground there
    }
    // The pile's edge is spread over cells, its area is that of the circle: so is the ring's.
    const double area = (mesh::cell_areas(square.grid) * smear * (1 - pile)).sum();
    CHECK(area == Approx(pi * radius * radius * (ratio * ratio - 1)).epsilon(1e-3));
}

TEST_CASE("no ring at a ratio of 1, no ring below") {
    const Square square(0.2);
    CHECK((square.smear(1) == 0).all());
    CHECK_THROWS_AS(square.smear(0.9), std::invalid_argument);
}

TEST_CASE("rings that overlap smear once, smeared ground stays so") {
    Square square(0.2);
    const Eigen::ArrayXd once = square.smear(2);
    const PlacedDisc placed{&square.disc, {2, 2}};
    square.momentum->add_smear(once);
    const Eigen::ArrayXd kept = square.momentum->flow_state().smear_share;
    CHECK((kept - once).abs().maxCoeff() < 1e-15);
    square.momentum->add_smear(Eigen::ArrayXd::Zero(once.size()));
    CHECK((square.momentum->flow_state().smear_share == kept).all());
    const Eigen::ArrayXd twice = smear_share(*square.momentum, {placed, placed}, 2);
    CHECK(twice.maxCoeff() <= 1);
    CHECK((twice - once).minCoeff() > -1e-15);
}

TEST_CASE("smeared ground in series, by hand") {
    CHECK(smeared_permeability(1e-5, 0, 0.1) == 1e-5);
    CHECK(smeared_permeability(1e-5, 1, 0.1) == Approx(1e-6));
    CHECK(smeared_permeability(1e-5, 0.5, 0.25) == Approx(4e-6)); // 1/(0.5 + 2) = 0.4
}

TEST_CASE("a ring of no ground changes no bit of the flow") {
    const Square square(0.2);
    Water water;
    water.drainage = Drainage::Coupled;
    water.pile_permeability_m_s = 1e-4;
    water.smear_permeability_ratio = 0.1;
    const Eigen::ArrayXd void_ratio = Eigen::ArrayXd::Constant(square.grid.cell_count(), 0.8);
    const PoreWater pores(square.domain, water, void_ratio);
    FlowState state = square.momentum->flow_state();
    state.finished_share = square.pile();
    const Eigen::ArrayXd zero = pores.permeability_m_s(state);
    state.smear_share.resize(0);
    CHECK((pores.permeability_m_s(state) == zero).all());
    state.smear_share = square.smear(2);
    CHECK((pores.permeability_m_s(state) < zero).any());
    CHECK((pores.permeability_m_s(state) <= zero).all());
}

namespace {

constexpr double n = 5, s = 2, kappa = 4; // re/rw, rs/rw, k_h/k_s; re = 1 m

/// Mean pressure when the ground is squeezed evenly and water leaves as fast, which is what equal strain means, over
/// gamma_w rate re^2/(2 k_h): Darcy's law with the water of the ring r .. re through each circle,
/// dp/dr = (re^2 - r^2)/r (times k_h/k_s in the ring), integrated over the ground with fine steps.
/// Source: assumption and ring of Barron (1948), Trans. ASCE 113; Hansbo's mu = ln(n/s) + (k_h/k_s) ln(s) - 0.75 is its
/// limit for large n.
double equal_strain_mean(double ratio) {
    constexpr int steps = 20000;
    const double rw = 1 / n, step = (1 - rw) / steps;
    double pressure = 0, sum = 0;
    for (int i = 0; i < steps; ++i) {
        const double r = rw + (i + 0.5) * step;
        const double slope = (1 - r * r) / r * (r < ratio * rw ? kappa : 1);
        sum += 2 * r * step * (pressure + 0.5 * step * slope);
        pressure += step * slope;
    }
    return sum / (1 - rw * rw);
}

/// The same of the scheme, pile and ring of whole cells.
double computed_mean(int cells, double ratio) {
    constexpr double k = 1e-6, void_ratio = 0.8, rate = 1e-6;
    mesh::Domain domain;
    domain.shape = mesh::DomainShape::Round;
    domain.high = {1, 1};
    domain.side.fill(mesh::BoundaryKind::Symmetry);
    const auto grid = mesh::make_grid(domain, {}, {1.0 / cells, 2, 1.2});
    Water water;
    water.drainage = Drainage::Coupled;
    water.permeability_m_s = k;
    water.pile_permeability_m_s = 1;
    water.pile_leak_length_m = 0.1;
    water.smear_diameter_ratio = ratio;
    water.smear_permeability_ratio = 1 / kappa;
    const Eigen::ArrayXd r = mesh::cell_middles(grid).colwise().norm().transpose();
    const Eigen::Index count = grid.cell_count();
    FlowState state{grid,
                    mesh::cell_areas(grid),
                    Eigen::ArrayXd::Constant(count, void_ratio),
                    Eigen::ArrayXd::Constant(count, 1e12), // no stabilization
                    (r < 1 / n).cast<double>(),
                    (r >= 1 / n && r < ratio / n).cast<double>()};
    PoreWater pores(domain, water, Eigen::ArrayXd::Constant(count, void_ratio));
    constexpr double duration = 1e9; // steady at once
    pores.set_step(state, duration);
    const Eigen::ArrayXd ground = state.volume_m3_m * (1 - state.finished_share);
    pores.evaluate(rate * duration * ground);
    return (ground * pores.trial_pressure_kPa()).sum() / ground.sum() / (gamma_w * rate / (2 * k));
}

} // namespace

TEST_CASE("flow through the ring to a pile as Barron 1948, equal strain") {
    const double ratio = GENERATE(1.0, s);
    const double exact = equal_strain_mean(ratio);
    const double coarse = std::abs(computed_mean(20, ratio) / exact - 1),
                 fine = std::abs(computed_mean(60, ratio) / exact - 1);
    INFO("ratio " << ratio << ", exact " << exact << ", errors " << coarse << " " << fine);
    CHECK(fine < 0.015); // 0.7 and 1.1 %: pile and ring end at whole cells
    CHECK(fine < coarse);
    CHECK(equal_strain_mean(s) > 2 * equal_strain_mean(1));
}
