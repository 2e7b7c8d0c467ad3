// Every key of a site file: borings, earthquake, treatment, target.

#include "io/key_rows.h"
#include "solver/liquefaction/procedure.h"
#include "solver/site/sand_state.h"

namespace interpile::io {

namespace {

using enum Presence;
using enum ValueType;

std::vector<std::string> procedure_names() {
    std::vector<std::string> names;
    for (const auto& info : solver::procedure_table())
        names.push_back(info.name);
    return names;
}

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> ground_and_earthquake() {
    return {
        derived("site", "title", Text, "name of the file", {0, 0}, "heading of tables and figures", own),
        required("site", "water_depth_m", Number, {-50, 100},
                 "water table when the blows were counted, below ground; negative: water above ground; a "
                 "boring may "
                 "have its own"),
        derived("site", "quake_water_depth_m", Number, "water_depth_m of the boring", {-50, 100},
                "water table to be expected in an earthquake; negative: water above ground", own),
        standard(
            "site", "energy_ratio_pct", Number, "78", {20, 100},
            "of the hammer, of borings that give none of their own",
            "hammers with free fall in Japan, from memory of Cubrinovski & Ishihara 1999; range: own choice"),
        word("site", "design_by", "worst", {"worst", "each", "mean"},
             "which boring the cases are made for: the one that asks for most, each one, or the mean of all; "
             "the tables "
             "show all of them in any event",
             "own choice: a mean hides the loose places"),

        required("boring", "name", Text, {0, 0}, "as on the log"),
        required("boring", "table", Text, {0, 0},
                 "CSV file beside this one: depth_m, blow_count, fines_pct, unit_weight_kN_m3 and, where "
                 "known, d50_mm, "
                 "soil, kind (sand, clay, silt), and laboratory values"),
        derived("boring", "water_depth_m", Number, "that of the site", {-50, 100}, "as for the site", own),
        derived("boring", "quake_water_depth_m", Number, "that of the site, else water_depth_m of the boring",
                {-50, 100}, "as for the site", own),
        derived("boring", "energy_ratio_pct", Number, "that of the site", {20, 100}, "as for the site", own),

        conditional(
            "earthquake", "peak_acceleration_g", Number, {0.01, 2},
            "at the surface, in g; needed by youd-2001, boulanger-idriss-2014 and architectural-guide-2001"),
        conditional(
            "earthquake", "design_coefficient_khg", Number, {0.01, 2},
            "k_hg with the factor of the region in it, as the code gives it for the ground; needed by the "
            "highway-bridge procedures"),
        standard("earthquake", "moment_magnitude", Number, "7.5", {4, 10},
                 "not used by the highway-bridge procedures", "the magnitude of the published curves"),
        word("earthquake", "kind", "plate-boundary", {"plate-boundary", "inland"},
             "inland raises the resistance in the highway-bridge procedures (level 2, type II)",
             "own choice: the lower resistance"),
    };
}

std::vector<KeyInfo> treatment_and_target() {
    return {
        required("treatment", "diameter_m", Number, {0.2, 3}, "of the finished piles"),
        standard("treatment", "casing_diameter_m", Number, "0.4", {0.1, 2},
                 "for the cases; not above the diameter, nor below a fifth of it",
                 "common practice, no source"),
        required("treatment", "top_depth_m", Number, {0, 100}, "of the treated ground"),
        required("treatment", "bottom_depth_m", Number, {0.5, 100}, "of the treated ground"),
        word("treatment", "pattern", "square", {"square", "triangular", "rectangular"},
             "of the piles in plan", own),
        conditional("treatment", "row_spacing_ratio", Number, {0.3, 3},
                    "rectangular pattern: distance of the rows over the spacing within a row"),
        standard("treatment", "largest_replacement_ratio", Number, "0.30", {0.02, 0.7},
                 "a_s above it counts as out of reach", practice),
        standard("treatment", "spacing_step_m", Number, "0.05", {0.01, 0.5},
                 "the spacing is rounded down to a multiple of it", practice),
        standard("treatment", "methods", Texts, "[\"B\", \"C\", \"D\"]", {0, 0},
                 "simple design methods: A by a chart of your own, B void ratios of clean sand, C with "
                 "fines, D with the "
                 "effective share of the pile",
                 own),
        word("treatment", "spacing_by", "C", {"A", "B", "C", "D"},
             "the method whose spacing is drawn and made into cases; one of methods",
             "common practice, no source: C for sand with fines"),
        conditional(
            "treatment", "chart", Text, {0, 0},
            "method A: CSV file beside this one with blow_count_before, replacement_ratio, blow_count_after"),
        standard("treatment", "alpha", Number, "1", {1, 2},
                 "method D: concentration of the density between the piles",
                 "own choice: no gain that is not known"),

        conditional("target", "blow_count", Number, {1, 60},
                    "N wanted between the piles; give either this or safety_factor"),
        conditional("target", "safety_factor", Number, {0.5, 3},
                    "F_L wanted between the piles, turned into N by the procedure"),
        KeyInfo{"target",
                "procedure",
                Word,
                Conditional,
                {},
                0,
                0,
                procedure_names(),
                "by which safety_factor is turned into N",
                "no default: it depends on the code"},
        word("target", "lateral_stress", "none", {"none", "blow-count", "resistance"},
             "where the lateral stress after treatment is counted besides the density: nowhere, in the "
             "measured N, or in "
             "the resistance (with safety_factor); never in both",
             "common practice, no source: not counted"),
        conditional(
            "target", "lateral_stress_ratio", Number, {0.3, 3},
            "K after treatment, where it is counted; from a computation with interpile run or from tests"),
    };
}
std::vector<KeyInfo> tests_after() {
    return {
        conditional("after", "table", Text, {0, 0},
                    "tests between the piles: CSV file beside this one with place, depth_m, blow_count and, "
                    "where known, "
                    "boring (of this file, before treatment), replacement_ratio, fines_pct, days_after, "
                    "simulated_blow_count; for the command after-treatment"),
        conditional("after", "replacement_ratio", Number, {0.01, 0.5},
                    "a_s as built, of tests that give none of their own"),
    };
}
// clang-format on

std::vector<KeyInfo> relations() {
    std::vector<KeyInfo> keys;
    for (const auto& info : solver::quantity_table()) {
        if (info.relations.empty())
            continue;
        std::vector<std::string> choices;
        for (const auto& relation : info.relations)
            if (relation.key != "measured") // goes first in any event
                choices.push_back(relation.key);
        keys.push_back(word("relations", info.name, info.standard, choices,
                            "published relation for it, where it is not measured", own));
    }
    return keys;
}

} // namespace

const Dictionary& site_dictionary() {
    static const Dictionary dictionary = [] {
        Dictionary made = {ground_and_earthquake(), {"boring"}, "Keys of a site file (TOML)", "help-site"};
        for (const auto& part : {treatment_and_target(), relations(), tests_after()})
            made.keys.insert(made.keys.end(), part.begin(), part.end());
        return made;
    }();
    return dictionary;
}

} // namespace interpile::io
