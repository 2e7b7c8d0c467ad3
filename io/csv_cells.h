#pragma once
// Cells and numbers of a CSV line, with their columns for messages.

#include <optional>
#include <string_view>
#include <vector>

namespace interpile::io {

/// Without blanks and tabs at both ends.
std::string_view trimmed(std::string_view text);

struct CsvCell {
    std::string_view text;
    int column = 1; ///< of its first character in the line
};

/// The cells between commas, trimmed; at least one.
std::vector<CsvCell> split_cells(std::string_view line);

/// A decimal number in full; empty if it is none or larger than `largest` in size.
std::optional<double> number_of(std::string_view text, double largest);

} // namespace interpile::io
