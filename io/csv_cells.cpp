#include "io/csv_cells.h"

#include "io/text_lines.h"

#include <charconv>
#include <cmath>

namespace interpile::io {

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::vector<CsvCell> split_cells(std::string_view line) {
    std::vector<CsvCell> cells;
    std::size_t start = 0;
    while (true) {
        const auto comma = line.find(',', start);
        const auto raw = line.substr(start, comma - start);
        const auto text = trimmed(raw);
        const auto skipped = text.empty() ? start : static_cast<std::size_t>(text.data() - line.data());
        cells.push_back({text, character_count(line.substr(0, skipped)) + 1});
        if (comma == std::string_view::npos)
            return cells;
        start = comma + 1;
    }
}

std::optional<double> number_of(std::string_view text, double largest) {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || !(std::abs(number) <= largest))
        return {};
    return number;
}

} // namespace interpile::io
