#pragma once
// Cells and numbers of a CSV line, with their columns for messages.

#include "io/diagnostics.h"

#include <filesystem>
#include <optional>
#include <string>
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

struct CsvRow {
    int number = 1; ///< line of the file, from 1
    std::string_view line;
    std::vector<CsvCell> cells;
};

/// The rows below the head, without blank lines.
std::vector<CsvRow> rows_below_head(std::string_view text);

/// A fault at a cell of a line.
Fault fault_at(const std::filesystem::path& file, std::string_view text, int number, const CsvCell& cell,
               std::string what, std::string mend);

/// A text as a cell to be written, in quotes where it needs them (RFC 4180).
std::string written_cell(std::string_view text);

/// A decimal number in full; empty if it is none or larger than `largest` in size.
std::optional<double> number_of(std::string_view text, double largest);

} // namespace interpile::io
