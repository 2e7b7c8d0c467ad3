// Where a boring would liquefy: the procedures called one by one, the index as a sum by hand, a profile computed outside.

#include "site_boring.h"
#include "solver/liquefaction/boulanger_idriss_2014.h"
#include "solver/liquefaction/severity.h"
#include "solver/site/liquefaction_need.h"
#include "support/csv_table.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace interpile::solver;

namespace {

const Earthquake quake{0.2, 7, 0.2, false};

constexpr std::size_t index_of(Procedure procedure) {
    return static_cast<std::size_t>(procedure);
}

/// The sample at 4 m of loose_boring(): unit weights 18 to 3 m and 18.5 below, water at 2 m, in the earthquake at 1 m.
BlowCountPoint point_at_four_meters() {
    BlowCountPoint point;
    point.depth_m = 4;
    point.blow_count = 7;
    point.energy_ratio_pct = 78;
    point.fines_pct = 20;
    point.total_stress_kPa = point.total_stress_quake_kPa = 3 * 18 + 1 * 18.5;
    point.effective_stress_kPa = point.total_stress_kPa - 2 * 9.81;
    point.effective_stress_quake_kPa = point.total_stress_kPa - 3 * 9.81;
    return point;
}

} // namespace

TEST_CASE("every procedure on a boring is the procedure on a point made by hand", "[site]") {
    const auto safety = boring_safety(loose_boring(), quake);
    REQUIRE(safety.samples.size() == 6);
    const SampleSafety& sample = safety.samples[2];
    REQUIRE(sample.factors.size() == procedure_table().size());
    for (const auto& info : procedure_table()) {
        INFO(info.name);
        const auto one = safety_against_liquefaction(info.procedure, point_at_four_meters(), quake);
        const auto& all = sample.factors[index_of(info.procedure)];
        REQUIRE(std::isfinite(one.value));
        CHECK(all.value == Approx(one.value).epsilon(1e-12));
        CHECK(all.demand == Approx(one.demand).epsilon(1e-12));
        CHECK(all.refused.empty());
    }
}

TEST_CASE("clay and ground above the water of the earthquake are not judged", "[site]") {
    const auto safety = boring_safety(loose_boring(), quake);
    for (const std::size_t i : {0u, 3u}) { // at 0.5 m and the clay
        CHECK_FALSE(safety.samples[i].judged);
        CHECK(safety.samples[i].factors.empty());
    }
    for (const std::size_t i : {1u, 2u, 4u, 5u})
        CHECK(safety.samples[i].judged);
    Boring flooded = loose_boring();
    flooded.quake_water_depth_m = -1;
    CHECK(boring_safety(flooded, quake).samples[0].judged);
    CHECK_FALSE(boring_safety(flooded, quake).samples[3].judged);
}

TEST_CASE("a procedure whose number of the earthquake is missing is refused", "[site]") {
    const Earthquake shaken{0.2, 7, 0, false}, coefficient{0, 7, 0.2, false};
    for (const auto& info : procedure_table()) {
        const bool bridge = info.name.starts_with("highway-bridge");
        INFO(info.name);
        CHECK(missing_for(info.procedure, quake).empty());
        CHECK(missing_for(info.procedure, shaken) == (bridge ? "design_coefficient_khg" : ""));
        CHECK(missing_for(info.procedure, coefficient) == (bridge ? "" : "peak_acceleration_g"));
        const auto safety = boring_safety(loose_boring(), shaken);
        const auto& factor = safety.samples[1].factors[index_of(info.procedure)];
        const auto& severity = safety.severity[index_of(info.procedure)];
        CHECK(factor.refused == (bridge ? "design_coefficient_khg is not given" : ""));
        CHECK(std::isnan(factor.value) == bridge);
        CHECK(severity.potential_index.has_value() == !bridge);
        CHECK(severity.settlement_m.has_value() == !bridge);
        CHECK(severity.reaches_to_m == 11); // as far below 10 m as the interval begins above
    }
}

// P_L = sum of (1 - F_L) times the integral of 10 - z/2 over each interval: Iwasaki et al. (1978), from memory.
TEST_CASE("index of a boring is the sum over the judged intervals below water", "[site]") {
    const auto safety = boring_safety(loose_boring(), quake);
    const double top[] = {0, 1.25, 3, 0, 7, 9}, bottom[] = {0, 3, 5, 0, 9, 11};
    for (const auto& info : procedure_table()) {
        double index = 0;
        for (const std::size_t i : {1u, 2u, 4u, 5u}) {
            const double factor = safety.samples[i].factors[index_of(info.procedure)].value;
            const double weight = 10 * (bottom[i] - top[i]) - (bottom[i] * bottom[i] - top[i] * top[i]) / 4;
            index += std::max(0.0, 1 - factor) * weight;
        }
        INFO(info.name);
        REQUIRE(index > 1);
        CHECK(safety.severity[index_of(info.procedure)].potential_index.value() == Approx(index));
    }
    Boring lowered =
        boring_of({sand_at(2, 2), sand_at(4, 2)}, 1, 1.5); // water within the first interval, 0 .. 3 m
    const auto low = boring_safety(lowered, quake);
    const auto f = [&](std::size_t i) { return 1 - low.samples[i].factors[0].value; };
    REQUIRE(std::min(f(0), f(1)) > 0.01);
    CHECK(low.severity[0].potential_index.value() ==
          Approx(f(0) * (15 - (9 - 2.25) / 4) + f(1) * (20 - (25 - 9) / 4.0)));
}

// tests/sources/liquefaction/profile_lpi_settlement.csv, computed outside this program: eight slabs, water at 1 m. Unit
// weights here are such that each sample has the stress of the table. The last slab reaches to 20.5 m in place of 20 m,
// which the index does not count and the settlement does.
TEST_CASE("index and settlement of a profile computed outside", "[site]") {
    const interpile::test::CsvTable slabs("liquefaction/profile_lpi_settlement.csv");
    const interpile::test::CsvTable cases("liquefaction/cases_bi2014.csv");
    std::vector<BoringSample> samples;
    double above_kPa = 0, top_m = 0;
    for (std::size_t row = 0; row < slabs.rows(); ++row) {
        REQUIRE(cases.at(row, "zw_m") == 1);
        const double z = slabs.at(row, "z_m"), bottom_m = slabs.at(row, "bottom_m");
        const double unit_weight = (cases.at(row, "sv_tot") - above_kPa) / (z - top_m);
        samples.push_back(sand_at(z, cases.at(row, "N"), cases.at(row, "FC_pct"), unit_weight));
        above_kPa += unit_weight * (bottom_m - top_m);
        top_m = bottom_m;
    }
    Boring boring = boring_of(samples, 1, 1);
    boring.energy_ratio_pct = 60;
    const auto safety = boring_safety(boring, {0.2, 7.5, 0.2, false});
    const auto digits = [](double value) { return Approx(value).epsilon(1e-5); };
    for (std::size_t row = 0; row < slabs.rows(); ++row) {
        const auto& factors = safety.samples[row].factors;
        CHECK(factors[index_of(Procedure::HighwayBridge2012)].value ==
              digits(slabs.at(row, "FL_jra02_khg0.20_I")));
        CHECK(factors[index_of(Procedure::BoulangerIdriss2014)].value == digits(slabs.at(row, "FS_bi14")));
    }
    const std::size_t last = slabs.rows() - 1;
    CHECK(safety.severity[index_of(Procedure::HighwayBridge2012)].potential_index.value() ==
          digits(slabs.at(last, "LPI_cum")));
    CHECK(safety.severity[index_of(Procedure::BoulangerIdriss2014)].settlement_m.value() ==
          digits((slabs.at(last, "S_cum_mm") + 0.2 * slabs.at(last, "dS_mm")) / 1000));
}

TEST_CASE("procedures disagree where some are below 1 and others are not", "[site]") {
    SampleSafety sample;
    CHECK_FALSE(sample.procedures_disagree());
    sample.factors.resize(3); // one refuses, one is not liquefiable
    sample.factors[0].value = 0.9;
    CHECK_FALSE(sample.procedures_disagree());
    sample.factors[1].value = INFINITY;
    CHECK(sample.procedures_disagree());
    sample.factors[0].value = 1;
    CHECK_FALSE(sample.procedures_disagree());
}
