// Ground consolidates around a rigid, impermeable pile made undrained: Randolph & Wroth (1979). The grid is fitted to the
// wall and the pile is stiff: no staircase, and next to no flow by the jump stabilization through its wall.

#include "mesh/ground_area.h"
#include "support/consolidation.h"
#include "support/disc_grid.h"
#include "support/radial_decay.h"
#include "support/ring_sector.h"
#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

using namespace interpile;
using namespace interpile::test;
using Wall = RadialDecay::Wall;

namespace {

/// Elastic ground and a much stiffer pile.
class PileInGround final : public solver::SoilModel {
public:
    PileInGround(const ElasticGround& ground, std::vector<bool> pile)
        : ground_(ground.G, ground.nu), stiff_(1000 * ground.G, ground.nu), pile_(std::move(pile)) {}
    std::string name() const override { return "pile in elastic ground"; }
    void update(const solver::Motion& motion, const solver::SoilState& start, solver::SoilState& end,
                Eigen::Index first, Eigen::Index count) const override {
        for (Eigen::Index cell = first; cell < first + count; ++cell)
            law(cell).update(motion, start, end, cell, 1);
    }
    solver::ElasticModuli moduli(const solver::SoilState& state, Eigen::Index cell) const override {
        return law(cell).moduli(state, cell);
    }
    bool densifies_by_cycles() const override { return false; }
    std::string refuse_at_rest(double, double) const override { return {}; }

private:
    const solver::Elastic& law(Eigen::Index cell) const {
        return pile_[static_cast<std::size_t>(cell)] ? stiff_ : ground_;
    }
    solver::Elastic ground_, stiff_;
    std::vector<bool> pile_;
};

// Set soft_I of table bm11, lengths over r0; loads are small, so that large strains do not show.
constexpr double R = 10, rim = 100, u0 = 0.01, p0 = 2 * u0;

double start_pressure(double r) {
    return r < R ? u0 * std::log(R / std::max(r, 1.0)) / std::log(R) : 0;
}

/// int u r dr from the wall to r at the start
double start_content(double r) {
    const double to = std::min(r, R);
    return (start_pressure(to) * to * to - u0) / 2 + u0 / std::log(R) * (to * to - 1) / 4;
}

struct PileError {
    double pressure = 0, radial = 0; ///< of u and sigma_r' over u0, means over rings from the wall to 2 R
};

/// \param size  dr/r
PileError pile_error(double size) {
    const ElasticGround soil{.G = 100, .nu = 0.3, .load = 0, .vertical_stress_kPa = p0, .K0 = 1};
    using enum mesh::BoundaryKind;
    mesh::Domain domain;
    domain.shape = mesh::DomainShape::Round;
    domain.high = {rim, rim};
    domain.side = {Symmetry, ConstantStress, Symmetry, ConstantStress};
    const int pile_cells = static_cast<int>(std::lround(0.5 / size));
    const auto grid =
        disc_grid(geometric(1, rim, static_cast<int>(std::lround(std::log(rim) / size))), pile_cells);
    const auto ring_of = [&](int cell) {
        return std::max(cell % grid.cells_x, cell / grid.cells_x) - pile_cells;
    };
    std::vector<bool> pile;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        pile.push_back(ring_of(cell) < 0);
    solver::Water water = soil.water();
    water.pile_permeability_m_s = 1e-9 * water.permeability_m_s;
    Consolidation ground(std::make_unique<PileInGround>(soil, pile), soil.slice(), domain, grid, water, 1e-7);

    // Elastic ground: only changes of stress count, so the total stress is even at first, in balance to the last digit.
    solver::KeptSlice start = ground.momentum.kept();
    const Eigen::Matrix2Xd middle = mesh::cell_middles(grid);
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const bool inside = ring_of(cell) < 0;
        start.finished_share(cell) = inside ? 1 : 0;
        start.water.pressure_kPa(cell) = inside ? u0 : start_pressure(middle.col(cell).norm());
        start.soil.stress.row(cell).head(3).array() -= start.water.pressure_kPa(cell);
    }
    ground.momentum.restore(start);

    const RadialDecay exact({1, R, rim}, {u0, 0, 0}, Wall::Closed, Wall::Open, 12);
    const double stiffness = 2 * soil.G / soil.constrained();
    PileError error;
    double past = 0;
    for (const double T : {0.1, 0.3, 1.0, 3.0, 10.0, 30.0}) {
        constexpr int steps = 15;
        for (int n = 0; n < steps; ++n)
            ground.step((T - past) / soil.c_v() / steps);
        past = T;
        const auto rings = static_cast<std::size_t>(grid.cells_x - pile_cells);
        std::vector<double> u(rings), change(rings), radius(rings), count(rings);
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            if (ring_of(cell) < 0)
                continue;
            const auto ring = static_cast<std::size_t>(ring_of(cell));
            const double r = middle.col(cell).norm();
            const double cos = middle(0, cell) / r, sin = middle(1, cell) / r;
            const auto& now = ground.momentum.soil_state().stress;
            const auto moved = [&](int part) { return now(cell, part) - start.soil.stress(cell, part); };
            u[ring] += ground.pressure()(cell);
            change[ring] += moved(0) * cos * cos + moved(1) * sin * sin + 2 * moved(3) * sin * cos;
            radius[ring] += r;
            ++count[ring];
        }
        for (std::size_t ring = 0; ring < rings; ++ring) {
            const double r = radius[ring] / count[ring];
            if (r > 2 * R)
                break;
            const double expected = exact(r, T);
            const double rise =
                start_pressure(r) - expected + stiffness * (exact.content(r, T) - start_content(r)) / (r * r);
            error.pressure = std::max(error.pressure, std::abs(u[ring] / count[ring] - expected) / u0);
            error.radial = std::max(error.radial, std::abs(change[ring] / count[ring] - rise) / u0);
        }
    }
    return error;
}

} // namespace

TEST_CASE("ground around a rigid closed pile consolidates as Randolph & Wroth 1979",
          "[verification][water]") {
    Convergence pressure, radial;
    for (const double size : {0.2, 0.1}) {
        const PileError error = pile_error(size);
        pressure.add(size, error.pressure);
        radial.add(size, error.radial);
    }
    INFO(pressure.table("rigid closed pile, fitted grid, T 0.1 to 30: u over u0, cells over r0"));
    INFO(radial.table("the same, sigma_r' over u0"));
    CHECK(pressure.finest() < 0.01);
    CHECK(radial.finest() < 0.02);
}
