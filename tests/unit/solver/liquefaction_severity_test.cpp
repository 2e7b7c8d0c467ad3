// Index, strain, settlement and the factor of lateral stress against tests/sources/liquefaction (independent
// check code, equations from memory of the sources) and exact values.

#include "solver/liquefaction/lateral_stress_factor.h"
#include "solver/liquefaction/procedure.h"
#include "solver/liquefaction/severity.h"
#include "support/liquefaction_table.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <vector>

using namespace interpile::solver;
using namespace interpile::test;
using Catch::Matchers::Contains;

TEST_CASE("strain after liquefaction to the digits of the table", "[liquefaction]") {
    for_rows("strain", 63, [](const Row& row) {
        const auto strain = liquefaction_strain(row["N1_60cs"], row["FS"]);
        row.check("gam_lim", strain.limiting_shear);
        row.check("F_alpha", strain.f_alpha);
        row.check("gam_max", strain.largest_shear);
        row.check("eps_v", strain.volumetric);
    });
}

TEST_CASE("strain after liquefaction of the cases of boulanger-idriss-2014", "[liquefaction]") {
    for_rows("cases_bi2014", 33, [](const Row& row) {
        const auto safety =
            safety_against_liquefaction(Procedure::BoulangerIdriss2014, point_of(row), shaking_of(row));
        const auto strain = liquefaction_strain(safety.intermediate("N1_60cs"), safety.value);
        row.check("gam_lim", strain.limiting_shear);
        row.check("F_alpha", strain.f_alpha);
        row.check("gam_max", strain.largest_shear);
        row.check("eps_v", strain.volumetric);
    });
}

TEST_CASE("index and settlement of the profile, slab by slab", "[liquefaction]") {
    const CsvTable cases("liquefaction/cases_bi2014.csv"); // ids 1 to 8 are its first rows
    std::vector<JudgedSlab> by_bridge, by_idriss;
    for_rows("profile_lpi_settlement", 8, [&](const Row& row) {
        const Row input{cases, row.row};
        REQUIRE(input["id"] == row["id"]);
        const BlowCountPoint point = point_of(input);
        Earthquake quake = shaking_of(input);
        quake.design_coefficient_khg = 0.2;
        const auto bridge = safety_against_liquefaction(Procedure::HighwayBridge2012, point, quake);
        const auto idriss = safety_against_liquefaction(Procedure::BoulangerIdriss2014, point, quake);
        row.check("FL_jra02_khg0.20_I", bridge.value);
        row.check("FS_bi14", idriss.value);

        by_bridge.push_back({row["top_m"], row["bottom_m"], bridge.value, 0});
        by_idriss.push_back({row["top_m"], row["bottom_m"], idriss.value, idriss.intermediate("N1_60cs")});
        row.check("int_w", index_weight_m(row["top_m"], row["bottom_m"]));
        row.check("dLPI", liquefaction_potential_index(std::span(by_bridge).last(1)));
        row.check("LPI_cum", liquefaction_potential_index(by_bridge));
        row.check("eps_v",
                  liquefaction_strain(by_idriss.back().clean_sand_blow_count, idriss.value).volumetric);
        row.check("dS_mm", 1000 * liquefaction_settlement_m(std::span(by_idriss).last(1)));
        row.check("S_cum_mm", 1000 * liquefaction_settlement_m(by_idriss));
    });
}

// The integral of w over 0 .. 20 m is 100, whatever the slabs.
TEST_CASE("half safety everywhere gives an index of 50", "[liquefaction]") {
    std::vector<JudgedSlab> slabs;
    for (double top_m : {0.0, 0.7, 3.1, 9.9, 14.0, 25.0})
        slabs.push_back({top_m, 0, 0.5, 0});
    for (std::size_t i = 0; i < slabs.size(); ++i)
        slabs[i].bottom_m = i + 1 < slabs.size() ? slabs[i + 1].top_m : 40;
    CHECK(liquefaction_potential_index(slabs) == Approx(50).epsilon(1e-12));
    for (auto& slab : slabs)
        slab.safety_factor = std::numeric_limits<double>::infinity();
    CHECK(liquefaction_potential_index(slabs) == 0);
    CHECK(liquefaction_settlement_m(slabs) == 0);
}

TEST_CASE("classes of the index", "[liquefaction]") {
    CHECK(severity_name(severity_class(0)) == std::string("very low"));
    CHECK(severity_class(1e-6) == Severity::Low);
    CHECK(severity_class(5) == Severity::Low);
    CHECK(severity_class(5.01) == Severity::High);
    CHECK(severity_class(15) == Severity::High);
    CHECK(severity_class(15.01) == Severity::VeryHigh);
    CHECK_THROWS_WITH(severity_class(-1), Contains("liquefaction_potential_index"));
}

TEST_CASE("a refused safety factor does not pass as safe", "[liquefaction]") {
    const std::vector<JudgedSlab> refused{{1, 2, SafetyFactor::none, 10}};
    CHECK_THROWS_WITH(liquefaction_potential_index(refused), Contains("safety_factor"));
    CHECK_THROWS_WITH(liquefaction_settlement_m(refused), Contains("safety_factor"));
    const std::vector<JudgedSlab> overlapping{{1, 3, 0.5, 10}, {2, 4, 0.5, 10}};
    CHECK_THROWS_WITH(liquefaction_potential_index(overlapping), Contains("overlap"));
    CHECK_THROWS_WITH(liquefaction_settlement_m(overlapping), Contains("overlap"));
    CHECK_THROWS_WITH(index_weight_m(3, 3), Contains("bottom_m - top_m"));
}

// Tokimatsu & Seed (1987), anchors of the chart from memory: about 3, 2 and 1 % at N1 7, 12 and 20 when
// strongly liquefied. Other data: ours is 1.5 to 2.3 times larger. The order of magnitude, within 3, is all
// that is checked.
TEST_CASE("strain after liquefaction is of the size of Tokimatsu & Seed 1987", "[liquefaction]") {
    for (const auto& [n, strain] : {std::pair{7.0, 0.03}, {12.0, 0.02}, {20.0, 0.01}}) {
        const double ours = liquefaction_strain(n, 0.6).volumetric;
        INFO("N1 " << n << ": " << ours);
        CHECK(ours > strain / 3);
        CHECK(ours < strain * 3);
    }
}

TEST_CASE("factor of lateral stress to the digits of the table", "[liquefaction]") {
    for_rows("k_factor", 10, [](const Row& row) {
        row.check("CRR_factor", resistance_factor(row["K"], row["K0"]));
        row.check("N1_factor_mean_stress", blow_count_factor(row["K"], row["K0"]));
        row.check("net_if_N_measured", net_resistance_factor(15, row["K"], row["K0"]));
    });
    CHECK_THROWS_WITH(resistance_factor(-0.1, 0.5), Contains("lateral_ratio"));
    CHECK_THROWS_WITH(net_resistance_factor(-1, 1, 0.5), Contains("clean_sand_blow_count"));
}
