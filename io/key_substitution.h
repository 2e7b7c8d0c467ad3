#pragma once
// A case file with another value of one key.

#include <string>
#include <string_view>

namespace interpile::io {

/// The text with `key = literal`; the rest, remarks included, stays as it is. A key that is not there is added below the
/// header of its table, a table that is not there at the end. Of a repeated table it must be there.
/// \param text     sound TOML
/// \param path     "layout.spacing_m", "layer[2].thickness_m" counted from 1
/// \param literal  as written in the file: 1.7, "square"
/// \throws std::invalid_argument  the key cannot be put into this text, with the reason in words
std::string with_value(const std::string& text, std::string_view path, std::string_view literal);

} // namespace interpile::io
