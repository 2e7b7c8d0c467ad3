#include "io/after_table.h"

#include "io/case_parts.h"
#include "io/csv_table.h"
#include "io/text_lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <utility>

namespace interpile::io {
namespace {

std::vector<ColumnRule> columns() {
    constexpr std::string_view blow_count =
        "N in blows per 0.3 m; for a refusal the number it stands for, at most 100.";
    return {{.name = "place", .text = true, .advice = "Name the boring."},
            {.name = "depth_m", .low = 0.05, .high = 100, .advice = "Meters below the surface."},
            {.name = "blow_count", .high = 100, .advice = blow_count},
            {.name = "fines_pct",
             .high = 100,
             .may_lack = true,
             .advice = "Finer than 0.075 mm, in percent of the mass."},
            {.name = "replacement_ratio",
             .low = 0.01,
             .high = 0.5,
             .may_lack = true,
             .advice = "Area of the piles by area treated, as a fraction: 0.15, not 15 %."},
            {.name = "days_after",
             .high = 1e4,
             .may_lack = true,
             .advice = "Days from the last pile nearby to the test, not a date."},
            {.name = "simulated_blow_count", .high = 100, .may_lack = true, .advice = blow_count},
            {.name = "boring",
             .text = true,
             .may_lack = true,
             .advice = "Name the boring of the site file that tells the ground before treatment."}};
}

std::vector<AfterTest> tests_of(CsvTable& table) {
    std::vector<AfterTest> tests;
    std::map<std::pair<std::string_view, double>, int> line_of_test;
    for (const CsvTable::Row& row : table.rows()) {
        const std::string_view place = row.text("place");
        const double depth_m = *row.number("depth_m");
        const auto [found, is_new] = line_of_test.try_emplace({place, depth_m}, row.line());
        if (!is_new)
            table.blame(
                row, "depth_m",
                fmt::format("{} of place {} stands in row {} too", row.text("depth_m"), place, found->second),
                "Leave one of them out; give two borings two names.");
        tests.push_back({std::string(place), depth_m, *row.number("blow_count"), row.number("fines_pct"),
                         row.number("replacement_ratio"), row.number("days_after"),
                         row.number("simulated_blow_count"), std::string(row.text("boring"))});
    }
    return tests;
}

/// Fills boring and replacement ratio; `tests` are those of the rows.
void complete(CsvTable& table, std::vector<AfterTest>& tests, const AfterContext& context) {
    const auto known = [&](const std::string& name) {
        return std::find(context.borings.begin(), context.borings.end(), name) != context.borings.end();
    };
    for (std::size_t i = 0; i < tests.size(); ++i) {
        const CsvTable::Row& row = table.rows()[i];
        AfterTest& test = tests[i];
        if (test.boring.empty() && known(test.place))
            test.boring = test.place;
        if (test.boring.empty() && context.borings.size() == 1)
            test.boring = context.borings.front();
        const bool any_boring = !context.borings.empty(); // else that has been told of the site file
        if (any_boring && test.boring.empty())
            table.blame(row, "place", "nothing says which boring tells the ground before treatment",
                        "Add a column boring with its name.");
        else if (any_boring && !known(test.boring))
            table.blame(row, "boring", fmt::format("there is no boring {}", printable(test.boring)),
                        fmt::format("The site has: {}.", fmt::join(context.borings, ", ")));
        if (!test.replacement_ratio)
            test.replacement_ratio = context.replacement_ratio;
        if (!test.replacement_ratio)
            table.blame(row, "place", "neither it nor the site file gives a replacement ratio as built",
                        "Add a column replacement_ratio, or after.replacement_ratio in the site file.");
    }
}

} // namespace

std::vector<AfterTest> parse_after_table(std::string text, const std::filesystem::path& file) {
    CsvTable table(std::move(text), file, columns());
    auto tests = tests_of(table);
    table.throw_if_any();
    return tests;
}

std::vector<AfterTest> read_after_table(const std::filesystem::path& file) {
    return parse_after_table(read_text_file(file), file);
}

std::vector<AfterTest> read_after_table(const std::filesystem::path& file, const AfterContext& context,
                                        FaultList& faults) {
    CsvTable table(read_text_file(file), file, columns());
    auto tests = tests_of(table);
    complete(table, tests, context);
    table.pass_faults_to(faults);
    return tests;
}

} // namespace interpile::io
