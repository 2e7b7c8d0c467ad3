// Every key of a file of laboratory tests.

#include "io/key_rows.h"

#include <algorithm>

namespace interpile::io {

namespace {

using enum Presence;
using enum ValueType;

/// What a case file says the same way.
std::vector<KeyInfo> shared_with_cases() {
    std::vector<KeyInfo> keys;
    for (const KeyInfo& info : vocabulary()) {
        const bool density = info.table == "ground" && (info.key == "e_max" || info.key == "e_min");
        const bool model = info.table == "soil" && info.key == "model";
        const bool title = info.table == "case" && info.key == "title";
        if (density || model || title)
            keys.push_back(info);
    }
    return keys;
}

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> keys_of_a_test() {
    const auto conditional = [](std::string_view key, ValueType type, double low, double high,
                                std::string_view meaning) {
        return KeyInfo{"test", key, type, Conditional, {}, low, high, {}, meaning, usual_sense};
    };
    return {
        {"test", "name", Text, Derived, "number of the test", 0, 0, {}, "in the legend", own},
        {"test",
         "kind",
         Word,
         Required,
         {},
         0,
         0,
         {"triaxial", "triaxial-constant-p", "biaxial", "simple-shear", "torsional-shear", "oedometer"},
         "triaxial: lateral stress held; triaxial-constant-p: mean stress held; biaxial: plane strain, one "
         "lateral "
         "stress held; simple-shear: no lateral strain, vertical stress held; torsional-shear: all normal "
         "stresses "
         "held; oedometer: no lateral strain",
         "no default"},
        {"test",
         "drainage",
         Word,
         Default,
         "drained",
         0,
         0,
         {"drained", "undrained"},
         "undrained: constant volume instead of the held stress; triaxial, biaxial and simple-shear only",
         own},
        {"test",
         "vertical_stress_kPa",
         Number,
         Required,
         {},
         0.1,
         1e5,
         {},
         "effective, at the start",
         usual_sense},
        {"test",
         "K0",
         Number,
         Default,
         "1",
         0.3,
         3,
         {},
         "lateral over vertical effective stress at the start",
         "isotropic consolidation; the soil model may narrow the range"},
        conditional("relative_density_pct", Number, 0, 100, "at the start; give either this or void_ratio"),
        conditional("void_ratio", Number, 0.2, 3, "at the start; give either this or relative_density_pct"),
        conditional("strain_path_pct", Numbers, -60, 60,
                    "turning points of the axial strain (shear tests: of the shear strain gamma), shortening "
                    "positive; [20] is a monotonic test, [-15] an extension"),
        conditional(
            "stress_path_kPa", Numbers, -1e5, 1e5,
            "turning points of q (shear tests: of the shear stress; oedometer: of the vertical stress)"),
        conditional("strain_amplitude_pct", Number, 1e-4, 20, "cycles between plus and minus this strain"),
        conditional("stress_amplitude_kPa", Number, 1e-3, 1e5,
                    "cycles between plus and minus this q or shear stress"),
        conditional("cycles", Count, 1, 500, "needed with an amplitude"),
        {"test",
         "strain_step",
         Number,
         Default,
         "1e-4",
         1e-6,
         1e-2,
         {},
         "largest step of the driven strain, a fraction",
         "own choice; one step is recorded in each row"},
        {"test",
         "stop_strain_pct",
         Number,
         Derived,
         "the largest of strain_path_pct, else 20",
         1e-3,
         60,
         {},
         "the test ends where the driven strain passes this",
         own},
        conditional("stop_double_amplitude_pct", Number, 1e-3, 60,
                    "the test ends where the driven strain, from one turning point towards the next, has "
                    "covered this; "
                    "with stress_amplitude_kPa only; usual: 5 (axial), 7.5 (shear strain)"),
        conditional("stop_stress_ratio", Number, 0.01, 3,
                    "the test ends where q/p', in shear tests the shear over the vertical effective stress, "
                    "reaches this "
                    "either way"),
        conditional(
            "stop_excess_pressure_ratio", Number, 0.01, 1,
            "undrained tests: the test ends where r_u reaches this, the loss of the lateral (simple shear: "
            "vertical) effective stress over its initial value; usual: 0.95"),
        {"test",
         "stop_mean_stress_kPa",
         Number,
         Default,
         "0",
         0,
         1e5,
         {},
         "the test ends where the mean effective stress falls below this",
         own},
        {"test",
         "measured",
         Text,
         Conditional,
         {},
         0,
         0,
         {},
         "CSV file beside this one with measured points; its heads are heads of the written curves",
         "no default"},
        {"test",
         "measured_label",
         Text,
         Derived,
         "measured",
         0,
         0,
         {},
         "what the points of `measured` are, in the legend: laboratory and specimen, or that they are no "
         "measurements",
         own},
    };
}
// clang-format on

} // namespace

const Dictionary& soil_test_dictionary() {
    static const Dictionary dictionary = [] {
        Dictionary made = {
            shared_with_cases(), {"test"}, "Keys of a file of laboratory tests (TOML)", "help-soil-test"};
        const auto test = keys_of_a_test();
        made.keys.insert(made.keys.end(), test.begin(), test.end());
        return made;
    }();
    return dictionary;
}

} // namespace interpile::io
