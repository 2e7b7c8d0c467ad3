// Cavity in sand with Bolton's strength of the moment, large strain, against a one-dimensional Lagrangian solution.

#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::test;

namespace {

constexpr double a0 = 0.1; // m

struct Set {
    std::string name, field;
    double young_kPa, void_ratio;
};

CaseRun run_set(const Set& set, int increments) {
    return run_case("cavity-state-dependent", {{"shear_modulus_kPa", std::to_string(set.young_kPa / 2.6)},
                                               {"void_ratio", std::to_string(set.void_ratio)},
                                               {"increments_per_pile", std::to_string(increments)}});
}

} // namespace

TEST_CASE("drained cavity in state-dependent sand to four times its radius") {
    const Set set = GENERATE(Set{"loose_ID035", "bm8_field_loose-ID035", 12e3, 0.81},
                             Set{"medium_ID060", "bm8_field_medium-ID060", 25e3, 0.71},
                             Set{"dense_ID085", "bm8_field_dense-ID085", 45e3, 0.61});
    const Table pressure("bm8_pressure"), field(set.field);
    const CaseRun run = run_set(set, 40);
    const auto p_rows = pressure.rows(set.name);
    for (double ratio : {1.5, 2.0, 3.0, 4.0}) {
        const double exact = pressure.interpolate(p_rows, "a_over_a0", "p_extrapolated", ratio);
        const double computed = at_radius(run, ratio * a0, wall);
        std::printf("%s: a/a0 %.1f  p %.1f  exact %.1f kPa\n", set.name.c_str(), ratio, computed, exact);
        CHECK(computed == Approx(exact).epsilon(0.025)); // 8 cells per a0; dense sand at 1.5 a0: 2.3 %
    }
    std::vector<Table::Row> f_rows;
    for (const auto& row : field.rows(set.name))
        if (field.number(row, "a_over_a0") == 4)
            f_rows.push_back(row);
    double worst_stress = 0, worst_density = 0;
    for (const Ring& ring : rings(run, 1.5 * 4 * a0, 6 * 4 * a0, 6)) {
        const auto exact = [&](const char* column) {
            return field.interpolate(f_rows, "r", column, ring.radius);
        };
        worst_stress = std::max(worst_stress, std::abs(ring.sigma_r / exact("sigma_r") - 1));
        worst_density = std::max(worst_density, std::abs(ring.void_ratio - exact("void_ratio")));
    }
    std::printf("%s: rings 1.5 to 6 a: radial stress %.1f %%, void ratio %.4f\n", set.name.c_str(),
                100 * worst_stress, worst_density);
    CHECK(worst_stress < 0.03);
    CHECK(worst_density < 0.005);
}

// Angles are those of the last kept state: half the increments must give the same pressure. Beyond 2 a0 the flow of
// sand that softens scatters by 1 to 2 % whatever the increments.
TEST_CASE("the pressure in state-dependent sand does not depend on the increments") {
    const Set set{"medium_ID060", "", 25e3, 0.71};
    const double coarse = at_radius(run_set(set, 20), 2 * a0, wall);
    const double fine = at_radius(run_set(set, 40), 2 * a0, wall);
    std::printf("state-dependent cavity: p %.1f kPa with 20, %.1f kPa with 40 increments\n", coarse, fine);
    CHECK(coarse == Approx(fine).epsilon(0.01));
}
