#include "io/csv_table.h"

#include "io/text_lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <tuple>

namespace interpile::io {
namespace {

constexpr std::size_t most_listed = 50; // one slip of an export can be in every row

std::string without_mark(std::string text) {
    if (text.starts_with("\xEF\xBB\xBF")) // byte order mark, as spreadsheets write it
        text.erase(0, 3);
    return text;
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

/// The known head that is misspelled or lacks its unit; empty if none or several.
std::string head_meant(std::string_view head, const std::vector<std::string>& known) {
    std::string meant = nearest_word(head, known);
    if (!meant.empty() || head.empty())
        return meant;
    const auto lacks_unit = [&](const std::string& name) {
        return name.starts_with(fmt::format("{}_", head));
    };
    if (std::ranges::count_if(known, lacks_unit) == 1)
        meant = *std::ranges::find_if(known, lacks_unit);
    return meant;
}

struct Flaw {
    std::string what, mend;
};

std::optional<Flaw> flaw_of_text(const ColumnRule& rule, std::string_view cell) {
    if (cell.find('"') != std::string_view::npos)
        return Flaw{fmt::format("{} has quotation marks", printable(cell)),
                    "Write it without quotation marks and commas."};
    if (printable(cell) != cell)
        return Flaw{fmt::format("\"{}\" has control characters", printable(cell)), std::string(rule.advice)};
    if (rule.words.empty() || std::ranges::find(rule.words, cell) != rule.words.end())
        return {};
    const std::string near = nearest_word(cell, {rule.words.begin(), rule.words.end()});
    return Flaw{fmt::format("\"{}\" is not one of {}", printable(cell), fmt::join(rule.words, ", ")),
                near.empty() ? std::string(rule.advice) : fmt::format("Did you mean {}?", near)};
}

std::optional<Flaw> flaw_of_cell(const ColumnRule& rule, std::string_view cell) {
    if (cell.empty())
        return rule.may_lack ? std::nullopt
                             : std::optional<Flaw>({"the cell is empty", std::string(rule.advice)});
    if (rule.text)
        return flaw_of_text(rule, cell);
    const auto value = number_of(cell, std::numeric_limits<double>::max());
    if (!value)
        return Flaw{fmt::format("\"{}\" is not a number", printable(cell)), std::string(rule.advice)};
    if (*value >= rule.low && *value <= rule.high)
        return {};
    return Flaw{fmt::format("{} is outside {} .. {}", cell, rule.low, rule.high), std::string(rule.advice)};
}

} // namespace

CsvTable::CsvTable(std::string text, const std::filesystem::path& file, std::vector<ColumnRule> columns)
    : file_(file.string()), text_(without_mark(std::move(text))), columns_(std::move(columns)),
      cells_(columns_.size()) {
    if (!read_head())
        return;
    for (CsvRow& row : rows_below_head(text_))
        read_row(std::move(row));
    if (rows_.empty() && sound())
        blame_table("the table has no rows", "Write them below the head.");
}

/// False where the rows cannot be read by it.
bool CsvTable::read_head() {
    if (const auto place = not_utf8(text_)) {
        add(place->line, {"", place->column}, "this byte is not UTF-8 text",
            "Save the file with the encoding UTF-8.");
        return false;
    }
    std::vector<std::string> known;
    for (const ColumnRule& rule : columns_)
        known.emplace_back(rule.name);
    const std::string_view line = line_of(text_, 1);
    if (trimmed(line).empty()) {
        blame_table(text_.empty() ? "the file is empty" : "the first line is empty",
                    fmt::format("Write the head there: {}.", fmt::join(known, ",")));
        return false;
    }
    heads_ = split_cells(line);
    if (heads_.size() == 1 && line.find_first_of(";\t") != std::string_view::npos) {
        blame_table("the cells are not separated by commas",
                    "Export with commas between cells and decimal points.");
        return false;
    }
    for (std::size_t i = 0; i < heads_.size(); ++i)
        read_head_cell(i, known);
    require_columns(known);
    return sound();
}

void CsvTable::read_head_cell(std::size_t i, const std::vector<std::string>& known) {
    const CsvCell& head = heads_[i];
    const auto found = std::ranges::find(known, head.text);
    if (head.text.empty()) {
        add(1, head, "this column has no head",
            "Name the column, or remove the comma that begins it in every line.");
    } else if (found == known.end()) {
        const std::string near = head_meant(head.text, known);
        add(1, head, fmt::format("\"{}\" is not the head of a column", printable(head.text)),
            near.empty() ? fmt::format("Known: {}.", fmt::join(known, ", "))
                         : fmt::format("Did you mean {}?", near));
    } else {
        auto& cell = cells_[static_cast<std::size_t>(found - known.begin())];
        if (cell)
            add(1, head, fmt::format("column {} stands here twice", head.text), "Leave one of them out.");
        cell = i;
    }
}

void CsvTable::require_columns(const std::vector<std::string>& known) {
    std::vector<std::string_view> needed;
    for (const ColumnRule& rule : columns_)
        if (!rule.may_lack)
            needed.push_back(rule.name);
    for (const std::string_view name : needed) {
        const auto stands_for = [&](const CsvCell& head) { // one fault per wrong head
            return head.text == name || head_meant(head.text, known) == name;
        };
        if (std::ranges::none_of(heads_, stands_for))
            blame_table(fmt::format("column {} is missing", name),
                        fmt::format("Needed: {}.", fmt::join(needed, ", ")));
    }
}

void CsvTable::read_row(CsvRow row) {
    if (std::ranges::all_of(row.cells, [](const CsvCell& cell) { return cell.text.empty(); }))
        return; // commas only, as spreadsheets leave them below the last row
    if (row.cells.size() != heads_.size()) {
        const bool more = row.cells.size() > heads_.size();
        add(row.number, {row.line, 1},
            fmt::format("row {} has {} values instead of {}", row.number, row.cells.size(), heads_.size()),
            more ? "A decimal comma counts as the end of a cell: write decimal points, and text without "
                   "commas."
                 : "Give every column of the head a cell; cells of optional columns may be empty.");
        return;
    }
    const Row& read = rows_.emplace_back(Row(*this, std::move(row)));
    const std::size_t faults_before = fault_count_;
    for (std::size_t i = 0; i < columns_.size(); ++i)
        if (auto flaw =
                cells_[i] ? flaw_of_cell(columns_[i], read.row_.cells[*cells_[i]].text) : std::nullopt)
            blame(read, columns_[i].name, flaw->what, std::move(flaw->mend));
    if (fault_count_ > faults_before)
        rows_.pop_back();
}

std::size_t CsvTable::rule_of(std::string_view column) const {
    const auto found = std::ranges::find(columns_, column, &ColumnRule::name);
    if (found == columns_.end())
        throw std::out_of_range(fmt::format("the table {} has no rule for the column {}", file_, column));
    return static_cast<std::size_t>(found - columns_.begin());
}

CsvCell CsvTable::Row::cell(std::string_view column) const {
    const auto place = table_->cells_[table_->rule_of(column)];
    return place ? row_.cells[*place] : CsvCell{};
}

std::optional<double> CsvTable::Row::number(std::string_view column) const {
    return number_of(text(column), std::numeric_limits<double>::max());
}

void CsvTable::blame(const Row& row, std::string_view column, std::string_view what, std::string mend) {
    add(row.line(), row.cell(column), fmt::format("row {}, column {}: {}", row.line(), column, what),
        std::move(mend));
}

void CsvTable::blame_row(const Row& row, std::string what, std::string mend) {
    add(row.line(), {row.row_.line, 1}, std::move(what), std::move(mend));
}

void CsvTable::blame_table(std::string what, std::string mend) {
    add(1, {line_of(text_, 1), 1}, std::move(what), std::move(mend));
}

void CsvTable::add(int line, const CsvCell& cell, std::string what, std::string mend) {
    const auto place = [](const Fault& fault) { return std::tuple(fault.line, fault.column); };
    Fault fault = {
        file_,           line, cell.column, std::max(1, character_count(cell.text)), std::move(what),
        std::move(mend), {}};
    faults_.insert(std::ranges::upper_bound(faults_, place(fault), {}, place), std::move(fault));
    ++fault_count_;
    if (faults_.size() > most_listed + 1)
        faults_.pop_back();
}

void CsvTable::pass_faults_to(FaultList& faults) const {
    for (std::size_t i = 0; i < faults_.size(); ++i) {
        Fault fault = faults_[i];
        const auto line = line_of(text_, fault.line);
        fault.quote = line.empty() ? " " : std::string(line); // else a line of the other file would be quoted
        if (i == most_listed) {
            const std::size_t more = fault_count_ - most_listed;
            fault.what =
                more == 1 ? "1 more fault is not listed" : fmt::format("{} more faults are not listed", more);
            fault.mend.clear();
        }
        faults.add(std::move(fault));
    }
}

void CsvTable::throw_if_any() const {
    FaultList all(file_, text_);
    pass_faults_to(all);
    all.throw_if_any();
}

} // namespace interpile::io
