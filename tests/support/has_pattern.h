#pragma once
// A pattern somewhere in a long text.

#include <catch2/catch.hpp>

#include <regex>
#include <string>

namespace interpile::testing {

/// Searches instead of matching the whole: the library matches a text of some kilobytes by recursion, once for each
/// letter, which overflows the stack.
inline auto HasPattern(const std::string& pattern) {
    const std::regex expression(pattern);
    return Catch::Predicate<std::string>(
        [expression](const std::string& text) { return std::regex_search(text, expression); },
        "has the pattern " + pattern);
}

} // namespace interpile::testing
