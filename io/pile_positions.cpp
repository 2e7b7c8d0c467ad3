// Pile centers from a table beside the case file.

#include "io/case_parts.h"
#include "io/csv_cells.h"
#include "io/text_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <functional>
#include <optional>
#include <set>
#include <sstream>

namespace interpile::io {

namespace {

constexpr double farthest_m = 1e4; // as for layout.positions_m

} // namespace

std::string read_text_file(const std::filesystem::path& file) {
    if (std::filesystem::is_directory(file))
        throw FileTrouble(fmt::format("{} is a folder, a file is needed.", file.string()));
    std::ifstream stream(file, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream)
        throw FileTrouble(fmt::format("{} cannot be read; check its name and permissions.", file.string()));
    return text.str();
}

std::vector<PlacedPile> read_positions(const std::filesystem::path& file, FaultList& faults) {
    const std::string text = read_text_file(file);
    const auto blame = [&](int number, const CsvCell& cell, std::string what, std::string mend) {
        faults.add(fault_at(file, text, number, cell, std::move(what), std::move(mend)));
    };
    const auto header = split_cells(line_of(text, 1));
    const bool named = header.size() == 3 && header[0].text == "pile";
    const std::size_t first = named ? 1 : 0; // column of x
    if (header.size() != first + 2 || header[first].text != "x_m" || header[first + 1].text != "y_m") {
        blame(1, header.front(), "the first line is not the head x_m,y_m or pile,x_m,y_m",
              "Write one of them there; centers in meters below.");
        return {};
    }
    std::vector<PlacedPile> piles;
    std::set<std::string, std::less<>> names;
    for (const auto& [number, line, cells] : rows_below_head(text)) {
        if (cells.size() != header.size()) {
            blame(number, {line, 1},
                  fmt::format("row {} has {} values instead of {}", number, cells.size(), header.size()),
                  "One pile per row, as the head says, with decimal points.");
            continue;
        }
        const std::string name(named ? cells[0].text : "");
        if (named && (name.empty() || printable(name) != name))
            blame(number, cells[0], fmt::format("row {}: the pile has no printable name", number), "");
        else if (named && !names.insert(name).second)
            blame(number, cells[0], fmt::format("row {}: pile \"{}\" stands above already", number, name),
                  "Every pile needs a name of its own.");
        std::array<std::optional<double>, 2> value;
        for (std::size_t i = 0; i < 2; ++i) {
            const CsvCell& cell = cells[first + i];
            value[i] = number_of(cell.text, farthest_m);
            if (!value[i])
                blame(number, cell,
                      fmt::format("row {}, column {}: \"{}\" is not a number within -10000 .. 10000 m",
                                  number, header[first + i].text, printable(cell.text)),
                      "");
        }
        if (value[0] && value[1])
            piles.push_back({{*value[0], *value[1]},
                             {file.string(), number, 1, character_count(line), {}, {}, std::string(line)},
                             name});
    }
    if (piles.empty() && faults.empty())
        blame(1, header.front(), "the table has no piles", "Write one row per pile below the head.");
    return piles;
}

} // namespace interpile::io
