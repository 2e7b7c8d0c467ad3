#pragma once
// A table of the user as CSV, checked as a whole: all its faults at once, with line and column.

#include "io/csv_cells.h"
#include "io/fault_list.h"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

/// What may stand in a column.
struct ColumnRule {
    std::string_view name = {};               ///< its head
    bool text = false;                        ///< else decimal numbers
    double low = 0, high = 0;                 ///< of numbers, both allowed
    bool may_lack = false;                    ///< the column may be missing, its cells may be empty
    std::string_view advice = {};             ///< the mend of a faulty cell
    std::vector<std::string_view> words = {}; ///< allowed in a text column; empty: any text
};

/// Head in the first line, columns in any order. Decimal points, commas between cells, no quotation marks; UTF-8 with or
/// without a byte order mark, lines end in LF or CRLF; lines without any content are skipped.
/// Its rows are those whose cells are all sound. Further checks, between cells or rows, add their faults by blame().
class CsvTable {
public:
    /// Lives as long as its table.
    class Row {
    public:
        /// In the file, from 1.
        int line() const { return row_.number; }
        /// Empty where the cell is empty or the column is missing.
        /// \throws std::out_of_range  no column has a rule of that name (so also the functions below)
        std::optional<double> number(std::string_view column) const;
        /// As written; empty where the column is missing.
        std::string_view text(std::string_view column) const { return cell(column).text; }

    private:
        friend class CsvTable;
        Row(const CsvTable& table, CsvRow row) : table_(&table), row_(std::move(row)) {}
        CsvCell cell(std::string_view column) const;

        const CsvTable* table_;
        CsvRow row_;
    };

    /// \param text     content of the file
    /// \param file     as named in messages
    /// \param columns  in the order in which messages name them; what they point to must outlive the table
    CsvTable(std::string text, const std::filesystem::path& file, std::vector<ColumnRule> columns);
    CsvTable(const CsvTable&) = delete; // rows point into it
    CsvTable& operator=(const CsvTable&) = delete;

    const std::vector<Row>& rows() const { return rows_; }
    /// No fault so far: the rows are all there.
    bool sound() const { return fault_count_ == 0; }

    /// A fault of a cell; "row 3, column depth_m: " is put before `what`.
    void blame(const Row& row, std::string_view column, std::string_view what, std::string mend);
    void blame_row(const Row& row, std::string what, std::string mend);
    /// A fault of the table as a whole, shown at its head.
    void blame_table(std::string what, std::string mend);

    /// \throws CaseFaults  the first 50 faults by line, and how many follow
    void throw_if_any() const;
    /// The same faults, for a table named in another file.
    void pass_faults_to(FaultList& faults) const;

private:
    bool read_head();
    void read_head_cell(std::size_t i, const std::vector<std::string>& known);
    void require_columns(const std::vector<std::string>& known);
    void read_row(CsvRow row);
    std::size_t rule_of(std::string_view column) const;
    void add(int line, const CsvCell& cell, std::string what, std::string mend);

    std::string file_, text_;
    std::vector<ColumnRule> columns_;
    std::vector<CsvCell> heads_;                    // views of text_
    std::vector<std::optional<std::size_t>> cells_; // of each rule, which cell of a row
    std::vector<Row> rows_;
    std::vector<Fault> faults_; // by line; one more than is listed
    std::size_t fault_count_ = 0;
};

} // namespace interpile::io
