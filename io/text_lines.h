#pragma once
// Lines and characters of a UTF-8 text, for messages that quote it.

#include <string>
#include <string_view>

namespace interpile::io {

/// Line `number` (1-based) without its end, or empty if the text has fewer lines.
std::string_view line_of(std::string_view text, int number);

/// `count` characters (code points) of a line from the 1-based column on; shorter where the line ends.
std::string_view characters(std::string_view line, int column, int count);

/// Number of characters (code points).
int character_count(std::string_view line);

/// The same characters, safe for a terminal: control characters and bytes that are not UTF-8 become '?', a
/// tab becomes one blank, so that the width in characters does not change.
std::string printable(std::string_view line);

} // namespace interpile::io
