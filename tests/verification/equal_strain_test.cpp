// A cell around a drain under equal strain: Barron (1948) with a smeared zone (Hansbo 1981) and a drain that resists.

#include "solver/slice.h"
#include "support/ring_sector.h"
#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

using namespace interpile;
using namespace interpile::test;
using std::numbers::pi;

namespace {

constexpr double e = 0.8, m_v = 1e-2; // -, 1/kPa: the water stores next to nothing beside it
constexpr double k = 1e-6;            // k_h of undisturbed ground [m/s]

/// Permeability follows the void ratio (Kozeny-Carman): the e that lowers it by a factor.
double void_ratio_of(double factor) {
    double low = 1e-2, high = e;
    for (int n = 0; n < 60; ++n) {
        const double middle = 0.5 * (low + high);
        (solver::permeability_factor(middle, e) < factor ? low : high) = middle;
    }
    return low;
}

/// Ground of one vertical strain under a constant mean stress, strain = m_v x fall of the mean pressure, in the place of
/// the skeleton: the pressure is linear in what is squeezed out, so two evaluations tell the strain of a step.
class EqualStrainCell {
public:
    EqualStrainCell(const mesh::Domain& domain, const solver::FlowState& state, const solver::Water& water)
        : state_(state), ground_(state.volume_m3_m * (1 - state.finished_share)),
          pores_(domain, water, Eigen::ArrayXd::Constant(ground_.size(), e)) {
        pores_.restore({(state.finished_share < 0.5).cast<double>(), 0, {}});
    }
    void step(double duration_s) {
        if (duration_s != pores_.duration_s())
            pores_.set_step(state_, duration_s);
        const double before = mean();
        const auto mean_after = [&](double strain) {
            pores_.evaluate(strain * ground_);
            return (ground_ * pores_.trial_pressure_kPa()).sum() / ground_.sum();
        };
        const double none = mean_after(0), slope = (mean_after(m_v) - none) / m_v;
        mean_after(m_v * (before - none) / (1 + m_v * slope)); // strain = m_v (before - after)
        pores_.keep();
    }
    double mean() const { return (ground_ * pores_.pressure_kPa()).sum() / ground_.sum(); }

private:
    const solver::FlowState& state_;
    Eigen::ArrayXd ground_;
    solver::PoreWater pores_;
};

solver::Water flowing() {
    solver::Water water;
    water.drainage = solver::Drainage::Coupled;
    water.permeability_m_s = k;
    water.open_sides = true;
    return water;
}

/// mu from the decay of the mean between T_h 0.05 and 0.1, d_e = 2 n, r_w = 1: d ln(u)/dT = -8/mu. What a step of backward
/// Euler divides the mean by is 1 + 8 dT/mu.
double mu_of(EqualStrainCell& cell, double n) {
    const double c_h = k / solver::gamma_w / m_v, d_e = 2 * n;
    constexpr int steps = 20;
    constexpr double dT = 0.05 / steps;
    double before = 1;
    for (int step = 0; step < 2 * steps; ++step) {
        if (step == steps)
            before = cell.mean();
        cell.step(dT * d_e * d_e / c_h);
    }
    return 8 * dT / (std::pow(before / cell.mean(), 1.0 / steps) - 1);
}

/// Edges of rings from r_w = 1 over the rim of the smeared zone to the rim of the cell.
std::vector<double> rings_of(double s, double n, int cells) {
    const int smeared = std::max(1, static_cast<int>(std::lround(cells * std::log(s) / std::log(n))));
    std::vector<double> radius = geometric(1, s, smeared);
    radius.pop_back();
    for (const double r : geometric(s, n, cells - smeared))
        radius.push_back(r);
    return radius;
}

double smear_error(int cells) {
    const Table table("bm5c_smear");
    double worst = 0;
    for (const auto& row : table.rows()) {
        const double n = table.number(row, "n"), s = table.number(row, "s=rs/rw"),
                     q = table.number(row, "kh_over_ks");
        if (!(n == 3 || n == 5) || s > 2 || s < 1.4)
            continue;
        const RingSector ring(rings_of(s, n, cells), std::log(n) / cells, true, false);
        solver::FlowState state = ring.state(e);
        state.void_ratio = (ring.middle_radius() < s).select(void_ratio_of(1 / q), state.void_ratio);
        EqualStrainCell cell(ring.domain, state, flowing());
        worst = std::max(worst, std::abs(mu_of(cell, n) / table.number(row, "mu_exact") - 1));
    }
    return worst;
}

/// The drain is a finished pile that leaks along its length, as the first mode of a drain of length l open at one end.
/// mu = n^2/(n^2 - 1) ln n - (3 n^2 - 1)/(4 n^2) (Barron 1948) + 2 pi (1 - 1/n^2) k l^2/(q_w M^2), M = pi/2.
/// Source: from memory of Zeng & Xie (1989), Int. J. Numer. Anal. Methods Geomech. 13; derived again, first mode.
double resistance_error(int cells, double resistance) {
    constexpr double n = 4, hole = 0.2, length = 200; // hole: the sector begins there, inside the drain
    std::vector<double> radius = geometric(hole, 1, cells);
    radius.pop_back();
    for (const double r : geometric(1, n, cells))
        radius.push_back(r);
    const RingSector ring(radius, std::log(n) / cells, false, false);
    solver::FlowState state = ring.state(e);
    state.finished_share = (ring.middle_radius() < 1).cast<double>();
    solver::Water water = flowing();
    const double section = pi * (1 - hole * hole), q_w = k * length * length / resistance;
    water.pile_permeability_m_s = q_w / section;
    water.pile_leak_length_m = length;
    EqualStrainCell cell(ring.domain, state, water);
    const double mu = n * n / (n * n - 1) * std::log(n) - (3 * n * n - 1) / (4 * n * n) +
                      2 * pi * (1 - 1 / (n * n)) * resistance / (pi * pi / 4);
    return std::abs(mu_of(cell, n) / mu - 1);
}

} // namespace

TEST_CASE("equal strain with a smeared zone, Barron 1948 and Hansbo 1981", "[verification][water]") {
    Convergence error;
    for (const int cells : {8, 16, 32})
        error.add(1.0 / cells, smear_error(cells));
    INFO(error.table("drain with smear, equal strain: mu, relative; one over the cells along the radius"));
    CHECK(error.finest() < 0.005);
    CHECK(error.order() > 1.7);
}

TEST_CASE("equal strain with a drain that resists, first mode", "[verification][water]") {
    const double resistance = GENERATE(0.05, 0.5); // k l^2/q_w
    Convergence error;
    for (const int cells : {8, 16, 32})
        error.add(1.0 / cells, resistance_error(cells, resistance));
    INFO(error.table(fmt::format("drain that resists, k l^2/q_w {}: mu, relative", resistance)));
    CHECK(error.finest() < 0.005);
}
