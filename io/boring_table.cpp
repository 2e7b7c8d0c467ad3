#include "io/boring_table.h"

#include "io/case_parts.h"
#include "io/csv_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace interpile::io {
namespace {

using solver::BoringSample;

constexpr double most_fines_of_sand_pct = 50;
constexpr std::string_view if_measured = "Leave the cell empty where it was not measured.";

std::vector<ColumnRule> columns() {
    const auto optional_number = [](std::string_view name, double low, double high,
                                    std::string_view advice = if_measured) {
        return ColumnRule{.name = name, .low = low, .high = high, .may_lack = true, .advice = advice};
    };
    return {
        {.name = "depth_m", .low = 0.05, .high = 100, .advice = "Meters below the surface."},
        {.name = "blow_count",
         .high = 100,
         .advice = "N as measured, blows per 0.3 m; for a refusal the number it stands for, at most 100."},
        {.name = "fines_pct", .high = 100, .advice = "Finer than 0.075 mm, in percent of the mass."},
        {.name = "unit_weight_kN_m3",
         .low = 9.81,
         .high = 26,
         .advice = "The total unit weight of the ground as it lies, not the submerged one."},
        optional_number("d50_mm", 1e-4, 100),
        optional_number("d20_mm", 1e-4, 100),
        optional_number("d10_mm", 1e-4, 100),
        {.name = "soil", .text = true, .may_lack = true, .advice = "Write it on one line."},
        {.name = "kind",
         .text = true,
         .may_lack = true,
         .advice = "Leave the cell empty where fines_pct tells.",
         .words = {"sand", "clay", "silt"}},
        optional_number("e_max", 0.2, 3),
        optional_number("e_min", 0.2, 3),
        optional_number("void_ratio", 0.2, 3),
        optional_number("overconsolidation_ratio", 1, 50),
        optional_number("friction_angle_deg", 20, 55),
        optional_number("permeability_m_s", 1e-10, 1,
                        "In m/s; leave the cell empty where it was not measured."),
        optional_number("lateral_stress_ratio", 0.2, 3),
    };
}

BoringSample sample_of(const CsvTable::Row& row) {
    BoringSample sample;
    sample.depth_m = *row.number("depth_m");
    sample.blow_count = *row.number("blow_count");
    sample.fines_pct = *row.number("fines_pct");
    sample.d50_mm = row.number("d50_mm").value_or(std::numeric_limits<double>::quiet_NaN());
    sample.unit_weight_kN_m3 = *row.number("unit_weight_kN_m3");
    sample.soil = row.text("soil");
    sample.sand = row.text("kind") != "clay" && row.text("kind") != "silt" &&
                  sample.fines_pct <= most_fines_of_sand_pct;
    sample.e_max = row.number("e_max");
    sample.e_min = row.number("e_min");
    sample.void_ratio = row.number("void_ratio");
    sample.d10_mm = row.number("d10_mm");
    sample.d20_mm = row.number("d20_mm");
    sample.overconsolidation_ratio = row.number("overconsolidation_ratio");
    sample.friction_angle_deg = row.number("friction_angle_deg");
    sample.permeability_m_s = row.number("permeability_m_s");
    sample.lateral_stress_ratio = row.number("lateral_stress_ratio");
    return sample;
}

void check_row(CsvTable& table, const CsvTable::Row& row) {
    const auto e_max = row.number("e_max"), e_min = row.number("e_min");
    if (e_max && e_min && *e_min >= *e_max)
        table.blame(row, "e_min",
                    fmt::format("{} is not below e_max = {}", row.text("e_min"), row.text("e_max")),
                    "e_max is of the loosest state, e_min of the densest; perhaps they are exchanged.");
    std::string_view finer; // the nearest finer size that is given
    for (const std::string_view size : {"d10_mm", "d20_mm", "d50_mm"}) {
        if (!row.number(size))
            continue;
        if (!finer.empty() && *row.number(finer) > *row.number(size))
            table.blame(row, finer, fmt::format("{} is above {} = {}", row.text(finer), size, row.text(size)),
                        "d10, d20 and d50 are not exceeded by 10, 20 and 50 % of the mass; perhaps they are "
                        "exchanged.");
        finer = size;
    }
}

/// \param complete  no row is missing for its own faults
void check_depths(CsvTable& table, bool complete) {
    const auto& rows = table.rows();
    const auto depth = [&](std::size_t i) { return *rows[i].number("depth_m"); };
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (!(depth(i) > depth(i - 1))) {
            complete = false; // of a row in the wrong place no gap can be told
            table.blame(rows[i], "depth_m",
                        fmt::format("{} is not below {} in row {}", rows[i].text("depth_m"),
                                    rows[i - 1].text("depth_m"), rows[i - 1].line()),
                        "Sort the rows by depth; of two at the same depth leave one out.");
        }
    constexpr double digit = 1e-9; // 8.3 - 3.3 is a little more than 5
    for (std::size_t i = 1; complete && i < rows.size(); ++i)
        if (depth(i) - depth(i - 1) > largest_depth_step_m + digit)
            table.blame(rows[i], "depth_m",
                        fmt::format("{} m is more than {} m below {} m in row {}", rows[i].text("depth_m"),
                                    largest_depth_step_m, rows[i - 1].text("depth_m"), rows[i - 1].line()),
                        "A layer in between would be missed: add the blow counts there.");
}

std::vector<BoringSample> samples_of(CsvTable& table) {
    const bool complete = table.sound();
    check_depths(table, complete);
    std::vector<BoringSample> samples;
    for (const CsvTable::Row& row : table.rows()) {
        check_row(table, row);
        samples.push_back(sample_of(row));
    }
    if (complete && std::ranges::none_of(samples, &BoringSample::sand))
        table.blame_table("no row is sand",
                          fmt::format("Sand has a kind that is empty or sand, and fines_pct up to {}.",
                                      most_fines_of_sand_pct));
    return samples;
}

} // namespace

std::vector<BoringSample> parse_boring_table(std::string text, const std::filesystem::path& file) {
    CsvTable table(std::move(text), file, columns());
    auto samples = samples_of(table);
    table.throw_if_any();
    return samples;
}

std::vector<BoringSample> read_boring_table(const std::filesystem::path& file) {
    return parse_boring_table(read_text_file(file), file);
}

std::vector<BoringSample> read_boring_table(const std::filesystem::path& file, FaultList& faults) {
    CsvTable table(read_text_file(file), file, columns());
    auto samples = samples_of(table);
    table.pass_faults_to(faults);
    return samples;
}

} // namespace interpile::io
