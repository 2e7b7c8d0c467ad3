// Every key of a study file.

#include "io/key_rows.h"

namespace interpile::io {

namespace {

using enum Presence;
using enum ValueType;

constexpr double any = 1e9; // values of a factor are checked as those of its key

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> study_and_factors() {
    return {
        derived("study", "title", Text, "name of the file", {0, 0}, "heading of tables and figures", own),
        required("study", "base", Text, {0, 0},
                 "case file beside this one; every member is this case with other values of the factors",
                 "no default"),
        word("study", "design", "grid", {"grid", "sample"},
             "grid: every combination, the last factor fastest; sample: a Latin hypercube over from .. to of "
             "every "
             "factor",
             "McKay, Beckman & Conover 1979, Technometrics 21(2): Latin hypercube, from memory"),
        conditional("study", "members", Count, {1, most_study_members},
                    "sample only, and needed there: how many", "no default; range: own choice"),
        standard("study", "seed", Count, "1", {0, 4294967295.0}, "sample only: another seed, another sample",
                 own),
        standard("study", "keep_results", Flag, "true", {0, 0},
                 "false: of a member only its case and its row are kept, no results file", own),

        required("factor", "key", Text, {0, 0},
                 "key of a case file, \"layout.spacing_m\"; of repeated tables \"layer[2].thickness_m\"; "
                 "each factor under "
                 "its own [[factor]]",
                 "no default"),
        conditional("factor", "values", Numbers, {-any, any},
                    "grid: give either this, words, or from, to and count"),
        conditional(
            "factor", "words", Texts, {0, 0},
            "grid: values of a key that takes a word, true or false, or a list, which is written as in a "
            "case, \"[1, 3, 2]\"",
            "no default"),
        conditional("factor", "from", Number, {-any, any}, "first value; of a sample the low end"),
        conditional("factor", "to", Number, {-any, any}, "last value; of a sample the high end"),
        conditional("factor", "count", Count, {2, most_study_members},
                    "grid: values in even steps from .. to", "no default; range: own choice"),
    };
}

std::vector<KeyInfo> validation_and_figures() {
    return {
        standard("validation", "compare", Flag, "true", {0, 0},
                 "write validation.csv: simulated blow counts against those of the simple methods; without "
                 "the table "
                 "[validation] it is not written",
                 own),
        standard("validation", "fines_pct", Number, "0", {0, 100},
                 "fines of the ground as the simple methods take it; the simulation knows none",
                 "own choice: clean sand"),
        conditional(
            "validation", "other_fines_pct", Numbers, {0, 100},
            "the comparison again as if the ground had these fines: how much the methods hang on them",
            "no default"),
        standard("validation", "alpha", Number, "1", {1, 10},
                 "method D: concentration of density between the piles", "own choice: unknown, 1 is neutral"),
        word("validation", "limits", "case", {"case", "fines"},
             "void ratio limits of the simple methods: e_max, e_min of the case, or by Hirama from fines_pct",
             "own choice: the same sand on both sides"),
        conditional(
            "validation", "chart", Text, {0, 0},
            "method A: CSV file beside this one, blow_count_before,replacement_ratio,blow_count_after",
            "no default: digitized by the user"),
        standard("validation", "agreement_pct", Number, "10", {0.1, 100},
                 "deviation within which a method is said to agree", own),

        word("figures", "over", "spacing", {"spacing", "replacement-ratio"},
             "horizontal axis of the curves of density and lateral stress; replacement-ratio also where "
             "spacing_m is no "
             "factor",
             own),
    };
}
// clang-format on

} // namespace

const Dictionary& study_dictionary() {
    static const Dictionary dictionary = [] {
        Dictionary made = {study_and_factors(), {"factor"}, "Keys of a study file (TOML)", "help-study"};
        const auto more = validation_and_figures();
        made.keys.insert(made.keys.end(), more.begin(), more.end());
        return made;
    }();
    return dictionary;
}

} // namespace interpile::io
