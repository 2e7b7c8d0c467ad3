// Cavities in plastic soil, large strain: Mohr-Coulomb after Yu & Houlsby (1991), Tresca after Gibson & Anderson (1961).
// Perfectly plastic soil has no unique stress in single cells: means over rings are compared.

#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile;
using namespace interpile::test;

namespace {

constexpr double a0 = 0.1; // m

/// Radius of the plastic zone: of a quarter circle with the area of all cells that ever yielded.
double plastic_radius(const CaseRun& run) {
    double area = 0;
    for (int cell = 0; cell < run.grid.cell_count(); ++cell)
        if (run.last().fields.at("yield_state")(cell) > 0) {
            const auto n = run.grid.cell_nodes(cell);
            const auto& x = run.last().node_m;
            const mesh::Vec2 a = x.col(n[2]) - x.col(n[0]), b = x.col(n[3]) - x.col(n[1]);
            area += 0.5 * (a.x() * b.y() - a.y() * b.x());
        }
    return std::sqrt(4 * area / std::numbers::pi);
}

} // namespace

TEST_CASE("drained Mohr-Coulomb cavity doubled in radius") {
    const auto [set, name] =
        GENERATE(table<std::string, std::string>({{"loose", "cavity-loose"},
                                                  {"medium", "cavity-medium"},
                                                  {"dense", "cavity-dense"},
                                                  {"medium_nu010", "cavity-medium-nu010"},
                                                  {"medium_K0_050", "cavity-medium-K0-050"}}));
    const Table pressure("bm2_pressure"), field("bm2_field_a2");
    const auto p_rows = pressure.rows(set);
    const auto f_rows = field.rows(set);
    Convergence p2, p12, stress, density, movement;
    for (double h : {0.05, 0.025, 0.0125}) {
        const CaseRun run = run_case(name, {{"fine_cell_m", std::to_string(h)}});
        const auto p_error = [&](double ratio) {
            const double exact = pressure.interpolate(p_rows, "a_over_a0", "p_lagr1d_extrapolated", ratio);
            return std::abs(at_radius(run, ratio * a0, wall) / exact - 1);
        };
        p2.add(h, p_error(2));
        p12.add(h, p_error(1.2));
        double worst_stress = 0, worst_density = 0, worst_movement = 0;
        for (const Ring& ring : rings(run, 1.5 * 2 * a0, 6 * 2 * a0, 6)) {
            const auto exact = [&](const char* column) {
                return field.interpolate(f_rows, "r", column, ring.radius);
            };
            worst_stress =
                std::max(worst_stress, std::abs(ring.sigma_r - exact("sigma_r")) / exact("sigma_r"));
            worst_density = std::max(worst_density, std::abs(ring.void_ratio - exact("void_ratio")));
        }
        // Narrow rings: the mean of u over a ring is not u at its mean radius.
        for (const Ring& ring : rings(run, 1.5 * 2 * a0, 6 * 2 * a0, 24)) {
            const double exact_movement =
                ring.radius - field.interpolate(f_rows, "r", "r_initial", ring.radius);
            worst_movement = std::max(worst_movement, std::abs(ring.displacement / exact_movement - 1));
        }
        stress.add(h, worst_stress);
        movement.add(h, worst_movement);
        density.add(h, worst_density);
        if (h == 0.0125) {
            // The front moves in whole cells, whose size there follows from the grading: 10 % of b.
            double b = 0;
            for (const auto& row : f_rows)
                if (row.cells.back() == "plastic")
                    b = std::max(b, field.number(row, "r"));
            CHECK(plastic_radius(run) == Approx(b).epsilon(0.1));
        }
    }
    INFO(p2.table(name + ": wall pressure at a/a0 = 2, relative error"));
    INFO(p12.table(name + ": wall pressure at a/a0 = 1.2"));
    INFO(stress.table(name + ": radial stress of rings 1.5 to 6 a, relative error"));
    INFO(movement.table(name + ": displacement of rings 1.5 to 6 a, relative error"));
    INFO(density.table(name + ": void ratio of rings 1.5 to 6 a, error"));
    CHECK(p2.finest() < 0.01);
    CHECK(p12.finest() < 0.03); // the staircase disc has not yet moved by a cell
    CHECK(stress.finest() < 0.02);
    CHECK(movement.finest() < 0.02);
    CHECK(density.finest() < 0.005);
}

TEST_CASE("drained Mohr-Coulomb cavity to four times its radius") {
    const Table pressure("bm2_pressure");
    const CaseRun run = run_case("cavity-medium-far");
    const auto rows = pressure.rows("medium");
    for (double ratio : {1.5, 2.0, 3.0, 4.0}) {
        const double exact = pressure.interpolate(rows, "a_over_a0", "p_closed_form", ratio);
        const double computed = at_radius(run, ratio * a0, wall);
        std::printf("cavity-medium-far: a/a0 %.1f  p %.1f  exact %.1f kPa\n", ratio, computed, exact);
        CHECK(computed == Approx(exact).epsilon(0.012));
    }
}

TEST_CASE("undrained Tresca cavity, other rigidity indices") {
    const Table pressure("bm3_pressure");
    for (const auto& [set, shear_modulus] : {std::pair("Ir050", "1000"), std::pair("Ir200", "4000")}) {
        const CaseRun run = run_case("cavity-undrained", {{"shear_modulus_kPa", shear_modulus}});
        for (double ratio : {1.2, 1.5, 2.0}) {
            const double exact =
                pressure.interpolate(pressure.rows(set), "a_over_a0", "p_exact_large_strain", ratio);
            const double computed = at_radius(run, ratio * a0, wall);
            std::printf("cavity-undrained, %s: a/a0 %.1f  p %.1f  exact %.1f kPa\n", set, ratio, computed,
                        exact);
            CHECK(computed - 100 == Approx(exact - 100).epsilon(0.03));
        }
    }
}

TEST_CASE("undrained Tresca cavity doubled in radius") {
    const Table pressure("bm3_pressure"), field("bm3_field");
    const auto p_rows = pressure.rows("Ir100");
    Convergence p2, excess;
    for (double h : {0.05, 0.025, 0.0125}) {
        const CaseRun run = run_case("cavity-undrained", {{"fine_cell_m", std::to_string(h)}});
        const double exact = pressure.interpolate(p_rows, "a_over_a0", "p_exact_large_strain", 2);
        p2.add(h, std::abs(at_radius(run, 2 * a0, wall) - exact) / (exact - 100));
        std::vector<Table::Row> rows;
        for (const auto& row : field.rows("Ir100"))
            if (field.number(row, "a_over_a0") == 2)
                rows.push_back(row);
        double worst = 0;
        // Without pore water in the model the rise of the mean total stress stands for the excess pore pressure.
        for (const Ring& ring : rings(run, 1.5 * 2 * a0, 6 * 2 * a0, 6)) {
            const double rise = (ring.sigma_r + ring.sigma_t + ring.sigma_z) / 3 - 100;
            const double exact_rise = field.interpolate(rows, "r_over_a", "du_exact", ring.radius / (2 * a0));
            worst = std::max(worst, std::abs(rise - exact_rise));
        }
        excess.add(h, worst / field.number(rows.front(), "du_exact"));
    }
    INFO(p2.table("undrained cavity: p - p0 at a/a0 = 2, relative error"));
    INFO(excess.table("undrained cavity: rise of mean stress of rings 1.5 to 6 a, over that at the wall"));
    CHECK(p2.finest() < 0.02);
    CHECK(excess.finest() < 0.03);
}
