#pragma once
// Short forms of the rows of a vocabulary.

#include "io/vocabulary.h"

#include <utility>

namespace interpile::io {

inline constexpr std::string_view own = "own choice";
inline constexpr std::string_view practice = "common practice, no source";
inline constexpr std::string_view usual_sense =
    "no default; the range keeps out slips of the unit (own choice)";

struct Range {
    double low, high;
};

inline KeyInfo required(std::string_view table, std::string_view key, ValueType type, Range range,
                        std::string_view meaning, std::string_view source = usual_sense) {
    return {table, key, type, Presence::Required, {}, range.low, range.high, {}, meaning, source};
}

inline KeyInfo conditional(std::string_view table, std::string_view key, ValueType type, Range range,
                           std::string_view meaning, std::string_view source = usual_sense) {
    return {table, key, type, Presence::Conditional, {}, range.low, range.high, {}, meaning, source};
}

inline KeyInfo standard(std::string_view table, std::string_view key, ValueType type, std::string value,
                        Range range, std::string_view meaning, std::string_view source) {
    return {table,     key,        type, Presence::Default, std::move(value),
            range.low, range.high, {},   meaning,           source};
}

inline KeyInfo derived(std::string_view table, std::string_view key, ValueType type, std::string value,
                       Range range, std::string_view meaning, std::string_view source) {
    return {table,     key,        type, Presence::Derived, std::move(value),
            range.low, range.high, {},   meaning,           source};
}

/// A word with a default, or without one where `value` is empty (then it is required).
inline KeyInfo word(std::string_view table, std::string_view key, std::string value,
                    std::vector<std::string> choices, std::string_view meaning, std::string_view source) {
    const Presence presence = value.empty() ? Presence::Required : Presence::Default;
    return {table, key, ValueType::Word,    presence, std::move(value),
            0,     0,   std::move(choices), meaning,  source};
}

} // namespace interpile::io
