// Closed cells: exact mass of solids for any soil, pressures of the round cell.

#include "support/verification.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace interpile;
using namespace interpile::test;

// bm7: derived, ODE against a one-dimensional Lagrangian solution, 8e-5.
TEST_CASE("round closed cell without heave: pressures, density, solids") {
    const auto [set, name] =
        GENERATE(table<std::string, std::string>({{"loose_contract", "closed-cell-loose-contract"},
                                                  {"medium_constvol", "closed-cell-medium-constvol"},
                                                  {"dense_dilate", "closed-cell-dense-dilate"}}));
    const Table summary("bm7_summary");
    Table::Row reference;
    for (const auto& row : summary.rows(set))
        if (summary.number(row, "a_s") == 0.1)
            reference = row;
    std::string file = "bm7_field_" + set;
    std::replace(file.begin() + 10, file.end(), '_', '-');
    const Table field(file);
    std::vector<Table::Row> rows;
    for (const auto& row : field.rows(set))
        if (field.number(row, "a_s") == 0.1)
            rows.push_back(row);

    Convergence wall, rim, density;
    for (double h : {0.05, 0.025, 0.0125}) {
        const CaseRun run = run_case(name, {{"fine_cell_m", std::to_string(h)}});
        wall.add(h, std::abs(run.history.back().wall_pressure_kPa / summary.number(reference, "p_wall") - 1));
        const auto outermost = rings(run, 0.93, 0.99, 1).front();
        rim.add(h,
                std::abs(outermost.sigma_r / field.interpolate(rows, "r", "sigma_r", outermost.radius) - 1));
        double worst = 0;
        for (const Ring& ring : rings(run, 0.45, 0.95, 5))
            worst = std::max(
                worst, std::abs(ring.void_ratio - field.interpolate(rows, "r", "void_ratio", ring.radius)));
        density.add(h, worst);
        CHECK(std::abs(solids_error(run)) < 1e-6);
        CHECK(std::abs(run.last().balance.closing_error()) < 1e-6 * run.last().balance.injected);
    }
    INFO(wall.table(name + ": wall pressure, relative error"));
    INFO(rim.table(name + ": radial stress near the rim, relative error"));
    INFO(density.table(name + ": void ratio of rings, error"));
    // 40 cells over the radius of the cell: the resolution at which the benchmark asks for 2 %. On 80 cells flow with
    // psi well below phi finds weaker, localized modes (perfectly plastic soil has no unique answer there): 4 %.
    CHECK(wall.at(0.025) < 0.02);
    CHECK(rim.at(0.025) < 0.02);
    CHECK(density.at(0.025) < 0.005);
    CHECK(wall.finest() < 0.04);
    CHECK(rim.finest() < 0.02);
    CHECK(density.finest() < 0.01);
}

// Four piles together in a closed square cell that heaves: the same identity for every soil, with the strokes of the
// works and in one growth.
TEST_CASE("closed square cell with heave keeps its solids") {
    for (const std::string name :
         {"closed-square-strokes", "closed-square-elastic", "closed-square-tresca"}) {
        const CaseRun run = run_case(name);
        std::printf("%s: solids %.1e, heave %.2f %%, mean e %.4f\n", name.c_str(), solids_error(run),
                    100 * run.last().heave_strain, run.last().mean_void_ratio);
        CHECK(std::abs(solids_error(run)) < 1e-6);
        CHECK(run.last().heave_strain > 0.01);
        CHECK(std::abs(run.last().balance.closing_error()) < 1e-6 * run.last().balance.injected);
    }
}
