// Piles from a table beside the case file.

#include "io/case_parts.h"
#include "io/csv_cells.h"
#include "io/text_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <sstream>

namespace interpile::io {

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

namespace {

constexpr double farthest_m = 1e4;                             // as for layout.positions_m
constexpr double least_diameter_m = 1e-4, most_diameter_m = 3; // as for pile.diameter_m
constexpr double most_places = 1e6;
constexpr double most_rigs = 20; // as for schedule.rigs

class PositionsReader {
public:
    PositionsReader(const std::filesystem::path& file, FaultList& faults)
        : file_(file), text_(read_text_file(file)), faults_(faults) {}

    std::vector<PlacedPile> read() {
        if (!read_head())
            return {};
        std::vector<PlacedPile> piles;
        for (const CsvRow& row : rows_below_head(text_))
            if (const auto pile = pile_of(row))
                piles.push_back(*pile);
        if (piles.empty() && faults_.empty())
            blame(1, head_.front(), "the table has no piles", "Write one row per pile below the head.");
        return piles;
    }

private:
    void blame(int number, const CsvCell& cell, std::string what, std::string mend = {}) {
        faults_.add(fault_at(file_, text_, number, cell, std::move(what), std::move(mend)));
    }

    /// Columns stand in a fixed order; all but the center may be missing.
    bool read_head() {
        head_ = split_cells(line_of(text_, 1));
        std::size_t next = 0;
        for (const char* column : {"pile", "x_m", "y_m", "diameter_m", "place_in_order", "rig"})
            if (next < head_.size() && head_[next].text == column)
                column_of_[column] = next++;
        if (next == head_.size() && column_of_.contains("x_m") && column_of_.contains("y_m"))
            return true;
        blame(1, head_.front(),
              "the first line is not the head x_m,y_m or pile,x_m,y_m, with diameter_m, place_in_order and "
              "rig behind it or not",
              "Write one of them there; centers in meters below.");
        return false;
    }

    const CsvCell* cell(const CsvRow& row, const char* column) const {
        const auto found = column_of_.find(column);
        return found == column_of_.end() ? nullptr : &row.cells[found->second];
    }

    std::optional<double> number(const CsvRow& row, const char* column, double low, double high,
                                 const char* unit) {
        const CsvCell& written = *cell(row, column);
        const auto value = number_of(written.text, high);
        if (value && *value >= low)
            return value;
        blame(row.number, written,
              fmt::format("row {}, column {}: \"{}\" is not a number within {:.6g} .. {:.6g}{}", row.number,
                          column, printable(written.text), low, high, unit));
        return {};
    }

    std::string name_of(const CsvRow& row) {
        const CsvCell* written = cell(row, "pile");
        if (written == nullptr)
            return {};
        std::string name(written->text);
        if (name.empty() || printable(name) != name)
            blame(row.number, *written, fmt::format("row {}: the pile has no printable name", row.number));
        else if (!names_.insert(name).second)
            blame(row.number, *written,
                  fmt::format("row {}: pile \"{}\" stands above already", row.number, name),
                  "Every pile needs a name of its own.");
        return name;
    }

    std::optional<double> place_of(const CsvRow& row) {
        const CsvCell* written = cell(row, "place_in_order");
        if (written == nullptr)
            return {};
        const auto place = number(row, "place_in_order", 0, most_places, "");
        if (place && !places_.insert(*place).second)
            blame(row.number, *written,
                  fmt::format("row {}: place {} in the order is taken above already", row.number,
                              written->text),
                  "Every pile needs a place of its own.");
        return place;
    }

    std::optional<double> rig_of(const CsvRow& row) {
        const CsvCell* written = cell(row, "rig");
        if (written == nullptr)
            return {};
        const auto rig = number(row, "rig", 1, most_rigs, "");
        if (rig && *rig != std::floor(*rig))
            blame(row.number, *written,
                  fmt::format("row {}, column rig: \"{}\" is not a whole number", row.number, written->text));
        return rig;
    }

    std::optional<PlacedPile> pile_of(const CsvRow& row) {
        if (row.cells.size() != head_.size()) {
            blame(
                row.number, {row.line, 1},
                fmt::format("row {} has {} values instead of {}", row.number, row.cells.size(), head_.size()),
                "One pile per row, as the head says, with decimal points.");
            return {};
        }
        PlacedPile pile;
        pile.name = name_of(row);
        const auto x = number(row, "x_m", -farthest_m, farthest_m, " m");
        const auto y = number(row, "y_m", -farthest_m, farthest_m, " m");
        if (const CsvCell* written = cell(row, "diameter_m"); written != nullptr && !written->text.empty())
            pile.diameter_m = number(row, "diameter_m", least_diameter_m, most_diameter_m, " m");
        pile.place_in_order = place_of(row);
        pile.rig = rig_of(row);
        if (!x || !y)
            return {};
        pile.center_m = {*x, *y};
        pile.origin = {file_.string(),       row.number, 1, character_count(row.line), {}, {},
                       std::string(row.line)};
        return pile;
    }

    std::filesystem::path file_;
    std::string text_;
    FaultList& faults_;
    std::vector<CsvCell> head_;
    std::map<std::string, std::size_t, std::less<>> column_of_;
    std::set<std::string, std::less<>> names_;
    std::set<double> places_;
};

} // namespace

std::vector<PlacedPile> read_positions(const std::filesystem::path& file, FaultList& faults) {
    return PositionsReader(file, faults).read();
}

} // namespace interpile::io
