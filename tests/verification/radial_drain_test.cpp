// Water flows to a drain of finished piles in the middle of a round cell: Barron (1948), free strain.

#include "mesh/grid.h"
#include "mesh/ground_area.h"
#include "solver/pore_water.h"
#include "solver/slice.h"
#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::test;

namespace {

constexpr double n = 5; // radius of the cell, 1 m, over that of the drain

/// Worst error of the degree of consolidation. Gas in the pores is the only storage, so that the flow is plain
/// diffusion, which is what free strain means.
double barron_error(int cells) {
    constexpr double k = 1e-6, void_ratio = 0.8, saturation = 0.9;
    mesh::Domain domain;
    domain.shape = mesh::DomainShape::Round;
    domain.high = {1, 1};
    domain.side.fill(mesh::BoundaryKind::Symmetry);
    const auto grid = mesh::make_grid(domain, {}, {1.0 / cells, 2, 1.2});
    solver::Water water;
    water.drainage = solver::Drainage::Coupled;
    water.permeability_m_s = k;
    water.saturation = saturation;
    water.initial_excess_kPa = 1;
    water.pile_permeability_m_s = 1; // free of pressure at once
    water.pile_leak_length_m = 0.1;
    const Eigen::Index count = grid.cell_count();
    solver::FlowState state{
        grid, mesh::cell_areas(grid), Eigen::ArrayXd::Constant(count, void_ratio),
        Eigen::ArrayXd::Constant(count, 1e12), // no stabilization
        (mesh::cell_middles(grid).colwise().norm().transpose().array() < 1 / n).cast<double>()};
    solver::PoreWater pores(domain, water, Eigen::ArrayXd::Constant(count, void_ratio));
    const double c_h = k / solver::gamma_w /
                       (void_ratio / (1 + void_ratio) * solver::water_compressibility_1_kPa(saturation, 0));
    const Eigen::ArrayXd ground = state.volume_m3_m * (1 - state.finished_share);
    const Table table("bm5b_barron_ideal");
    double worst = 0, time = 0;
    for (const auto& row : table.rows(std::to_string(static_cast<int>(n)))) {
        const double T = table.number(row, "T_h=ch*t/de^2");
        if (T < 0.01 || T > 0.5)
            continue;
        const double until = T * 4 / c_h;
        constexpr int steps = 50;
        pores.set_step(state, (until - time) / steps);
        for (int step = 0; step < steps; ++step) {
            pores.evaluate(Eigen::ArrayXd::Zero(count));
            pores.keep();
        }
        time = until;
        const double U = 1 - (ground * pores.pressure_kPa()).sum() / ground.sum();
        worst = std::max(worst, std::abs(U - table.number(row, "U_free_strain")));
    }
    return worst;
}

} // namespace

TEST_CASE("a cell drained by a pile consolidates as Barron 1948, free strain", "[verification][water]") {
    Convergence error;
    for (const int cells : {15, 30, 60})
        error.add(1.0 / cells, barron_error(cells));
    INFO(error.table("radial drain, degree of consolidation, drain of whole cells"));
    CHECK(error.finest() < 0.01);
}
