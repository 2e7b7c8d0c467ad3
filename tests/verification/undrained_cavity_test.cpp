// A cavity in soil of constant strength whose pore water cannot flow: Gibson & Anderson (1961), exact for logarithmic
// strain. The skeleton is compressible; water alone makes the ground incompressible.

#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::test;

TEST_CASE("excess pore pressure around a cavity, Gibson & Anderson 1961", "[verification][water]") {
    constexpr double a = 0.2, p0 = 100; // m after doubling; kPa, total over hydrostatic
    const Table pressure("bm3_pressure"), field("bm3_field");
    std::vector<Table::Row> rows;
    for (const auto& row : field.rows("Ir100"))
        if (field.number(row, "a_over_a0") == 2)
            rows.push_back(row);
    const double at_wall = field.number(rows.front(), "du_exact");
    Convergence excess, total, effective;
    for (const double h : {0.05, 0.025}) {
        io::Case settings =
            read_case("cavity-undrained", {{"fine_cell_m", std::to_string(h)}, {"poisson_ratio", "0.3"}});
        settings.plan.water.drainage = solver::Drainage::Undrained;
        const CaseRun run = run_case(settings);
        double worst = 0, worst_total = 0, worst_mean = 0;
        for (const Ring& ring : rings(run, 1.5 * a, 6 * a, 6)) {
            const auto exact = [&](const char* column) {
                return field.interpolate(rows, "r_over_a", column, ring.radius / a);
            };
            worst = std::max(worst, std::abs(ring.excess_pressure - exact("du_exact")));
            worst_total =
                std::max(worst_total, std::abs(ring.sigma_r + ring.excess_pressure - exact("sigma_r_total")));
            const double mean = (ring.sigma_r + ring.sigma_t + ring.sigma_z) / 3;
            worst_mean = std::max(worst_mean, std::abs(mean - p0)); // no volume change, no dilatancy
        }
        excess.add(h, worst / at_wall);
        total.add(h, worst_total / (at_wall));
        effective.add(h, worst_mean / at_wall);
    }
    INFO(excess.table(
        "undrained cavity with pore water: excess pressure of rings 1.5 to 6 a, over that at the wall"));
    INFO(total.table("the same: total radial stress"));
    INFO(effective.table("the same: mean effective stress, which does not change"));
    CHECK(excess.finest() < 0.03);
    CHECK(total.finest() < 0.03);
    CHECK(effective.finest() < 0.01);
}
