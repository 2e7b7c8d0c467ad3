// The tables of a site against the designs they are made from, and cells in quotes.

#include "io/csv_text.h"
#include "io/site_summary.h"
#include "io/site_tables.h"
#include "tests/support/designed_site.h"
#include "tests/support/rfc4180.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

const std::vector<std::string> names = {"ground.csv",       "estimates.csv", "safety.csv",
                                        "safety-steps.csv", "severity.csv",  "needs.csv",
                                        "spacings.csv",     "after.csv",     "ratios.csv"};

std::map<std::string, Rfc4180> tables_of(const DesignedSite& made) {
    std::map<std::string, Rfc4180> tables;
    for (const auto& table : io::site_tables(made.site, made.designs))
        tables.emplace(table.file, Rfc4180(table.text));
    return tables;
}

/// The digits that a table has.
Approx six(double value) {
    return Approx(value).epsilon(1e-5).margin(1e-12);
}

/// Sites that take every way through the tables.
const std::vector<std::string>& sites() {
    static const std::vector<std::string> all = {
        sound_site,
        site_with({{"\"B-1\"", "'say \"B, 1\"'"}, {"safety_factor = 1.0", "safety_factor = 3"}}),
        site_with({{"title", "design_by = \"mean\"\ntitle"},
                   {"[target]", "[target]\nlateral_stress = \"resistance\"\n"
                                "lateral_stress_ratio = 0.8"}}),
        site_with({{"[\"B\", \"C\", \"D\"]", "[\"A\", \"C\"]\nchart = \"chart.csv\""},
                   {"safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"", "blow_count = 60"},
                   {"design_coefficient_khg = 0.18\n", ""}}),
        site_with({{"safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"", "blow_count = 2"}}),
        site_with({{"boulanger-idriss-2014", "highway-bridge-2017"},
                   {"water_depth_m = 1.5 ", "water_depth_m = -2 "},
                   {"quake_water_depth_m = 1.0", "quake_water_depth_m = 20"}}), // nothing is judged
    };
    return all;
}

} // namespace

TEST_CASE("a written cell is quoted where it needs it", "[site]") {
    io::CsvText csv({"text", "number", "flag"});
    csv.cell("plain").cell(1.0 / 3).cell(true).end_row();
    csv.cell("a, \"b\"\nc").cell(NAN).cell(false).end_row();
    csv.cell("").cell(std::optional<double>()).cell(7).end_row();
    csv.cell("\r").cell(INFINITY).cell("no").end_row();
    CHECK(csv.text() ==
          "text,number,flag\nplain,0.333333,yes\n\"a, \"\"b\"\"\nc\",,no\n,,7\n\"\r\",inf,no\n");
    const Rfc4180 read(csv.text());
    CHECK(read.at(1, "text") == "a, \"b\"\nc");
    CHECK_THROWS_AS(csv.cell("one").end_row(), std::logic_error);
    CHECK(io::joined({"a", "b"}) == "a; b");
}

TEST_CASE("every row of every table is as long as its head and has no nan", "[site]") {
    for (const std::string& text : sites()) {
        INFO(text);
        const auto made = designed(text);
        const auto written = io::site_tables(made.site, made.designs);
        REQUIRE(written.size() == names.size());
        for (std::size_t t = 0; t < names.size(); ++t) {
            CHECK(written[t].file == names[t]);
            const Rfc4180 table(written[t].text);
            for (std::size_t i = 0; i < table.size(); ++i) {
                INFO(names[t] << " row " << i + 2);
                CHECK(table.row(i).size() == table.head().size());
                for (const std::string& cell : table.row(i))
                    CHECK((cell != "nan" && cell != "-nan" && cell != "-inf"));
            }
        }
    }
}

TEST_CASE("tables have a row for each thing they tell of", "[site]") {
    for (const std::string& text : sites()) {
        INFO(text);
        const auto made = designed(text);
        std::map<std::string, std::size_t> rows;
        const std::size_t methods = made.site.aims.methods.size(),
                          procedures = solver::procedure_table().size();
        for (const auto& design : made.designs) {
            rows["ground.csv"] += design.boring.samples.size();
            for (const auto& state : design.states)
                for (const auto& quantity : state)
                    rows["estimates.csv"] += quantity.others.size();
            for (const auto& sample : design.before.samples) {
                rows["safety.csv"] += sample.judged ? 1 + methods : 0;
                for (const auto& factor : sample.factors)
                    rows["safety-steps.csv"] += factor.intermediates.size() + 3;
            }
            rows["severity.csv"] += (1 + methods) * procedures;
            for (const auto& need : design.needs) {
                rows["needs.csv"] += need.treated ? std::max<std::size_t>(1, need.methods.size()) : 0;
                rows["after.csv"] += need.treated ? methods : 0;
            }
            rows["spacings.csv"] += methods;
            for (const auto& method : design.methods)
                rows["ratios.csv"] += method.governing ? 31 : 0; // 0 .. 0.30 by 0.01
        }
        for (const auto& [name, table] : tables_of(made)) {
            INFO(name);
            CHECK(table.size() == rows[name]);
        }
    }
}

TEST_CASE("ground, safety and severity are those of the design", "[site]") {
    const auto made = designed(sound_site);
    const auto tables = tables_of(made);
    const auto& design = made.designs[0];
    const Rfc4180 &ground = tables.at("ground.csv"), &safety = tables.at("safety.csv");
    for (std::size_t i = 0; i < design.boring.samples.size(); ++i) {
        CHECK(ground.at(i, "boring") == "B-1");
        CHECK(ground.number(i, "depth_m") == six(design.boring.samples[i].depth_m));
        CHECK(ground.number(i, "bottom_m") == six(design.intervals[i].bottom_m));
        CHECK(ground.number(i, "total_stress_kPa") == six(design.at_boring[i].total_kPa));
        CHECK(ground.number(i, "effective_stress_kPa") == six(design.at_boring[i].effective_kPa));
        CHECK(ground.number(i, "quake_effective_stress_kPa") == six(design.in_quake[i].effective_kPa));
        CHECK(ground.at(i, "sand") == (i == 3 ? "no" : "yes"));
        if (i == 3) {
            CHECK(ground.at(i, "void_ratio").empty());
            continue;
        }
        for (const auto& info : solver::quantity_table())
            CHECK(ground.number(i, info.name) == six(chosen(design.states[i], info.quantity).value));
        const double low = ground.number(i, "relative_density_low_pct"),
                     high = ground.number(i, "relative_density_high_pct");
        for (const auto& estimate :
             design.states[i][static_cast<std::size_t>(solver::Quantity::RelativeDensity)].others) {
            CHECK(estimate.value >= low * (1 - 1e-5));
            CHECK(estimate.value <= high * (1 + 1e-5));
        }
    }
    CHECK(ground.at(2, "d50_mm").empty()); // not known
    CHECK(safety.at(0, "stage") == "before");
    CHECK(safety.number(0, "safety_factor_boulanger-idriss-2014") ==
          six(design.before.samples[0].factors[1].value));
    const std::size_t judged = 5; // all but the silt; then the same again after each method
    CHECK(safety.at(2 * judged, "stage") == "after, method C");
    CHECK(safety.number(2 * judged, "blow_count") == six(design.methods[1].blow_counts_after[0]));
    CHECK(safety.number(2 * judged, "safety_factor_youd-2001") ==
          six(design.methods[1].after.samples[0].factors[0].value));
    const Rfc4180& severity = tables.at("severity.csv");
    CHECK(severity.number(0, "liquefaction_potential_index") ==
          six(*design.before.severity[0].potential_index));
    CHECK(severity.number(6, "settlement_m") == six(*design.methods[0].after.severity[1].settlement_m));
    CHECK(severity.number(0, "reaches_to_m") == six(design.intervals.back().bottom_m));
}

TEST_CASE("needs, spacings, blow counts after and ratios are those of the design", "[site]") {
    const auto made = designed(sound_site);
    const auto tables = tables_of(made);
    const Rfc4180 &needs = tables.at("needs.csv"), &spacings = tables.at("spacings.csv");
    const Rfc4180 &after = tables.at("after.csv"), &ratios = tables.at("ratios.csv");
    std::size_t row = 0, treated = 0, spacing_row = 0, ratio_row = 0;
    for (const auto& design : made.designs) {
        for (std::size_t i = 0; i < design.needs.size(); ++i)
            for (std::size_t m = 0; m < design.needs[i].methods.size(); ++m, ++row) {
                const auto& need = design.needs[i].methods[m];
                CHECK(needs.at(row, "method") == std::string(1, solver::letter_of(design.methods[m].method)));
                CHECK(needs.at(row, "need") == io::need_name(need.kind));
                CHECK(needs.number(row, "target_blow_count") == six(*design.needs[i].target_blow_count));
                CHECK(needs.number(row, "replacement_ratio") == six(need.result.replacement_ratio));
                CHECK(needs.number(row, "void_ratio_after") == six(need.result.void_ratio_after));
                CHECK(needs.number(row, "fines_factor") == six(need.result.fines_factor));
                CHECK(after.number(treated, "depth_m") == needs.number(row, "depth_m"));
                CHECK(after.number(treated++, "blow_count_after") ==
                      six(design.methods[m].blow_counts_after[i]));
            }
        for (const auto& method : design.methods) {
            REQUIRE(method.governing);
            CHECK(spacings.number(spacing_row, "governing_depth_m") ==
                  six(design.boring.samples[*method.governing].depth_m));
            CHECK(spacings.number(spacing_row, "spacing_m") == six(method.spacing_m));
            CHECK(spacings.number(spacing_row, "practical_spacing_m") == six(method.practical_spacing_m));
            CHECK(spacings.number(spacing_row, "mean_heave_m") == six(method.heave_m));
            CHECK(spacings.at(spacing_row, "mean_heave_by_efficiency_m").empty() ==
                  (method.method != solver::DesignMethod::D));
            CHECK(spacings.at(spacing_row++, "out_of_reach") == "no");
            const auto tenth = predict_at(design, *method.governing, method.method, made.site.aims, 0.1);
            CHECK(ratios.number(ratio_row + 10, "replacement_ratio") == six(0.1));
            CHECK(ratios.number(ratio_row + 10, "blow_count_after") == six(tenth.blow_count_after));
            ratio_row += 31;
        }
    }
    CHECK(row == needs.size());
}

TEST_CASE("the summary says what no method can do", "[site]") {
    const auto summary = [](const std::string& text) {
        const auto made = designed(text);
        return io::site_summary(made.site, made.designs);
    };
    const std::string good = summary(sound_site);
    CHECK_THAT(good, Contains("F_L 1 by boulanger-idriss-2014") && Contains("Asks for most:") &&
                         Contains("4 samples of sand, 0 of clay or silt") && !Contains("-0.00") &&
                         !Contains("NO TARGET") && !Contains("OUT OF REACH"));
    const std::string none = summary(site_with({{"safety_factor = 1.0", "safety_factor = 3"},
                                                {"peak_acceleration_g = 0.2", "peak_acceleration_g = 1.5"}}));
    CHECK_THAT(none, Contains("no target at 2.3 m: no blow count up to 100 gives the target safety factor") &&
                         Contains("NO TARGET at any depth") && Contains("NO TARGET at B-1, B-2") &&
                         !Contains("the target holds before treatment"));
    const std::string by_count = "safety_factor = 1.0\nprocedure = \"boulanger-idriss-2014\"";
    CHECK_THAT(summary(site_with({{by_count, "blow_count = 2"}})),
               Contains("nothing asked for: the target holds before treatment") &&
                   Contains("  C  nothing\n"));
    CHECK_THAT(summary(site_with({{by_count, "blow_count = 60"}})),
               Contains("OUT OF REACH at 1.3 m: N 60.0 asked for, at most ") &&
                   Contains("limit: relative density above 100 % after treatment") &&
                   Contains("OUT OF REACH at B-1, B-2"));
}

TEST_CASE("a heave that rounds to nothing has no sign", "[site]") {
    auto made = designed(sound_site);
    for (auto& method : made.designs[0].methods)
        method.heave_m = -0.004;
    CHECK_THAT(io::site_summary(made.site, made.designs),
               Contains("mean heave 0.00 m") && !Contains("-0.00"));
}
