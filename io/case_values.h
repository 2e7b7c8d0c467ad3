#pragma once
// The values of a case file, each checked against the vocabulary for type and range, with its place in the
// file.

#include "io/case_file.h"
#include "io/fault_list.h"
#include "io/vocabulary.h"

#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace interpile::io {

/// Text, Word and DateTime; Number and Count; Flag; Interval, Point, Counts and Numbers; Points; Texts; Wordings.
using Value = std::variant<std::string, double, bool, std::vector<double>, std::vector<mesh::Vec2>,
                           std::vector<std::string>, std::map<std::string, std::string>>;

/// Values by path: "ground.K0", of the second layer "layer[2].thickness_m". A value that is faulty or not
/// given has no value here; rules about several values ask has() first, so that one slip gives one message.
class CaseValues {
public:
    /// Read and check everything the vocabulary alone can check; faults go into the list.
    explicit CaseValues(FaultList& faults, const Dictionary& dictionary = case_dictionary());

    /// A sound value, given or default.
    bool has(std::string_view path) const { return entries_.contains(std::string(path)); }
    /// The user wrote it, sound or not.
    bool given(std::string_view path) const { return places_.contains(std::string(path)); }
    /// Whether the user wrote a value of this table that is faulty.
    bool any_unsound(std::string_view table) const;
    /// How often a repeated table stands in the file: layers and regions of a case, laboratory tests.
    int repeated_count(std::string_view table) const;

    /// \throws std::out_of_range, std::bad_variant_access  a mistake of the program: ask has() first
    double number(std::string_view path) const { return value<double>(path); }
    int count(std::string_view path) const { return static_cast<int>(number(path)); }
    bool flag(std::string_view path) const { return value<bool>(path); }
    const std::string& text(std::string_view path) const { return value<std::string>(path); }
    const std::vector<std::string>& texts(std::string_view path) const {
        return value<std::vector<std::string>>(path);
    }
    const std::map<std::string, std::string>& wordings(std::string_view path) const {
        return value<std::map<std::string, std::string>>(path);
    }
    const std::vector<double>& numbers(std::string_view path) const {
        return value<std::vector<double>>(path);
    }
    const std::vector<mesh::Vec2>& points(std::string_view path) const {
        return value<std::vector<mesh::Vec2>>(path);
    }

    /// Where the value stands, else the header of its table, else nowhere.
    Place place(std::string_view path) const;
    /// Where element i of a list stands; the list itself if that is not known.
    Place element_place(std::string_view path, std::size_t i) const;
    /// "layout.spacing_m = 0.17" as written in the file; only the path where the value is a default.
    std::string as_written(std::string_view path) const;

    FaultList& faults() const { return faults_; }
    /// A fault of one value: "PATH = VALUE WHAT".
    void fault(std::string_view path, const std::string& what, const std::string& mend = {}) const;
    /// A key that other values make necessary.
    void missing(std::string_view path, const std::string& why) const;
    /// A key that other values make void: a fault if given, else it is dropped from the values in force.
    void no_effect(std::string_view path, const std::string& because);
    /// Fill a value that follows from others, unless it was given.
    void derive(std::string_view path, double value);
    void derive(std::string_view path, std::string text);
    /// The same in place of a default: `how` it follows, in words, and the source of that.
    void derive_instead(std::string_view path, double value, std::string how, std::string_view source);
    /// Every value in force, in the order of the vocabulary.
    std::vector<SettingInForce> settings() const;

private:
    friend class CaseReading;
    struct Entry {
        KeyInfo info;
        Value value;
        bool is_default = false;
    };

    template <class T>
    const T& value(std::string_view path) const {
        return std::get<T>(entries_.at(std::string(path)).value);
    }
    void derive_value(std::string_view path, Value value);

    FaultList& faults_;
    std::map<std::string, Entry, std::less<>> entries_;
    std::map<std::string, KeyInfo, std::less<>> known_; ///< every path that may stand in this file
    std::vector<std::string> order_;                    ///< the same paths in the order of the vocabulary
    std::map<std::string, Place, std::less<>> places_;  ///< of given values
    std::map<std::string, std::vector<Place>, std::less<>> element_places_;
    std::map<std::string, Place, std::less<>> headers_; ///< "ground", "layer[1]"
    std::map<std::string, int, std::less<>> repeated_count_;
};

} // namespace interpile::io
