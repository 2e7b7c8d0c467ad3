// Two-surface sand in slices: one pile in a round closed cell against rings of an independent code, what the answer
// owes to steps, tolerance, floor of the mean stress and hourglass, and the balance of solids.

#include "support/csv_numbers.h"
#include "support/verification.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

using namespace interpile;
using namespace interpile::test;

namespace {

/// What is compared. Driven: means over the ends of the re-drives, not numbers without strokes; the others after the
/// last relaxation.
struct Figures {
    double density_pct = 0, K = 0, efficiency = 0, heave_pct = 0, K_driven = 0, wall_driven_kPa = 0;
};

/// Differences allowed on the finer grid.
struct Allowed {
    double rings_pct;             ///< D_r of any ring [points]
    double K;                     ///< relative
    double efficiency;            ///< absolute
    double heave_pct;             ///< of the thickness
    double K_driven, wall_driven; ///< relative
};

struct RingCase {
    std::string table;
    Changes changes;
    double fine_cell_m; ///< finer of the two grids, the other has 0.05 m
    Allowed allowed;
};

/// Mean D_r as the table has it, over all soil: the half strokes leave out cells with some pile in them.
Figures figures(const CaseRun& run) {
    const auto& last = run.half_strokes.back();
    Figures f{run.last().mean_relative_density_pct, last.lateral_stress_ratio, last.efficiency,
              100 * std::expm1(last.heave_strain)};
    int count = 0;
    for (const auto& half : run.half_strokes)
        if (half.phase == solver::Phase::Redrive) {
            f.K_driven += half.lateral_stress_ratio;
            f.wall_driven_kPa += half.wall_pressure_kPa;
            ++count;
        }
    f.K_driven /= count;
    f.wall_driven_kPa /= count;
    return f;
}

Figures figures(const Table& history) {
    const auto& last = history.rows().back();
    Figures f{history.number(last, "Dr_mean_pct"), history.number(last, "K_mean"),
              history.number(last, "efficiency"), 100 * history.number(last, "heave_strain")};
    int count = 0;
    for (const auto& row : history.rows())
        if (row.cells.front() == "stroke") {
            f.K_driven += history.number(row, "K_mean");
            f.wall_driven_kPa += history.number(row, "wall_pressure_kPa");
            ++count;
        }
    f.K_driven /= count;
    f.wall_driven_kPa /= count;
    return f;
}

/// Largest difference of D_r, rings outside the disc and the two cells over which its edge is spread.
double rings_difference(const CaseRun& run, const std::string& table) {
    const auto profile =
        csv_numbers("radial-cell/" + table + "_profile.csv"); // r, r/b, 3 stresses, e, D_r, eps_z
    double worst = 0;
    for (const Ring& ring : rings(run, 0.5, 0.97 * profile.back()[0], 5)) {
        const auto above = std::find_if(profile.begin() + 1, profile.end() - 1,
                                        [&](const auto& row) { return row[0] >= ring.radius; });
        const auto &low = *(above - 1), &high = *above;
        const double t = (ring.radius - low[0]) / (high[0] - low[0]);
        const double expected = (1 - t) * low[6] + t * high[6];
        worst =
            std::max(worst, std::abs(run.settings.slice.relative_density_pct(ring.void_ratio) - expected));
    }
    return worst;
}

void print(const std::string& name, const Figures& f, double rings_pct) {
    std::printf("%-27s %6.1f %6.1f %6.2f %7.2f %7.2f", name.c_str(), f.density_pct, rings_pct, f.K,
                f.efficiency, f.heave_pct);
    if (std::isnan(f.K_driven))
        std::printf("         -         -\n");
    else
        std::printf(" %9.2f %9.0f\n", f.K_driven, f.wall_driven_kPa);
}

void check_solids(const CaseRun& run) {
    CHECK(std::abs(solids_error(run)) < 1e-6);
    CHECK(std::abs(run.last().balance.closing_error()) < 1e-9 * run.last().balance.injected);
}

/// \param allowed  relative; nothing is compared where the table has no number
void check_ratio(double found, double expected, double allowed) {
    if (!std::isnan(expected))
        CHECK(std::abs(found / expected - 1) < allowed);
}

} // namespace

// bm13: one-dimensional ring solution of an independent code of the same soil law, good to 0.6 points of D_r; not an
// exact solution. Aim: D_r 2 points carried on to vanishing cells, the others 5 %. Where more is allowed, it is the
// measured difference and a margin. The reasons, each tried by itself:
// - Overburden. Here the whole slice carries it, the pile included; there the ground around a hole. The pile takes 150
//   to 210 kPa and leaves the ground 82 to 92 of 100 kPa: wall pressure 10 to 13 % low, D_r a little. With the balance
//   over the ground alone, on the coarse grid: D_r 24.9, 67.7 and 43.0 % for 24.9, 66.9 and 42.8 %; wall pressure of
//   every re-drive -2 to +3 %; heave within 0.2 % of the thickness.
// - Relaxation. Here it ends at 4.0 to 4.4 sigma_v0', there at 3.6 to 3.9: less K there, and K falls fast with it. Both
//   changed (a_s 0.15, wall at 369 kPa, table 357): K 2.16 for 2.05 instead of 2.5. K driven does not know it.
// - Fixed vertical: the table's withdrawals end early, at 1110 falling to 380 kPa, here all at 31.
TEST_CASE("one pile in a round cell of two-surface sand against rings") {
    const RingCase set =
        GENERATE(RingCase{"shared_as010_n0_Dr35", {{"strokes", "0"}}, 0.025, {2, 0.16, 0.02, 0.4, 0, 0}},
                 RingCase{"shared_as010_n20_Dr35", {}, 0.035, {5, 0.17, 0.04, 0.5, 0.05, 0.15}},
                 RingCase{"shared_as015_n5_Dr50",
                          {{"strokes", "5"}, {"relative_density_pct", "50"}, {"radius_m", "0.926013"}},
                          0.025,
                          {3, 0.26, 0.04, 0.6, 0.05, 0.13}},
                 RingCase{"fixed_as010_n5_Dr35",
                          {{"strokes", "5"}, {"vertical_condition", "\"fixed\""}},
                          0.035,
                          {6, 0.05, 1e-3, 1e-9, 0.05, 0.08}});
    const Figures expected = figures(Table(set.table + "_history", "radial-cell"));
    std::printf("%-27s  D_r %%  rings      K effic.  heave %%  K driven  wall kPa\n", set.table.c_str());
    print("  rings of the other code", expected, 0);

    constexpr double coarse_cell_m = 0.05;
    Figures coarse, fine;
    double difference = 0;
    for (double h : {coarse_cell_m, set.fine_cell_m}) {
        Changes changes = set.changes;
        changes.emplace_back("fine_cell_m", std::to_string(h));
        const CaseRun run = run_case("sand-round-cell", changes);
        coarse = fine;
        fine = figures(run);
        difference = rings_difference(run, set.table);
        print("  cells of " + std::to_string(h) + " m", fine, difference);
        check_solids(run);
    }
    const double vanishing = fine.density_pct + (fine.density_pct - coarse.density_pct) * set.fine_cell_m /
                                                    (coarse_cell_m - set.fine_cell_m);
    std::printf("  vanishing cells, linear  %9.1f\n", vanishing);
    CHECK(std::abs(vanishing - expected.density_pct) < 2);
    CHECK(difference < set.allowed.rings_pct);
    CHECK(std::abs(fine.K / expected.K - 1) < set.allowed.K);
    CHECK(std::abs(fine.efficiency - expected.efficiency) < set.allowed.efficiency);
    CHECK(std::abs(fine.heave_pct - expected.heave_pct) < set.allowed.heave_pct);
    check_ratio(fine.K_driven, expected.K_driven, set.allowed.K_driven);
    check_ratio(fine.wall_driven_kPa, expected.wall_driven_kPa, set.allowed.wall_driven);
}

// The same soil and the same injected area about the pile. The independent code found a square cell 2 to 5 points below
// the round one.
TEST_CASE("round cell and cell of a square pattern in two-surface sand") {
    const CaseRun round = run_case("sand-round-cell", {{"strokes", "5"}});
    const CaseRun square =
        run_case("sand-pattern-cell", {{"relative_density_pct", "35"},
                                       {"spacing_m", std::to_string(1.12509 * std::sqrt(M_PI))},
                                       {"cells_per_diameter", "14"}});
    const double a = round.last().mean_relative_density_pct, b = square.last().mean_relative_density_pct;
    std::printf("five strokes, a_s 0.10: D_r round cell %.1f, square cell %.1f\n", a, b);
    CHECK(std::abs(a - b) < 5);
    check_solids(round);
    check_solids(square);
}

TEST_CASE("two-surface sand in a slice: steps, tolerance, floor, hourglass") {
    double usual = 0;
    const auto change_of_density = [&](const char* name, const Changes& changes) {
        const CaseRun run = run_case("sand-pattern-cell", changes);
        const double density = run.last().mean_relative_density_pct;
        std::printf("sand-pattern-cell, %-24s D_r %.2f, K %.2f, %ld iterations\n", name, density,
                    run.half_strokes.back().lateral_stress_ratio, run.report.iterations);
        check_solids(run);
        return std::abs(density - usual);
    };
    usual = change_of_density("as it is", {});
    CHECK(change_of_density("twice the step", {{"radius_step", "0.004"}}) < 0.5);
    CHECK(change_of_density("half the step", {{"radius_step", "0.001"}}) < 0.5);
    CHECK(change_of_density("a tenth of the tolerance",
                            {{"tolerance", "1e-3"}, {"carry_over_tolerance", "3e-3"}}) < 0.5);
    CHECK(change_of_density("floor 0.5 kPa", {{"least_mean_stress_kPa", "0.5"}}) < 0.5);
    CHECK(change_of_density("floor 2 kPa", {{"least_mean_stress_kPa", "2"}}) < 0.5);
    CHECK(change_of_density("a third of the hourglass", {{"hourglass", "0.003"}}) < 0.5);
}
