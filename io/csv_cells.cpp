#include "io/csv_cells.h"

#include "io/text_lines.h"

#include <algorithm>
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

std::vector<CsvRow> rows_below_head(std::string_view text) {
    std::vector<CsvRow> rows;
    for (int number = 1; !text.empty(); ++number) { // line by line, not line_of(): a log has many thousands
        const std::string_view line = line_of(text, 1);
        if (number > 1 && !trimmed(line).empty())
            rows.push_back({number, line, split_cells(line)});
        text.remove_prefix(std::min(text.find('\n'), text.size() - 1) + 1);
    }
    return rows;
}

Fault fault_at(const std::filesystem::path& file, std::string_view text, int number, const CsvCell& cell,
               std::string what, std::string mend) {
    const auto line = line_of(text, number);
    return {file.string(),
            number,
            cell.column,
            std::max(1, character_count(cell.text)),
            std::move(what),
            std::move(mend),
            line.empty() ? " " : std::string(line)};
}

std::string written_cell(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos)
        return std::string(text);
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + '"';
}

std::optional<double> number_of(std::string_view text, double largest) {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || !(std::abs(number) <= largest))
        return {};
    return number;
}

} // namespace interpile::io
