#pragma once
// Every key of a case file, of a file of laboratory tests, of a site, a works, a study, a report and a style file, in one
// table each: the reader, the printed configuration and the help are driven from them.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

enum class ValueType {
    Text,     ///< any text
    Prose,    ///< any text, of several lines too
    Texts,    ///< ["text", ...]
    Word,     ///< one of `choices`
    DateTime, ///< 2026-03-02T07:30:00, without zone; `low` and `high` are years
    Number,   ///< a real number; an integer is accepted
    Count,    ///< a whole number
    Flag,     ///< true or false
    Interval, ///< [low, high], two numbers in ascending order
    Point,    ///< [x, y]
    Points,   ///< [[x, y], ...]
    Counts,   ///< [n, n, ...], whole numbers
    Numbers,  ///< [v, v, ...]
    Wordings  ///< a table "text" = "text" with keys of the user
};

/// Required     must be given
/// Default      `standard` holds unless given
/// Derived      `standard` says in words how the value follows from others unless given
/// Conditional  needed or allowed depending on other keys, as `meaning` says
enum class Presence { Required, Default, Derived, Conditional };

struct KeyInfo {
    std::string_view table; ///< "ground"; see Dictionary::repeated
    std::string_view key;   ///< carries the unit
    ValueType type = ValueType::Number;
    Presence presence = Presence::Required;
    std::string standard; ///< default as it would be written in the file; Derived: in words
    double low = 0;       ///< allowed range of every number of the value, both ends included
    double high = 0;
    std::vector<std::string> choices; ///< Word only
    std::string_view meaning;
    std::string_view source; ///< of default and range
};

/// All keys that do not depend on the soil model, in the order of a case file.
const std::vector<KeyInfo>& vocabulary();

/// The keys one kind of file may have.
struct Dictionary {
    std::vector<KeyInfo> keys;
    std::vector<std::string_view> repeated; ///< tables that may stand several times: "layer" as [[layer]]
    std::string_view title;                 ///< of the help
    std::string_view help_command;          ///< that prints it

    bool repeats(std::string_view table) const;
};
const Dictionary& case_dictionary();
const Dictionary& soil_test_dictionary();
const Dictionary& site_dictionary();
const Dictionary& works_dictionary();
const Dictionary& report_dictionary();
const Dictionary& study_dictionary();
const Dictionary& style_dictionary();
/// All of these.
std::vector<std::reference_wrapper<const Dictionary>> dictionaries();

/// Most members of a study (own choice).
inline constexpr int most_study_members = 10000;

/// The parameters of a soil model as keys of [soil]; empty for an unknown model.
std::vector<KeyInfo> soil_keys(std::string_view model);

/// Further keys of [soil] with a soil model: rules by which parameters that are not given follow from others.
std::vector<KeyInfo> soil_rule_keys(std::string_view model);

/// Names of all tables, in order.
std::vector<std::string> table_names(const Dictionary& dictionary = case_dictionary());

/// As written in the file: "[ground]", "[[layer]]".
std::string header_of(std::string_view table, const Dictionary& dictionary = case_dictionary());

/// The names of the soil models the program knows.
std::vector<std::string> soil_model_names();

/// Unit by the ending of a key, "-" for a number without unit: "spacing_m" is in "m".
std::string_view unit_of(std::string_view key);

/// Allowed values in words: "0.1 .. 3 m", "\"shared\" or \"fixed\"".
std::string allowed_values(const KeyInfo& info);

/// All keys as text for the terminal: type, default, range, meaning and source of each.
std::string vocabulary_help(const Dictionary& dictionary = case_dictionary());

} // namespace interpile::io
