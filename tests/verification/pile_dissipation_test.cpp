// The pressure that an undrained pile leaves behind dissipates, the ground consolidates: Randolph & Wroth (1979).

#include "mesh/disc_fraction.h"
#include "mesh/ground_area.h"
#include "solver/pile_driver.h"
#include "solver/soil_parameters.h"
#include "support/consolidation.h"
#include "support/radial_decay.h"
#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace interpile;
using namespace interpile::test;
using Wall = RadialDecay::Wall;

namespace {

// Set soft_I of table bm11, stresses times 1e-3 so that large strains do not show; excess over hydrostatic.
constexpr double scale = 1e-3;
constexpr double r0 = 0.35, s_u = 20 * scale, p0 = 80 * scale; // m, kPa
const double R = r0 * 10, u0 = s_u * std::log(100.0);          // plastic radius, u at the wall
const ElasticGround soil{.G = 2000, .nu = 0.3, .vertical_stress_kPa = p0, .permeability_m_s = 1e-9, .K0 = 1};

double start_pressure(double r) {
    return r < R ? u0 * std::log(R / std::max(r, r0)) / std::log(R / r0) : 0;
}

struct PileError {
    double pressure = 0, radial = 0; ///< of u and sigma_r', over u0
    double near_wall = 0;            ///< of u within 2 r0, closed pile only; the others then beyond
};

enum class Pile { LetsThrough, Closed };

/// The pile is a disc of ground: as permeable as the rest, or nearly closed. The water of a closed one keeps its volume;
/// where all movement is radial that makes it as stiff against the ground around it as the rigid pile of the table.
PileError pile_error(Pile pile, int cells_per_radius) {
    constexpr double rim = 100 * r0;
    using enum mesh::BoundaryKind;
    mesh::Domain domain;
    domain.shape = mesh::DomainShape::Round;
    domain.high = {rim, rim};
    domain.side = {Symmetry, ConstantStress, Symmetry, ConstantStress};
    const auto grid =
        mesh::make_grid(domain, {{0, 0}}, {r0 / cells_per_radius, 1.6 * r0, 1 + 0.6 / cells_per_radius});
    solver::Water water = soil.water();
    water.initial_excess_kPa = 0;
    const bool closed = pile == Pile::Closed;
    if (closed)
        water.pile_permeability_m_s = 1e-6 * soil.permeability_m_s;
    Consolidation ground(soil, domain, grid, water, 1e-7);
    const Eigen::Matrix2Xd middle = mesh::cell_middles(grid);
    const Eigen::ArrayXd r = middle.colwise().norm().transpose().array();
    Eigen::ArrayXd share(r.size());
    solver::KeptSlice start = ground.momentum.kept();
    // Elastic ground: only changes of stress count, so the total stress is even at first, in balance to the last digit,
    // in the place of that around a cavity.
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const auto corners = grid.corners(cell);
        share(cell) =
            mesh::disc_area_in_quadrilateral({0, 0}, r0, corners) / mesh::quadrilateral_area(corners);
        start.soil.stress.row(cell).head(3).array() -= start_pressure(r(cell));
        start.water.pressure_kPa(cell) = start_pressure(r(cell));
    }
    start.finished_share = share;
    ground.momentum.restore(start);

    const RadialDecay exact =
        closed ? RadialDecay({r0, R, rim}, {u0, 0, 0}, Wall::Closed, Wall::Open, 12 / r0)
               : RadialDecay({0, r0, R, rim}, {u0, u0, 0, 0}, Wall::None, Wall::Open, 12 / r0);
    const double c_h = soil.c_v(), M = soil.constrained();
    const auto start_content = [&](double at) { // int u r dr up to there
        const double to = std::min(at, R), slope = -u0 / std::log(R / r0);
        return (start_pressure(to) * to * to - (closed ? u0 * r0 * r0 : 0)) / 2 -
               slope * (to * to - r0 * r0) / 4;
    };
    PileError error;
    for (int step = 0; step < 10; ++step)
        ground.step(1e3);
    for (const double t : {1e4, 1e5, 1e6}) {
        ground.go_to(t, 0.05);
        const auto& stress = ground.momentum.soil_state().stress;
        for (int cell = 0; cell < r.size(); ++cell) {
            const double at = r(cell), size = std::sqrt(ground.momentum.cell_area(cell));
            const int i = cell % grid.cells_x, j = cell / grid.cells_x;
            if (at < r0 + size || at > 2 * R) // staircase wall: from the next cell on
                continue;
            if (i != j && j > 0) // along a side and the diagonal
                continue;
            const double u = exact(at, c_h * t), fall = start_pressure(at) - u;
            const double moved = (exact.content(at, c_h * t) - start_content(at)) / (at * M); // outward xi
            const double radial = p0 - start_pressure(at) + fall + 2 * soil.G * moved / at;
            const double cos = middle(0, cell) / at, sin = middle(1, cell) / at;
            const double computed =
                stress(cell, 0) * cos * cos + stress(cell, 1) * sin * sin + 2 * stress(cell, 3) * sin * cos;
            double& worst = closed && at < 2 * r0 ? error.near_wall : error.pressure;
            worst = std::max(worst, std::abs(ground.pressure()(cell) - u) / u0);
            if (closed && at < 2 * r0)
                continue;
            error.radial = std::max(error.radial, std::abs(computed - radial) / u0);
        }
    }
    fmt::print("{} pile, {} cells per radius: u {:.4f}, sigma_r' {:.4f} of u0{}\n",
               closed ? "closed" : "open", cells_per_radius, error.pressure, error.radial,
               closed ? fmt::format(", u within 2 r0 {:.4f}", error.near_wall) : "");
    return error;
}

} // namespace

TEST_CASE("ground around an undrained pile consolidates as Randolph & Wroth 1979", "[verification][water]") {
    Convergence pressure, radial;
    for (const int cells : {2, 4}) {
        const PileError error = pile_error(Pile::LetsThrough, cells);
        pressure.add(r0 / cells, error.pressure);
        radial.add(r0 / cells, error.radial);
    }
    INFO(pressure.table("pile, u over u0, t 1e4 to 1e6 s"));
    INFO(radial.table("pile, sigma_r' over u0"));
    CHECK(pressure.finest() < 0.01);
    CHECK(radial.finest() < 0.02);

    // Falls short of the 0.01 and 0.02 of the open pile: its wall is a staircase, and the jump stabilization lets some water
    // through it (with 6 cells per radius and beta 0.25, 0.05: 0.024, 0.019 of u0 within 2 r0; 0.012, 0.008 beyond).
    const PileError closed = pile_error(Pile::Closed, 4);
    CHECK(closed.pressure < 0.02);
    CHECK(closed.radial < 0.03);
    CHECK(closed.near_wall < 0.03);
}

TEST_CASE("the exact field around an undrained pile is the reference table", "[verification][water]") {
    const RadialDecay exact({r0, R, 100 * r0}, {u0, 0, 0}, Wall::Closed, Wall::Open, 15 / r0);
    const double c_h = soil.permeability_m_s / solver::gamma_w * soil.constrained(); // rigid water
    const Table table("bm11_field_soft-I");
    int compared = 0;
    for (const auto& row : table.rows())
        if (const double t = table.number(row, "t"); t >= 2e4) {
            REQUIRE(exact(r0 * table.number(row, "r_over_r0"), c_h * t) / u0 ==
                    Approx(table.number(row, "excess_over_u0")).margin(1e-5));
            ++compared;
        }
    CHECK(compared > 20);
}

namespace {

/// Pressure by radius, means over rings of cells from the middle outward.
struct Profile {
    std::vector<double> radius, pressure;
};

Profile profile(const solver::Momentum& momentum) {
    const mesh::Grid& moved = momentum.current();
    const Eigen::ArrayXd area = mesh::cell_areas(moved), r = mesh::cell_middles(moved).colwise().norm();
    const Eigen::ArrayXd& u = momentum.pore_water().pressure_kPa();
    constexpr double first = 0.08, ratio = 1.22;
    std::vector<double> sum(40), weight(40), place(40);
    for (int cell = 0; cell < r.size(); ++cell) {
        const int ring =
            r(cell) < first ? 0 : 1 + static_cast<int>(std::log(r(cell) / first) / std::log(ratio));
        if (ring >= 40)
            continue;
        const auto at = static_cast<std::size_t>(ring);
        sum[at] += area(cell) * u(cell);
        place[at] += area(cell) * r(cell);
        weight[at] += area(cell);
    }
    Profile result;
    for (std::size_t ring = 0; ring < 40; ++ring)
        if (weight[ring] > 0) {
            result.radius.push_back(place[ring] / weight[ring]);
            result.pressure.push_back(sum[ring] / weight[ring]);
        }
    return result;
}

} // namespace

TEST_CASE("the computed pressure around a pile decays in the rest after it", "[verification][water]") {
    constexpr double a = 0.2; // m, after doubling
    io::Case settings = read_case("cavity-undrained", {{"fine_cell_m", "0.05"},
                                                       {"fine_margin_m", "0.5"},
                                                       {"growth_ratio", "1.2"},
                                                       {"poisson_ratio", "0.3"}});
    settings.domain.high = {30, 30};
    const mesh::Grid grid = mesh::make_grid(settings.domain, {{0, 0}}, settings.grid);
    solver::InstallationPlan plan = settings.plan;
    const auto driver = [&](solver::Momentum& momentum, solver::Equilibrium& equilibrium) {
        return solver::PileDriver(
            momentum, equilibrium, plan, [](const solver::IncrementRecord&) { return false; },
            [](int, solver::Phase) {}, [](const solver::WorkDone&) {});
    };
    const auto tresca = solver::make_soil_model(settings.soil);
    solver::Water water;
    water.drainage = solver::Drainage::Undrained;
    solver::Momentum driven(grid, settings.domain, settings.slice, *tresca, water);
    solver::Equilibrium driving(driven, plan.steps);
    solver::PileDisc disc = solver::seed_disc(grid, settings.domain, 0, {0, 0}, plan.strokes.seed_radius_m);
    driven.set_active({&disc});
    REQUIRE(driver(driven, driving).drive({&disc}, {driven.disc_area(disc)}));

    // The exact solution knows elastic ground and small strains: stresses of the driven slice, times 1e-3, in such ground.
    constexpr double scale = 1e-3;
    const ElasticGround ground{.G = 2000, .nu = 0.3, .permeability_m_s = 1e-9};
    solver::KeptSlice start = driven.kept();
    const solver::Elastic elastic(ground.G, ground.nu);
    start.soil.stress *= scale;
    start.soil.history.resize(grid.cell_count(), elastic.history_size());
    start.water.pressure_kPa *= scale;
    solver::Slice slice = settings.slice;
    slice.vertical_stress_kPa *= scale;
    water = ground.water();
    water.initial_excess_kPa = 0;
    solver::Momentum rested(grid, settings.domain, slice, elastic, water);
    rested.restore(start);
    plan.steps.tolerance = plan.steps.carry_over_tolerance = 1e-5;
    solver::Equilibrium resting(rested, plan.steps);

    Profile before = profile(rested);
    before.radius.insert(before.radius.begin(), 0);
    before.pressure.insert(before.pressure.begin(), before.pressure.front());
    before.radius.push_back(60 * a);
    before.pressure.push_back(0);
    const RadialDecay exact(before.radius, before.pressure, Wall::None, Wall::Open, 8 / a);
    const double peak = before.pressure.front();
    double past = 0;
    for (const double T : {1.0, 10.0}) { // c_h t/a^2
        const double duration = (T - past) * a * a / ground.c_v();
        plan.schedule.largest_step_s = duration / 50;
        REQUIRE(driver(rested, resting).rest(duration, 0));
        past = T;
        const Profile now = profile(rested);
        double worst = 0, highest = 0, exact_highest = 0;
        for (std::size_t n = 0; n < now.radius.size() && now.radius[n] < 20 * a; ++n) {
            const double u = exact(now.radius[n], T * a * a);
            worst = std::max(worst, std::abs(now.pressure[n] - u));
            highest = std::max(highest, now.pressure[n]);
            exact_highest = std::max(exact_highest, u);
        }
        fmt::print("rest T {}: highest {:.4f} of the start, exact {:.4f}; worst ring {:.4f}\n", T,
                   highest / peak, exact_highest / peak, worst / peak);
        CHECK(worst < 0.02 * peak);
    }
}
