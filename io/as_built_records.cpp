#include "io/as_built_records.h"

#include "io/case_parts.h"
#include "io/csv_cells.h"
#include "io/fault_list.h"
#include "io/text_lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <map>
#include <optional>

namespace interpile::io {
namespace {

using solver::AsBuiltRecord;
using solver::AsBuiltSample;

constexpr const char* pile_head = "pile";

/// A column of numbers.
struct Column {
    const char* name;
    double low, high;
    bool optional;
    const char* advice;
    void (*set)(AsBuiltSample&, double);
};

const std::vector<Column>& number_columns() {
    static const std::vector<Column> columns = {
        {"time_s", 0, 1e10, false, "Seconds, not a time of day.",
         [](AsBuiltSample& s, double value) { s.time_s = value; }},
        {"tip_depth_m", 0, 100, false, "Meters below the surface, positive downward.",
         [](AsBuiltSample& s, double value) { s.tip_depth_m = value; }},
        {"sand_volume_m3", 0, 1e4, false, "Discharged since the start of the pile, in cubic meters.",
         [](AsBuiltSample& s, double value) { s.sand_volume_m3 = value; }},
        {"driving_resistance_kN", -1e5, 1e5, true, "In kN; leave the cell empty where nothing was recorded.",
         [](AsBuiltSample& s, double value) { s.driving_resistance_kN = value; }},
        {"inclination_deg", -45, 45, true,
         "From the vertical, in degrees; leave the cell empty where nothing was recorded.",
         [](AsBuiltSample& s, double value) { s.inclination_deg = value; }},
    };
    return columns;
}

std::vector<std::string> known_heads() {
    std::vector<std::string> known = {pile_head};
    for (const Column& column : number_columns())
        known.emplace_back(column.name);
    return known;
}

/// Place of the first byte that is no text.
std::optional<Place> not_utf8(std::string_view text) {
    Place place{1, 1, 1};
    while (!text.empty()) {
        const auto length = characters(text, 1, 1).size();
        const auto first = static_cast<unsigned char>(text.front());
        if (first == 0 || (length == 1 && first >= 0x80))
            return place;
        place = first == '\n' ? Place{place.line + 1, 1, 1} : Place{place.line, place.column + 1, 1};
        text.remove_prefix(length);
    }
    return {};
}

class Reading {
public:
    Reading(std::string text, const std::filesystem::path& file) : faults_(file.string(), std::move(text)) {}

    std::vector<AsBuiltRecord> records() {
        if (read_head())
            for (const CsvRow& row : rows_below_head(faults_.text()))
                read_row(row);
        if (records_.empty() && faults_.empty())
            faults_.add({1, 1, 1}, "the table has no records", "Write one row per sample below the head.");
        if (faults_.empty()) // else a faulty row may be the missing one
            for (std::size_t i = 0; i < records_.size(); ++i)
                if (records_[i].samples.size() == 1)
                    blame(last_row_[i], {line_of(faults_.text(), last_row_[i]), 1},
                          fmt::format("pile {} has one sample only", printable(records_[i].pile)),
                          "At least two are needed, from the start and the end of the work.");
        if (left_out_ > 0)
            faults_.add(Place{}, fmt::format("{} more faults are not listed", left_out_), "");
        faults_.throw_if_any();
        return std::move(records_);
    }

private:
    void blame(int number, const CsvCell& cell, std::string what, std::string mend) {
        constexpr std::size_t most_listed = 50; // one slip of an export can be in every row
        if (faults_.count() < most_listed)
            faults_.add(Place{number, cell.column, std::max(1, character_count(cell.text))}, std::move(what),
                        std::move(mend));
        else
            ++left_out_;
    }

    /// False where the rows cannot be read by it.
    bool read_head() {
        const auto place = not_utf8(faults_.text());
        if (place) {
            faults_.add(*place, "this byte is not UTF-8 text", "Save the file with the encoding UTF-8.");
            return false;
        }
        const std::string_view line = line_of(faults_.text(), 1);
        const auto known = known_heads();
        if (trimmed(line).empty()) {
            faults_.add({1, 1, 1}, faults_.text().empty() ? "the file is empty" : "the first line is empty",
                        fmt::format("Write the head there: {}.", fmt::join(known, ",")));
            return false;
        }
        heads_ = split_cells(line);
        if (heads_.size() == 1 && line.find_first_of(";\t") != std::string_view::npos) {
            blame(1, heads_[0], "the cells are not separated by commas",
                  "Export with commas between cells and decimal points.");
            return false;
        }
        for (std::size_t i = 0; i < heads_.size(); ++i)
            read_head_cell(i, known);
        for (const std::string& name : known) {
            const auto stands_for = [&](const CsvCell& head) {
                return head.text == name ||
                       nearest_word(head.text, known) == name; // one fault per misspelled head
            };
            if (!is_optional(name) && std::none_of(heads_.begin(), heads_.end(), stands_for))
                faults_.add({1, 1, character_count(line)}, fmt::format("column {} is missing", name),
                            fmt::format("Needed: {}.", fmt::join(known.begin(), known.begin() + 4, ", ")));
        }
        return faults_.empty();
    }

    void read_head_cell(std::size_t i, const std::vector<std::string>& known) {
        const CsvCell& head = heads_[i];
        const auto same = [&](const CsvCell& other) { return other.text == head.text; };
        if (std::find(known.begin(), known.end(), head.text) == known.end()) {
            const std::string near = nearest_word(head.text, known);
            blame(1, head, fmt::format("\"{}\" is not the head of a column", printable(head.text)),
                  near.empty() ? fmt::format("Known: {}.", fmt::join(known, ", "))
                               : fmt::format("Did you mean {}?", near));
        } else if (std::any_of(heads_.begin(), heads_.begin() + static_cast<std::ptrdiff_t>(i), same)) {
            blame(1, head, fmt::format("column {} stands here twice", head.text), "Leave one of them out.");
        }
    }

    static bool is_optional(std::string_view name) {
        return std::any_of(number_columns().begin(), number_columns().end(),
                           [&](const Column& column) { return column.name == name && column.optional; });
    }

    void read_row(const CsvRow& row) {
        if (row.cells.size() != heads_.size()) {
            const bool more = row.cells.size() > heads_.size();
            blame(row.number, {row.line, 1},
                  fmt::format("row {} has {} values instead of {}", row.number, row.cells.size(),
                              heads_.size()),
                  more ? "A decimal comma counts as the end of a cell: write decimal points."
                       : "Give every column of the head a cell; cells of optional columns may be empty.");
            return;
        }
        AsBuiltSample sample;
        std::string pile;
        bool sound = true;
        for (std::size_t i = 0; i < heads_.size(); ++i)
            sound &= heads_[i].text == pile_head ? read_pile(row, row.cells[i], pile)
                                                 : read_number(row, heads_[i].text, row.cells[i], sample);
        if (!sound)
            return;
        const auto [found, is_new] = number_of_pile_.try_emplace(pile, records_.size());
        if (is_new) {
            records_.push_back({pile, {}, {}});
            last_row_.push_back(row.number);
        }
        const std::size_t index = found->second;
        auto& samples = records_[index].samples;
        if (!samples.empty())
            compare(row, samples.back(), sample, index);
        samples.push_back(sample);
        last_row_[index] = row.number;
    }

    bool read_pile(const CsvRow& row, const CsvCell& cell, std::string& pile) {
        pile = cell.text;
        const bool sound = !pile.empty() && pile.find('"') == std::string::npos;
        if (!sound)
            blame(row.number, cell,
                  pile.empty() ? fmt::format("row {}, column {}: the cell is empty", row.number, pile_head)
                               : fmt::format("row {}, column {}: {} has quotation marks", row.number,
                                             pile_head, printable(pile)),
                  "Name the pile, without quotation marks.");
        return sound;
    }

    bool read_number(const CsvRow& row, std::string_view head, const CsvCell& cell, AsBuiltSample& sample) {
        const auto& columns = number_columns();
        const Column& column = *std::find_if(columns.begin(), columns.end(),
                                             [&](const Column& known) { return known.name == head; });
        if (cell.text.empty() && column.optional)
            return true;
        const auto value = number_of(cell.text, std::numeric_limits<double>::max());
        if (value && *value >= column.low && *value <= column.high) {
            column.set(sample, *value);
            return true;
        }
        const std::string where = fmt::format("row {}, column {}: ", row.number, head);
        blame(row.number, cell,
              where + (cell.text.empty() ? "the cell is empty"
                       : value ? fmt::format("{} is outside {} .. {}", cell.text, column.low, column.high)
                               : fmt::format("\"{}\" is not a number", printable(cell.text))),
              column.advice);
        return false;
    }

    /// Within a pile nothing runs backward.
    void compare(const CsvRow& row, const AsBuiltSample& before, const AsBuiltSample& now,
                 std::size_t index) {
        const auto require_grown = [&](std::string_view head, double first, double second, const char* what,
                                       const char* mend) {
            if (second >= first)
                return;
            const auto at = std::find_if(heads_.begin(), heads_.end(),
                                         [&](const CsvCell& cell) { return cell.text == head; });
            blame(row.number, row.cells[static_cast<std::size_t>(at - heads_.begin())],
                  fmt::format("row {}, column {}: {} is below {} in row {} of pile {}: {}", row.number, head,
                              second, first, last_row_[index], printable(records_[index].pile), what),
                  mend);
        };
        require_grown("time_s", before.time_s, now.time_s, "time runs backward",
                      "Sort the rows of a pile by time; give a pile made twice two names.");
        require_grown("sand_volume_m3", before.sand_volume_m3, now.sand_volume_m3,
                      "the cumulative volume falls",
                      "Write the volume discharged since the start of the pile, not since the last charge.");
    }

    FaultList faults_;
    std::size_t left_out_ = 0;
    std::vector<CsvCell> heads_; // views of the text of faults_
    std::vector<AsBuiltRecord> records_;
    std::map<std::string, std::size_t> number_of_pile_;
    std::vector<int> last_row_; // of each record, the last one that could be read
};

} // namespace

std::vector<AsBuiltRecord> parse_as_built_records(std::string text, const std::filesystem::path& file) {
    if (text.starts_with("\xEF\xBB\xBF")) // byte order mark, as spreadsheets write it
        text.erase(0, 3);
    return Reading(std::move(text), file).records();
}

std::vector<AsBuiltRecord> read_as_built_records(const std::filesystem::path& file) {
    return parse_as_built_records(read_text_file(file), file);
}

} // namespace interpile::io
