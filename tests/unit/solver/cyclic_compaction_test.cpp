// Compaction by cycles against recurrences computed elsewhere (tests/sources/bolton-sand), after Byrne (1991) from memory.

#include "solver/soil_models/cyclic_compaction.h"
#include "support/csv_numbers.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile::solver;

namespace {

constexpr double e_max = 0.977, e_min = 0.597;

double void_ratio_at(double relative_density_pct) {
    return e_max - relative_density_pct / 100 * (e_max - e_min);
}

/// A cell that was sheared by gamma in plan in one direction and then back, in steps, as in a simple shear test.
class Cell {
public:
    Cell(double relative_density_pct, double threshold = 0)
        : law(1, threshold, e_max, e_min), e(void_ratio_at(relative_density_pct)) {
        memory.C1 = law.constant(e);
    }

    /// Shear to gamma, keeping each of the steps; the void ratio follows the compaction.
    void shear_to(double gamma, int steps = 10) {
        const double step = (gamma - at) / steps;
        for (int k = 0; k < steps; ++k)
            e = (1 + e) * std::exp(-law.advance(memory, {0, 0, step / 2}, e)) - 1;
        at = gamma;
    }

    /// The range of -gamma .. gamma was passed before, and nothing compacted meanwhile.
    void set_range(double gamma) {
        memory = {};
        memory.radius = gamma;
        memory.from_center = {0, 0, gamma / 2};
        memory.furthest = 2 * gamma;
        memory.since_reversal = {0, 0, gamma};
        memory.C1 = law.constant(e);
        at = gamma;
    }

    CyclicCompaction law;
    ShearMemory memory;
    double e, at = 0;
};

} // namespace

// Two half cycles per cycle; the table holds per cent. C1 stays that of the density at the start: the exponent knows
// of the compaction since.
TEST_CASE("cycles of constant amplitude compact as tabulated") {
    for (const auto& row : interpile::test::csv_numbers("bolton-sand/cycles.csv")) {
        const double gamma = row[1] / 100;
        Cell cell(row[0]);
        CHECK(cell.memory.C1 == Approx(row[2]).epsilon(1e-5));
        cell.set_range(gamma);
        const int cycles[] = {1, 5, 10, 15, 30};
        int done = 0;
        for (int k = 0; k < 5; ++k) {
            for (; done < cycles[k]; ++done) {
                cell.shear_to(-gamma);
                cell.shear_to(gamma);
            }
            INFO("D_r " << row[0] << ", gamma " << row[1] << " %, cycle " << done);
            CHECK(100 * cell.memory.compaction == Approx(row[4 + k]).epsilon(1e-5)); // table: six digits
            CHECK(cell.e == Approx((1 + void_ratio_at(row[0])) * std::exp(-cell.memory.compaction) - 1));
        }
    }
}

TEST_CASE("irregular half cycles compact as tabulated") {
    for (double density : {45.0, 60.0, 80.0}) {
        Cell cell(density);
        cell.memory.radius = 0.02; // wider than all of them; the cell is in the middle
        double direction = -1;
        for (const auto& row : interpile::test::csv_numbers("bolton-sand/irregular_cycles.csv")) {
            if (row[0] != density)
                continue;
            cell.shear_to(cell.at + direction * 2 * row[2] / 100);
            direction = -direction;
            CHECK(100 * cell.memory.compaction == Approx(row[3]).epsilon(1e-6)); // seven digits
        }
    }
}

TEST_CASE("compaction does not depend on the steps") {
    const auto after = [](int steps) {
        Cell cell(40, 5e-5);
        for (double gamma : {0.01, -0.004, 0.008, 0.013, 0.002, 0.02, -0.02, 0.02})
            cell.shear_to(gamma, steps);
        return cell.memory.compaction;
    };
    const double fine = after(200);
    CHECK(fine > 1e-3);
    CHECK(after(1) == Approx(fine).epsilon(1e-9));
    CHECK(after(7) == Approx(fine).epsilon(1e-9));
}

// Only strain inside the earlier range counts: from 1 % back to 0, half of an amplitude of 0.5 %.
TEST_CASE("first shearing does not compact") {
    Cell cell(40);
    const double C1 = cell.memory.C1;
    cell.shear_to(0.01);
    CHECK(cell.memory.compaction == 0);
    cell.shear_to(-0.03, 13);
    CHECK(cell.memory.compaction == Approx(0.5 * 0.005 * C1).epsilon(1e-12));
    CHECK(cell.memory.radius == Approx(0.02).epsilon(1e-12));
}

TEST_CASE("small cycles and the noise of a solver do not compact") {
    Cell cell(40, 5e-5);
    cell.set_range(0.01);
    for (int k = 0; k < 50; ++k)
        cell.shear_to(0.01 - (k % 2 ? 0 : 9e-5)); // amplitude 4.5e-5
    CHECK(cell.memory.compaction == 0);

    // A half cycle with steps back of half the threshold on its way is one half cycle.
    Cell plain(40, 5e-5), noisy(40, 5e-5);
    plain.set_range(0.01);
    noisy.set_range(0.01);
    for (double gamma : {-0.01, 0.01}) {
        plain.shear_to(gamma);
        for (double at : {0.006, 0.002, -0.004}) {
            noisy.shear_to(gamma > 0 ? -at : at);
            noisy.shear_to(noisy.at + (gamma > 0 ? -2.5e-5 : 2.5e-5));
        }
        noisy.shear_to(gamma);
    }
    CHECK(noisy.memory.compaction == Approx(plain.memory.compaction).epsilon(1e-12));
}

TEST_CASE("dilation makes the sand compactable again, to its first state at most") {
    Cell cell(40);
    cell.set_range(0.01);
    cell.shear_to(-0.01);
    const double kept = cell.memory.compaction;
    CyclicCompaction::loosen(cell.memory, 0.01); // contraction
    CHECK(cell.memory.compaction == kept);
    CyclicCompaction::loosen(cell.memory, -0.25 * kept);
    CHECK(cell.memory.compaction == Approx(0.75 * kept));
    CyclicCompaction::loosen(cell.memory, -1);
    CHECK(cell.memory.compaction == 0);
}
