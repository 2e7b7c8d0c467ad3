// Blow counts of a study's members, and what is said of simulated against predicted ones.

#include "io/study_validation_report.h"
#include "tests/support/program_run.h"
#include "tests/support/study_text.h"
#include "tests/support/written_table.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::testing;
using Catch::Contains;

namespace {

io::MemberResult ground_at_100_kPa() {
    io::MemberResult result;
    result.state = io::MemberState::Converged;
    result.vertical_stress_kPa = 100;
    result.e_max = 1.0;
    result.e_min = 0.6;
    result.replacement_ratio = 0.1;
    result.density_before_pct = 42;
    result.stress_ratio_before = 0.5;
    result.density_pct = 63;
    result.stress_ratio = 1.0;
    return result;
}

/// Members of two spacings and two densities with given blow counts.
class Invented {
public:
    Invented() {
        folder_.write("case.toml", cell_case);
        study = io::parse_study(cell_study + "[validation]\n", folder_.path() / "study.toml");
        const double ratio[] = {0.15, 0.15, 0.10, 0.10}, density_pct[] = {40, 60, 40, 60};
        const double before[] = {5, 11, 5, 11}, after[] = {20, 22, 10.5, 16}, method_b[] = {25, 32, 10, 16};
        for (std::size_t k = 0; k < 4; ++k) {
            io::StudyRow row;
            row.number = k + 1;
            row.result.replacement_ratio = ratio[k];
            row.result.density_before_pct = density_pct[k];
            row.result.depth_m = 6;
            row.blow_counts.before = before[k];
            row.blow_counts.after = after[k];
            row.blow_counts.method_b = method_b[k];
            rows.push_back(row);
        }
    }
    io::StudyFile study;
    std::vector<io::StudyRow> rows;

private:
    WorkingFolder folder_;
};

} // namespace

// Meyerhof (1957), metric form: N = (D_r/21)^2 (s' + 70)/100. Method B: e1 = e0 - a_s (1 + e0). Both from memory, by hand:
// e0 = 1 - 0.42 x 0.4 = 0.832, e1 = 0.832 - 0.1832 = 0.6488, D_r1 = 87.8 %.
TEST_CASE("blow counts of a member begin with its own density", "[study]") {
    const auto counts = io::blow_counts_of(ground_at_100_kPa(), {});
    CHECK(counts.before == Approx(4 * 1.7));
    CHECK(counts.after == Approx(9 * 1.7));
    CHECK(counts.method_b == Approx(87.8 * 87.8 / 441 * 1.7));
    CHECK(counts.method_c == Approx(counts.method_b)); // no reduction without fines
    CHECK(counts.method_d == Approx(counts.method_b));
    CHECK(std::isnan(counts.method_a)); // no chart
    // solver/design_methods/stress_factor.h: (100 (1 + 2)/(1 + 1) + 70)/(100 + 70)
    CHECK(counts.stressed == Approx(counts.after * 220 / 170));
}

TEST_CASE("fines reduce the gain of method C, and the void ratio limits may follow from them", "[study]") {
    io::ComparisonPlan plan;
    plan.fines_pct = 10;
    const auto counts = io::blow_counts_of(ground_at_100_kPa(), plan);
    // beta = 1.05 - 0.51 log10 Fc = 0.54, from memory of the trade
    const double clean = 87.8 * 87.8 / 441 * 1.7;
    CHECK(counts.method_b == Approx(clean));
    CHECK(counts.method_c == Approx(6.8 + 0.54 * (clean - 6.8)));
    plan.limits_of_case = false; // Hirama (1981): e_max = 1.2, e_min = 0.68; e0 = 0.9816, e1 = 0.78344
    const double density_pct = 100 * (1.2 - 0.78344) / 0.52;
    CHECK(io::blow_counts_of(ground_at_100_kPa(), plan).method_b ==
          Approx(density_pct * density_pct / 441 * 1.7));
}

TEST_CASE("where there is no result or a method does not hold there is no number", "[study]") {
    auto result = ground_at_100_kPa();
    result.state = io::MemberState::NotConverged;
    CHECK(std::isnan(io::blow_counts_of(result, {}).after));
    CHECK(io::blow_counts_of(result, {}).method_b > 0); // a prediction needs no simulation
    result.replacement_ratio = 0.3;                     // beyond a relative density of 100 %
    CHECK(std::isnan(io::blow_counts_of(result, {}).method_b));
    CHECK(std::isnan(io::blow_counts_of({}, {}).before));
}

// Ratios by hand: 0.8, 0.6875, 1.05, 1.
TEST_CASE("bias, scatter and the range of agreement of a method", "[study]") {
    const Invented invented;
    const auto comparison = io::compare_blow_counts(invented.study, invented.rows);
    REQUIRE(comparison.deviations.size() ==
            5); // all, 40 .. 50, 60 .. 70, two spacings; of method B, density alone
    const auto& all = comparison.deviations[0];
    CHECK(all.method == "B");
    CHECK(all.parted_by == "all");
    CHECK(all.members == 4);
    CHECK(all.bias == Approx(0.884375));
    CHECK(all.standard_deviation == Approx(0.16998).epsilon(1e-4));
    CHECK(all.agreeing == 2);
    CHECK(all.replacement_ratio.low == 0.10);
    CHECK(all.replacement_ratio.high == 0.10);
    CHECK(all.density_before_pct.low == 40);
    CHECK(all.density_before_pct.high == 60);
    CHECK(all.in_range == 2);
    CHECK(comparison.deviations[1].parted_by == "relative_density_before_pct");
    CHECK(comparison.deviations[1].part == "40 .. 50");
    CHECK(comparison.deviations[1].bias == Approx(0.925));
    CHECK(comparison.deviations[2].part == "60 .. 70");
    CHECK(comparison.deviations[2].bias == Approx(0.84375));
    CHECK(comparison.deviations[3].parted_by == "layout.spacing_m");
    CHECK(comparison.deviations[3].part == "1.6");
    CHECK(comparison.deviations[3].bias == Approx(0.74375));
    CHECK(comparison.deviations[4].part == "2");
    CHECK(comparison.deviations[4].bias == Approx(1.025));
    const auto table = rows_of(io::deviation_table(invented.study, comparison));
    REQUIRE(table.size() == 5);
    CHECK(table[3].at("part") == "1.6");
    CHECK(table[0].at("bias") == "0.884375");
    CHECK(table[0].at("agreeing_depth_low_m") == "6");
    CHECK_THAT(io::comparison_summary(invented.study, comparison),
               Contains("method B, N of density: 0.88, 0.17; 4 of 4 members; within 10 %: 2 (a_s 0.100, D_r "
                        "before 40 .. 60 %"));
}

// The weakest place has half the mean's excess over the prediction; other fines change methods C and D alone.
TEST_CASE("deviations of the weakest place and with other fines", "[study]") {
    Invented invented;
    for (auto& row : invented.rows)
        row.blow_counts.weakest = 0.5 * row.blow_counts.after;
    auto comparison = io::compare_blow_counts(invented.study, invented.rows);
    REQUIRE(comparison.deviations.size() == 6);
    CHECK(comparison.deviations[5].simulated == io::SimulatedCount::Weakest);
    CHECK(comparison.deviations[5].parted_by == "all");
    CHECK(comparison.deviations[5].bias == Approx(0.884375 / 2));

    auto result = ground_at_100_kPa();
    std::vector<io::StudyRow> rows(1);
    rows[0].result = result;
    rows[0].blow_counts = io::blow_counts_of(result, {});
    invented.study.comparison.other_fines_pct = {10};
    comparison = io::compare_blow_counts(invented.study, rows);
    const auto bias = [&](const char* method, const char* by) {
        for (const auto& d : comparison.deviations)
            if (d.method == method && d.parted_by == by && d.simulated == io::SimulatedCount::Density)
                return d.bias;
        return -1.0;
    };
    // 9 x 1.7 over the counts of the test of fines above
    const double clean = 87.8 * 87.8 / 441 * 1.7;
    CHECK(bias("B", "validation.fines_pct") == Approx(15.3 / clean));
    CHECK(bias("C", "all") == Approx(15.3 / clean));
    CHECK(bias("C", "validation.fines_pct") == Approx(15.3 / (6.8 + 0.54 * (clean - 6.8))));
}

// Gains: simulation 15 -> 11 and 5.5 -> 5; method B 20 -> 21 and 5 -> 5.
TEST_CASE("the sign of the change of the gain with N before is counted over pairs", "[study]") {
    Invented invented;
    const auto trends = io::compare_blow_counts(invented.study, invented.rows).trends;
    REQUIRE(trends.size() == 5); // two of the simulation, methods B, C, D
    CHECK(trends[0].subject == "simulation, density");
    CHECK(trends[0].pairs == 2);
    CHECK(trends[0].falling == 2);
    CHECK(trends[1].pairs == 0); // no lateral stress
    CHECK(trends[2].subject == "method B");
    CHECK(trends[2].falling == 0);
    CHECK(trends[2].rising == 1);
    CHECK(trends[2].pairs == 2);
    invented.rows[1].blow_counts.after = io::MemberResult::unknown; // a member without result makes no pair
    CHECK(io::compare_blow_counts(invented.study, invented.rows).trends[0].pairs == 1);
}

TEST_CASE("a result is kept to the last digit, a torn one is none", "[study]") {
    const WorkingFolder folder;
    auto result = ground_at_100_kPa();
    result.state = io::MemberState::NotConverged;
    result.reason = "pile \"1\"\nstays at 3 kPa";
    result.heave_pct = 1.0 / 3;
    const auto file = folder.write("r.toml", io::result_text(result));
    const auto back = io::read_result(file);
    REQUIRE(back);
    CHECK(back->state == io::MemberState::NotConverged);
    CHECK(back->reason == result.reason);
    CHECK(back->heave_pct == result.heave_pct);
    CHECK(back->density_pct == 63);
    CHECK(std::isnan(back->efficiency));
    CHECK(back->finished());
    const auto text = io::result_text(result);
    folder.write("r.toml", text.substr(0, text.size() - 20));
    CHECK_FALSE(io::read_result(file));
    CHECK_FALSE(io::read_result(folder.path() / "none.toml"));
}
