#include "io/as_built_records.h"

#include "io/case_parts.h"
#include "io/csv_table.h"
#include "io/ordered_names.h"

#include <fmt/format.h>

#include <map>

namespace interpile::io {
namespace {

using solver::AsBuiltRecord;

std::vector<ColumnRule> columns() {
    return {{.name = "pile", .text = true, .advice = "Name the pile, without quotation marks."},
            {.name = "time_s", .high = 1e10, .advice = "Seconds, not a time of day."},
            {.name = "tip_depth_m", .high = 100, .advice = "Meters below the surface, positive downward."},
            {.name = "sand_volume_m3",
             .high = 1e4,
             .advice = "Discharged since the start of the pile, in cubic meters."},
            {.name = "driving_resistance_kN",
             .low = -1e5,
             .high = 1e5,
             .may_lack = true,
             .advice = "In kN; leave the cell empty where nothing was recorded."},
            {.name = "inclination_deg",
             .low = -45,
             .high = 45,
             .may_lack = true,
             .advice = "From the vertical, in degrees; leave the cell empty where nothing was recorded."}};
}

/// Within a pile nothing runs backward.
void compare(CsvTable& table, const CsvTable::Row& before, const CsvTable::Row& now) {
    const auto require_grown = [&](std::string_view column, const char* what, const char* mend) {
        if (*now.number(column) < *before.number(column))
            table.blame(now, column,
                        fmt::format("{} is below {} in row {} of pile {}: {}", now.text(column),
                                    before.text(column), before.line(), now.text("pile"), what),
                        mend);
    };
    require_grown("time_s", "time runs backward",
                  "Sort the rows of a pile by time; of a pile made twice leave one record.");
    require_grown("sand_volume_m3", "the cumulative volume falls",
                  "Write the volume discharged since the start of the pile, not since the last charge.");
}

std::vector<AsBuiltRecord> records_of(CsvTable& table) {
    const bool complete = table.sound(); // else a faulty row may be the missing one of a pile
    std::vector<AsBuiltRecord> records;
    std::vector<const CsvTable::Row*> last_row; // of each record
    std::map<std::string_view, std::size_t> number_of_pile;
    for (const CsvTable::Row& row : table.rows()) {
        const auto [found, is_new] = number_of_pile.try_emplace(row.text("pile"), records.size());
        if (is_new) {
            records.push_back({std::string(row.text("pile")), {}, {}});
            last_row.push_back(&row);
        }
        const std::size_t index = found->second;
        compare(table, *last_row[index], row);
        records[index].samples.push_back({*row.number("time_s"), *row.number("tip_depth_m"),
                                          *row.number("sand_volume_m3"), row.number("driving_resistance_kN"),
                                          row.number("inclination_deg")});
        last_row[index] = &row;
    }
    if (complete)
        for (std::size_t i = 0; i < records.size(); ++i)
            if (records[i].samples.size() == 1)
                table.blame_row(*last_row[i], fmt::format("pile {} has one sample only", records[i].pile),
                                "At least two are needed, from the start and the end of the work.");
    return records;
}

} // namespace

std::vector<AsBuiltRecord> parse_as_built_records(std::string text, const std::filesystem::path& file) {
    CsvTable table(std::move(text), file, columns());
    auto records = records_of(table);
    table.throw_if_any();
    return records;
}

std::vector<AsBuiltRecord> read_as_built_records(const std::filesystem::path& file) {
    return parse_as_built_records(read_text_file(file), file);
}

std::vector<AsBuiltRecord> read_as_built_records(const std::filesystem::path& file,
                                                 const std::vector<std::string>& ordered, FaultList& faults) {
    CsvTable table(read_text_file(file), file, columns());
    auto records = records_of(table);
    require_ordered(table, ordered);
    table.pass_faults_to(faults);
    return records;
}

} // namespace interpile::io
