#include "solver/ground_state/friction_angle.h"
#include "solver/ground_state/lateral_stress_at_rest.h"
#include "solver/ground_state/meyerhof.h"
#include "solver/ground_state/permeability.h"
#include "solver/ground_state/relative_density.h"
#include "solver/ground_state/stiffness.h"
#include "solver/ground_state/void_ratio_limits.h"
#include "support/csv_numbers.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

using namespace interpile::solver;
using Catch::Matchers::Contains;

namespace {

/// N 10 at 100 kPa, clean, limits of Toyoura sand (published, 0.977 and 0.597).
SandSample toyoura() {
    SandSample sample;
    sample.depth_m = 10;
    sample.blow_count = 10;
    sample.effective_stress_kPa = 100;
    sample.d50_mm = 0.17;
    sample.e_max = 0.977;
    sample.e_min = 0.597;
    return sample;
}

double value(std::span<const Relation> relations, const char* key, const SandSample& sample) {
    return estimate_by(relations, key, sample).value;
}

bool remarked(const Estimate& estimate, const std::string& words) {
    return std::ranges::any_of(estimate.remarks,
                               [&](const std::string& r) { return r.find(words) != std::string::npos; });
}

const std::vector<std::span<const Relation>> quantities{e_max_relations(),
                                                        e_min_relations(),
                                                        void_ratio_range_relations(),
                                                        relative_density_relations(),
                                                        friction_angle_relations(),
                                                        small_strain_modulus_relations(),
                                                        young_modulus_relations(),
                                                        lateral_stress_at_rest_relations(),
                                                        permeability_relations()};

} // namespace

TEST_CASE("relative density by three relations to the digits of the table", "[ground-state]") {
    const auto rows = interpile::test::csv_numbers("ground-state/n_dr.csv");
    REQUIRE(rows.size() == 8);
    const auto six = [](double v) { return Approx(v).epsilon(6e-6).margin(0); };
    for (const auto& row : rows) {
        SandSample sample;
        sample.blow_count = row[0];
        sample.effective_stress_kPa = row[1];
        sample.energy_ratio_pct = row[2];
        sample.e_max = row[3];
        sample.e_min = row[4];
        sample.d50_mm = row[5];
        const auto relations = relative_density_relations();
        INFO("N " << row[0] << ", " << row[1] << " kPa, " << row[2] << " %");
        CHECK(value(relations, "meyerhof-1957", sample) == six(row[6]));
        const auto normalized = normalized_blow_count(row[0] * row[2] / 60, row[1]);
        CHECK(normalized.stress_factor == six(row[8]));
        CHECK(normalized.n1_60 == six(row[9]));
        CHECK(value(relations, "idriss-boulanger-2008", sample) == six(row[10]));
        CHECK(value(relations, "cubrinovski-ishihara-1999", sample) == six(row[13]));
        CHECK(value(relations, "cubrinovski-ishihara-1999-d50", sample) == six(row[15]));
    }
}

// N over D_r squared at 98 kPa by the Meyerhof form 38, by Cubrinovski & Ishihara with Hirama's limits 34, 27, 19
// for fines 5, 10, 20 %; computed by hand outside this program.
TEST_CASE("blow count at full density: Meyerhof against Cubrinovski & Ishihara", "[ground-state]") {
    CHECK(meyerhof_blow_count(100, 98) == Approx(38).margin(0.5).epsilon(0));
    for (const auto& [fines, blows] : {std::pair{5.0, 34.0}, {10.0, 27.0}, {20.0, 19.0}}) {
        SandSample sample = toyoura();
        sample.effective_stress_kPa = 98;
        sample.fines_pct = fines;
        const auto limits = hirama_void_ratio_limits(fines);
        sample.e_max = limits.e_max;
        sample.e_min = limits.e_min;
        const double share = value(relative_density_relations(), "cubrinovski-ishihara-1999", sample) / 100;
        CHECK(10 / (share * share) == Approx(blows).margin(0.5).epsilon(0));
    }
}

TEST_CASE("Meyerhof's form and the term for fines", "[ground-state]") {
    for (const double increment : {0.0, 5.0})
        for (const double n : {0.0, 3.0, 30.0})
            CHECK(meyerhof_blow_count(meyerhof_relative_density_pct(n, 60, increment), 60, increment) ==
                  Approx(n).margin(1e-12));
    CHECK(fines_increment(5) == 0);
    CHECK(fines_increment(7.5) == Approx(2.5));
    CHECK(fines_increment(10) == Approx(5)); // both branches
    CHECK(fines_increment(10 - 1e-9) == Approx(5));
    CHECK(fines_increment(20) == Approx(6));
    CHECK_THROWS_AS(meyerhof_relative_density_pct(-1, 100), std::invalid_argument);
    SandSample sample = toyoura();
    const auto relations = relative_density_relations();
    CHECK(value(relations, "method-d", sample) == value(relations, "meyerhof-1957", sample));
    sample.fines_pct = 20;
    CHECK(value(relations, "method-d", sample) == Approx(21 * std::sqrt(1000 / 170.0 + 6 / 1.7)));
    CHECK(remarked(estimate_by(relations, "meyerhof-1957", sample), "clean sand"));
}

TEST_CASE("the normalized blow count solves its own equation", "[ground-state]") {
    for (const double n60 : {0.0, 1.0, 15.0, 60.0, 120.0})
        for (const double stress : {5.0, 40.0, 101.325, 300.0, 800.0}) {
            const auto [factor, n1] = normalized_blow_count(n60, stress);
            const double exponent = 0.784 - 0.0768 * std::sqrt(std::min(n1, 46.0));
            CHECK(factor == Approx(std::min(1.7, std::pow(101.325 / stress, exponent))).epsilon(1e-12));
            CHECK(n1 == Approx(factor * n60).epsilon(1e-12));
        }
}

TEST_CASE("void ratio limits: Hirama, ranges, forward and back", "[ground-state]") {
    const auto limits = hirama_void_ratio_limits(15); // 1.3, 0.72
    CHECK(limits.e_max == Approx(1.3));
    CHECK(limits.e_min == Approx(0.72));
    CHECK(relative_density_pct(limits, void_ratio(limits, 62)) == Approx(62));
    CHECK(void_ratio(limits, 0) == limits.e_max);
    CHECK(void_ratio(limits, 100) == Approx(limits.e_min));
    CHECK_THROWS_AS(void_ratio({0.6, 0.9}, 50), std::invalid_argument);
    CHECK_THROWS_AS(hirama_void_ratio_limits(101), std::invalid_argument);
    SandSample sample = toyoura();
    CHECK(value(void_ratio_range_relations(), "measured", sample) == Approx(0.38));
    // From D50 0.17 mm: 0.58, known to be far above Toyoura's 0.38.
    CHECK(value(void_ratio_range_relations(), "cubrinovski-ishihara-d50", sample) ==
          Approx(0.583).margin(5e-4));
    CHECK(value(void_ratio_range_relations(), "cubrinovski-ishihara-fines", sample) == Approx(0.43));
    sample.fines_pct = 30; // the two branches differ by less than 0.001 here
    const double above = value(void_ratio_range_relations(), "cubrinovski-ishihara-fines", sample);
    sample.fines_pct = 30 - 1e-9;
    CHECK(value(void_ratio_range_relations(), "cubrinovski-ishihara-fines", sample) ==
          Approx(above).margin(1e-3).epsilon(0));
    sample.fines_pct = 0;
    // Toyoura: 0.072 + 1.53 x 0.597 = 0.985 against 0.977 measured.
    CHECK(value(e_max_relations(), "cubrinovski-ishihara-2002", sample) ==
          Approx(0.977).margin(0.01).epsilon(0));
    sample.e_min = 0.6; // 0.25 + 0.822, 0.44 + 0.726, 0.44 + 0.792
    for (const auto& [fines, e_max] : {std::pair{10.0, 1.072}, {20.0, 1.166}, {50.0, 1.232}}) {
        sample.fines_pct = fines;
        CHECK(value(e_max_relations(), "cubrinovski-ishihara-2002", sample) == Approx(e_max));
    }
    sample.fines_pct = 41;
    CHECK(remarked(estimate_by(e_min_relations(), "hirama-1981", sample), "above 40 %"));
}

TEST_CASE("friction angle: values by hand, ranges and their remarks", "[ground-state]") {
    const auto relations = friction_angle_relations();
    SandSample sample = toyoura();
    sample.effective_stress_kPa = 98; // N1 = N
    CHECK(value(relations, "hatanaka-uchida-1996", sample) == Approx(std::sqrt(200.0) + 20));
    CHECK(value(relations, "osaki", sample) == Approx(std::sqrt(200.0) + 15));
    CHECK(value(relations, "highway-bridges-older", sample) == Approx(std::sqrt(150.0) + 15));
    sample.effective_stress_kPa = 100; // N1 = 10: 4.8 x 2.302585 + 21
    CHECK(value(relations, "highway-bridges", sample) == Approx(32.0524).epsilon(1e-5));
    sample.effective_stress_kPa = 98;
    sample.blow_count = 20;
    CHECK(value(relations, "hatanaka-uchida-1996", sample) == Approx(40));
    sample.blow_count = 35;
    const auto capped = estimate_by(relations, "hatanaka-uchida-1996", sample);
    CHECK(capped.value == Approx(40));
    CHECK(remarked(capped, "stays at 40"));
    sample.blow_count = 70;
    CHECK(value(relations, "highway-bridges-older", sample) == 45);
    sample.blow_count = 3;
    CHECK(remarked(estimate_by(relations, "hatanaka-uchida-1996", sample), "below 3.5"));
    CHECK(remarked(estimate_by(relations, "highway-bridges", sample), "not above 5"));
    sample.blow_count = 0; // ln 0
    CHECK_THROWS_WITH(estimate_by(relations, "highway-bridges", sample),
                      Contains("needs blow_count above 0"));
    CHECK(estimate_all(relations, sample).size() == relations.size() - 1);
}

// G0 at p 100 kPa, e 0.8, computed by hand outside this program.
TEST_CASE("small-strain stiffness", "[ground-state]") {
    SandSample sample = toyoura();
    sample.void_ratio = 0.8;
    sample.effective_stress_kPa = 150; // p = 150 (1 + 2 x 0.5)/3 = 100
    const auto relations = small_strain_modulus_relations();
    const auto mega = [&](const char* key) { return value(relations, key, sample) / 1000; };
    CHECK(mega("hardin-richart-1963-round") == Approx(72).margin(0.5).epsilon(0));
    CHECK(mega("hardin-richart-1963-angular") == Approx(84.5).margin(0.05).epsilon(0));
    CHECK(mega("kokusho-1980") == Approx(88).margin(0.5).epsilon(0));
    CHECK(mega("iwasaki-tatsuoka-1977") == Approx(92.7).margin(0.1).epsilon(0));
    CHECK(mega("hardin-1978") == Approx(84.1).margin(0.1).epsilon(0));
    CHECK(remarked(estimate_by(relations, "hardin-richart-1963-round", sample), "above the range"));
    SandSample deeper = sample;
    deeper.effective_stress_kPa *= 16;
    for (const auto& [key, factor] : {std::pair{"hardin-richart-1963-round", 4.0},
                                      {"hardin-richart-1963-angular", 4.0},
                                      {"kokusho-1980", 4.0},
                                      {"iwasaki-tatsuoka-1977", 2.868},
                                      {"hardin-1978", 4.0}})
        CHECK(value(relations, key, deeper) / value(relations, key, sample) == Approx(factor).epsilon(1e-3));
    // Vs = 80 x 8^(1/3) = 160 m/s; 19/9.81 x 160^2 = 49.6 MPa. Imai & Tonouchi: 97 x 8^0.314 = 186.3 m/s.
    sample.blow_count = 8;
    CHECK(mega("highway-bridges") == Approx(49.58).margin(0.01).epsilon(0));
    CHECK(mega("imai-tonouchi-1982") == Approx(67.24).margin(0.1).epsilon(0));
    // Densifying from 0.85 to 0.75 raises F(e) by 22 %.
    sample.void_ratio = 0.75;
    const double dense = mega("kokusho-1980");
    sample.void_ratio = 0.85;
    CHECK(dense / mega("kokusho-1980") == Approx(1.22).margin(0.005).epsilon(0));
    CHECK(value(young_modulus_relations(), "highway-bridges", sample) == Approx(22400));
    CHECK(value(young_modulus_relations(), "building-fresh", sample) == Approx(11200));
}

TEST_CASE("an assumed void ratio is said", "[ground-state]") {
    SandSample sample = toyoura();
    sample.e_max.reset();
    const auto estimate = estimate_by(small_strain_modulus_relations(), "kokusho-1980", sample);
    CHECK(remarked(estimate, "hirama-1981"));
    CHECK(remarked(estimate, "meyerhof-1957"));
    // D_r 50.9 % of 0.6 .. 1.0
    Remarks remarks;
    CHECK(assumed_void_ratio(sample, remarks) == Approx(1 - 0.509325 * 0.4).epsilon(1e-5));
    CHECK(estimate_by(small_strain_modulus_relations(), "highway-bridges", sample).remarks.empty());
}

TEST_CASE("lateral stress at rest", "[ground-state]") {
    SandSample sample = toyoura();
    sample.effective_stress_kPa = 98;
    sample.blow_count = 5; // phi = 30 deg
    const auto relations = lateral_stress_at_rest_relations();
    CHECK(value(relations, "practice", sample) == 0.5);
    CHECK(value(relations, "jaky-1944", sample) == Approx(0.5));
    CHECK_THROWS_WITH(estimate_by(relations, "mayne-kulhawy-1982", sample),
                      Contains("overconsolidation_ratio"));
    sample.overconsolidation_ratio = 4;
    CHECK(value(relations, "mayne-kulhawy-1982", sample) == Approx(1.0)); // 0.5 x 4^0.5
    CHECK(remarked(estimate_by(relations, "jaky-1944", sample), "overconsolidated"));
}

TEST_CASE("permeability: table, formulas and the guess", "[ground-state]") {
    CHECK(creager_permeability_m_s(0.01) == Approx(1.05e-7));
    CHECK(creager_permeability_m_s(0.20) == Approx(8.9e-5));
    CHECK(creager_permeability_m_s(1.0) == Approx(3.6e-3));
    // The power law 0.359 D20^2.327 cm/s, fitted outside this program, follows the table within 6 % from 0.1 mm on.
    double last = 0;
    for (double d20 = 0.01; d20 <= 1; d20 *= 1.05) {
        const double k = creager_permeability_m_s(d20);
        CHECK(k > last);
        CHECK(k / (0.00359 * std::pow(d20, 2.327)) == Approx(1).margin(d20 < 0.1 ? 0.33 : 0.06).epsilon(0));
        last = k;
    }
    const auto relations = permeability_relations();
    SandSample sample = toyoura();
    CHECK_THROWS_WITH(estimate_by(relations, "creager-1945", sample), Contains("needs d20_mm"));
    const auto guess = estimate_by(relations, "grading-guess", sample);
    CHECK(remarked(guess, "GUESS"));
    // fines 0: D20 = 0.075 (0.17/0.075)^0.4 = 0.104 mm
    CHECK(guess.value == Approx(creager_permeability_m_s(0.10405)).epsilon(1e-3));
    sample.fines_pct = 20; // then D20 is 0.075 mm whatever D50
    CHECK(value(relations, "grading-guess", sample) == Approx(creager_permeability_m_s(0.075)));
    sample.d50_mm = SandSample{}.d50_mm;
    CHECK(remarked(estimate_by(relations, "grading-guess", sample), "itself a guess"));
    sample.fines_pct = 41;
    CHECK(estimate_all(relations, sample).empty());

    sample.fines_pct = 0;
    sample.d10_mm = 0.2;
    sample.void_ratio = 0.7;
    CHECK(value(relations, "hazen-1911", sample) == Approx(4e-4));
    // S = 300 1/cm: 1.99e4 x 0.343/(1.7 x 9e4) = 0.04461 cm/s
    CHECK(value(relations, "kozeny-carman", sample) == Approx(4.461e-4).epsilon(1e-3));
    // 2.4622 (0.04 x 0.343/1.7)^0.7825 = 0.05669 cm/s
    CHECK(value(relations, "chapuis-2004", sample) == Approx(5.669e-4).epsilon(1e-3));
    // Densifying 0.85 to 0.70 divides k by 1.65, on the exponent of Chapuis by 1.48.
    sample.void_ratio = 0.85;
    const double loose_k = value(relations, "kozeny-carman", sample);
    const double loose_c = value(relations, "chapuis-2004", sample);
    sample.void_ratio = 0.70;
    CHECK(loose_k / value(relations, "kozeny-carman", sample) == Approx(1.65).margin(0.005).epsilon(0));
    CHECK(loose_c / value(relations, "chapuis-2004", sample) == Approx(1.48).margin(0.005).epsilon(0));
    sample.d10_mm = 0.08;
    CHECK(remarked(estimate_by(relations, "chapuis-2004", sample), "D10 outside"));
    CHECK(remarked(estimate_by(relations, "hazen-1911", sample), "D10 outside"));
}

TEST_CASE("every relation names its source, has a key of its own and rises or falls as it should",
          "[ground-state]") {
    SandSample sample = toyoura();
    sample.d10_mm = 0.12;
    sample.d20_mm = 0.14;
    sample.overconsolidation_ratio = 1;
    SandSample more = sample;
    more.blow_count = 14;
    for (const auto relations : quantities) {
        const auto estimates = estimate_all(relations, sample);
        REQUIRE(estimates.size() == relations.size());
        for (const Estimate& e : estimates) {
            INFO(e.relation);
            CHECK(e.source.size() > 10);
            CHECK(std::isfinite(e.value));
            CHECK(e.value > 0);
            CHECK(estimate_by(relations, e.relation, sample).value == e.value); // a repeated key would differ
        }
    }
    for (const auto rising : {relative_density_relations(), friction_angle_relations(),
                              small_strain_modulus_relations(), young_modulus_relations()})
        for (const Relation& relation : rising) {
            INFO(relation.key);
            CHECK(value(rising, relation.key.c_str(), more) > value(rising, relation.key.c_str(), sample));
        }
}

TEST_CASE("bad samples and keys are refused in words", "[ground-state]") {
    const auto relations = relative_density_relations();
    CHECK_THROWS_WITH(estimate_by(relations, "meyerhof", toyoura()),
                      Contains("unknown relation \"meyerhof\"") && Contains("meyerhof-1957"));
    const auto refused = [&](auto change, const char* words) {
        SandSample sample = toyoura();
        change(sample);
        CHECK_THROWS_WITH(estimate_all(relations, sample), Contains(words));
    };
    refused([](SandSample& s) { s.blow_count = -1; }, "blow_count = -1");
    refused([](SandSample& s) { s.energy_ratio_pct = 0; }, "energy_ratio_pct");
    refused([](SandSample& s) { s.fines_pct = 120; }, "fines_pct = 120");
    refused([](SandSample& s) { s.effective_stress_kPa = 0; }, "effective_stress_kPa");
    refused([](SandSample& s) { s.d50_mm = -0.2; }, "d50_mm");
    refused([](SandSample& s) { s.e_min = 1.2; }, "e_max - e_min");
    refused([](SandSample& s) { s.overconsolidation_ratio = 0.5; }, "overconsolidation_ratio");
}
