// Every key of a report file.

#include "io/key_rows.h"

namespace interpile::io {

namespace {

using enum ValueType;

KeyInfo of_report(std::string_view key, ValueType type, std::string_view meaning) {
    return conditional("report", key, type, {0, 0}, meaning, "no default");
}

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> report_keys() {
    return {
        required("report", "title", Text, {0, 0}, "of the report", "no default"),
        of_report("project", Text, "told on the title page and at the head of every page"),
        of_report("client", Text, "told on the title page"),
        of_report("author", Text, "told on the title page"),
        derived("report", "date", Text, "day of the newest result, else none", {0, 0},
                "told as it stands; \"today\": the day the report is made", own),
        of_report("site", Text, "site file beside this one, as for the command design"),
        of_report("results", Texts, "results files beside this one, [\"R.h5\", ...]"),
        of_report("works", Text,
                  "works file beside this one, as for the command instruction; as-built too where it has "
                  "[as_built]"),
        of_report("study", Text,
                  "study file beside this one, as for the command study: alternatives compared"),
        of_report("study_folder", Text,
                  "with study: the folder that the command study wrote, beside this file"),
        standard("report", "after", Flag, "false", {0, 0},
                 "compare the tests after treatment that the site file names in [after]", own),

        word("text", "chapter", {},
             {"job", "ground", "need", "methods", "simulation", "after", "alternatives", "neighbors",
              "instruction", "as-built", "tests", "sources"},
             "where a text of yours stands first, each under its own [[text]]", "no default"),
        required("text", "body", Prose, {0, 0}, "the text; an empty line begins a new paragraph",
                 "no default"),
    };
}
// clang-format on

} // namespace

const Dictionary& report_dictionary() {
    static const Dictionary dictionary = {
        report_keys(), {"text"}, "Keys of a report file (TOML)", "help-report"};
    return dictionary;
}

} // namespace interpile::io
