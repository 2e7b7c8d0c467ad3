// Every key of a works file.

#include "io/key_rows.h"

#include <algorithm>

namespace interpile::io {

namespace {

using enum Presence;
using enum ValueType;

constexpr std::string_view border_rule =
    "rules for specified construction work (Japan), city and ministry pages; local rules go first";

KeyInfo number(std::string_view table, std::string_view key, Presence presence, std::string value, double low,
               double high, std::string_view meaning, std::string_view source = usual_sense) {
    return {table, key, Number, presence, std::move(value), low, high, {}, meaning, source};
}

KeyInfo text(std::string_view table, std::string_view key, Presence presence, std::string value,
             std::string_view meaning, std::string_view source) {
    return {table, key, Text, presence, std::move(value), 0, 0, {}, meaning, source};
}

KeyInfo interval(std::string_view key, std::string value, double high, std::string_view meaning,
                 std::string_view source) {
    return {"surroundings", key, Interval, Default, std::move(value), 0, high, {}, meaning, source};
}

/// What a case file says the same way.
KeyInfo of_cases(std::string_view table, std::string_view key) {
    return *std::find_if(vocabulary().begin(), vocabulary().end(),
                         [&](const KeyInfo& info) { return info.table == table && info.key == key; });
}

KeyInfo finished_diameter() {
    KeyInfo info = of_cases("pile", "diameter_m");
    info.presence = Required; // what is ordered must be written down
    info.source = usual_sense;
    return info;
}

/// Piles of a site are made one after another, and not in cells.
KeyInfo kind_of_order() {
    KeyInfo info = of_cases("order", "kind");
    std::erase(info.choices, "together");
    info.meaning = "order of work, one pile after another";
    return info;
}

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> ordered_piles() {
    return {
        text("works", "title", Derived, "name of the file", "heading of the instruction", own),

        number("pile", "casing_diameter_m", Required, {}, 0.05, 3,
               "outer diameter of the casing; the open cross section is taken equal; not above diameter_m"),
        finished_diameter(),
        number("pile", "top_depth_m", Required, {}, 0, 100, "top of the finished pile, below the surface"),
        number("pile", "bottom_depth_m", Required, {}, 0.1, 100,
               "lower end of the pile, below the surface: deepest tip of the casing"),
        number("pile", "net_rise_m", Required, {}, 0.05, 10,
               "rise of the tip per stroke; withdrawal and re-drive follow from the volume balance"),
        number("pile", "bulking", Default, "1.2", 1, 2,
               "loose volume of the sand over its volume in the pile; to be measured at the site",
               "common practice, no source: 1.0 .. 1.3 usual; 1.2 is our choice among them"),
    };
}

std::vector<KeyInfo> place_and_order() {
    std::vector<KeyInfo> keys;
    for (const KeyInfo& info : vocabulary())
        if (info.table == "layout")
            keys.push_back(info);
    keys.push_back(number("layout", "area_per_pile_m2", Derived, "of the pattern", 0.01, 1000,
                          "plan area that belongs to a pile; listed only, where [as_built] needs it", own));
    keys.push_back(kind_of_order());
    keys.push_back(of_cases("order", "from"));
    keys.push_back(of_cases("order", "sequence"));
    keys.push_back(number("order", "rest_h", Default, "0", 0, 1000,
                          "rest of the rig after a pile before the next is begun", own));
    return keys;
}

std::vector<KeyInfo> as_built_keys() {
    return {
        number("limits", "position_m", Default, "0.1", 0, 10, "allowed distance of a pile from its place",
               "from memory of an owner's as-built standard"),
        number("limits", "verticality", Default, "0.01", 0, 1, "allowed slope of a pile, 1/100 is 0.01",
               practice),
        number("limits", "length_shortfall_m", Default, "0", 0, 100,
               "allowed shortfall at either end of a pile", "from memory of an owner's as-built standard"),
        number("limits", "least_volume_ratio", Default, "1", 0, 10,
               "sand in each meter over the ordered volume, at least", practice),

        text("as_built", "records", Conditional, {},
             "CSV file beside this one with the logs of the casing; needed with any other key of the table",
             "no default"),
        text("as_built", "survey", Conditional, {},
             "CSV file beside this one with the surveyed places of the piles: pile,x_m,y_m", "no default"),
        {"as_built",
         "sand_place",
         Word,
         Default,
         "within-net-rise",
         0,
         0,
         {"within-net-rise", "along-withdrawal"},
         "where the sand of a stroke is taken to end up; along-withdrawal: the re-drive presses it sideways "
         "only",
         "own choice: the volume balance of a stroke"},
        number("as_built", "bulking", Derived, "that of [pile]", 1, 2,
               "recorded volume over volume in the pile; 1: volumes are recorded in place",
               "own choice: what is recorded is the discharged, loose sand"),
    };
}

std::vector<KeyInfo> surroundings_keys() {
    return {
        number("surroundings", "border_distance_m", Conditional, {}, 0.1, 1e4,
               "from the nearest pile axis to the site border; the command neighbors needs it"),
        interval("efficiency", "[0.5, 0.9]", 1,
                 "share of the pile volume that densifies the ground; the rest pushes", practice),
        interval("attenuation_per_m", "[0.01, 0.04]", 1, "of vibration in the ground, besides spreading",
                 "construction vibration manual (Japan, 1994), as quoted on a public page"),
        number("surroundings", "vibration_limit_dB", Default, "75", 0, 150,
               "at the border: vertical, weighted, re 1e-5 m/s2", border_rule),
        number("surroundings", "noise_limit_dB", Default, "85", 0, 150, "at the border: dB(A) re 20 uPa",
               border_rule),
        number("surroundings", "work_start_h", Conditional, {}, 0, 24,
               "allowed working hours of a day, only told with the result; goes with work_end_h",
               "no default: local rules"),
        number("surroundings", "work_end_h", Conditional, {}, 0, 24, "goes with work_start_h",
               "no default: local rules"),

        text("place", "name", Derived, "number of the place",
             "a place at the surface to look at, each under its own [[place]]", own),
        number("place", "x_m", Required, {}, -1e4, 1e4, "outside the piles"),
        number("place", "y_m", Required, {}, -1e4, 1e4, "outside the piles"),
    };
}
// clang-format on

} // namespace

const Dictionary& works_dictionary() {
    static const Dictionary dictionary = [] {
        Dictionary made = {ordered_piles(), {"place"}, "Keys of a works file (TOML)", "help-works"};
        for (const auto& part : {place_and_order(), as_built_keys(), surroundings_keys()})
            made.keys.insert(made.keys.end(), part.begin(), part.end());
        return made;
    }();
    return dictionary;
}

} // namespace interpile::io
