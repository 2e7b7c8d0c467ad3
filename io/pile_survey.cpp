#include "io/pile_survey.h"

#include "io/case_parts.h"
#include "io/csv_table.h"
#include "io/ordered_names.h"

#include <fmt/format.h>

#include <map>

namespace interpile::io {
namespace {

std::vector<ColumnRule> columns() {
    constexpr double farthest_m = 1e4; // as for layout.positions_m
    constexpr std::string_view meters = "Meters in the coordinates of the layout, not of a national grid.";
    return {{.name = "pile", .text = true, .advice = "Name the pile."},
            {.name = "x_m", .low = -farthest_m, .high = farthest_m, .advice = meters},
            {.name = "y_m", .low = -farthest_m, .high = farthest_m, .advice = meters}};
}

std::vector<SurveyedPile> piles_of(CsvTable& table) {
    std::vector<SurveyedPile> piles;
    std::map<std::string_view, int> line_of_pile;
    for (const CsvTable::Row& row : table.rows()) {
        const auto [found, is_new] = line_of_pile.try_emplace(row.text("pile"), row.line());
        if (!is_new)
            table.blame(row, "pile", fmt::format("{} stands in row {} too", row.text("pile"), found->second),
                        "Leave one of them out.");
        piles.push_back({std::string(row.text("pile")), {*row.number("x_m"), *row.number("y_m")}});
    }
    return piles;
}

} // namespace

std::vector<SurveyedPile> parse_pile_survey(std::string text, const std::filesystem::path& file) {
    CsvTable table(std::move(text), file, columns());
    auto piles = piles_of(table);
    table.throw_if_any();
    return piles;
}

std::vector<SurveyedPile> read_pile_survey(const std::filesystem::path& file) {
    return parse_pile_survey(read_text_file(file), file);
}

std::vector<SurveyedPile> read_pile_survey(const std::filesystem::path& file,
                                           const std::vector<std::string>& ordered, FaultList& faults) {
    CsvTable table(read_text_file(file), file, columns());
    auto piles = piles_of(table);
    require_ordered(table, ordered);
    table.pass_faults_to(faults);
    return piles;
}

} // namespace interpile::io
