#include "io/chart_table.h"

#include "io/case_parts.h"
#include "io/csv_table.h"

#include <stdexcept>
#include <vector>

namespace interpile::io {
namespace {

using solver::BlowCountChart;

std::vector<ColumnRule> columns() {
    constexpr std::string_view blow_count = "N in blows per 0.3 m.";
    return {{.name = "blow_count_before", .high = 100, .advice = blow_count},
            {.name = "replacement_ratio",
             .high = 1,
             .advice = "Area of the piles by area treated, as a fraction: 0.15, not 15 %."},
            {.name = "blow_count_after", .high = 100, .advice = blow_count}};
}

std::optional<BlowCountChart> chart_of(CsvTable& table) {
    if (!table.sound())
        return {};
    std::vector<solver::ChartPoint> points;
    for (const CsvTable::Row& row : table.rows())
        points.push_back({*row.number("blow_count_before"), *row.number("replacement_ratio"),
                          *row.number("blow_count_after")});
    try {
        return BlowCountChart(std::move(points));
    } catch (const std::invalid_argument& refused) {
        table.blame_table(refused.what(),
                          "A curve has two points or more of different N0 and lies above every "
                          "curve of a smaller replacement ratio.");
        return {};
    }
}

} // namespace

BlowCountChart parse_chart_table(std::string text, const std::filesystem::path& file) {
    CsvTable table(std::move(text), file, columns());
    auto chart = chart_of(table);
    table.throw_if_any();
    return std::move(*chart);
}

BlowCountChart read_chart_table(const std::filesystem::path& file) {
    return parse_chart_table(read_text_file(file), file);
}

std::optional<BlowCountChart> read_chart_table(const std::filesystem::path& file, FaultList& faults) {
    CsvTable table(read_text_file(file), file, columns());
    auto chart = chart_of(table);
    table.pass_faults_to(faults);
    return chart;
}

} // namespace interpile::io
