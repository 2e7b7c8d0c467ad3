// Curves of laboratory tests as CSV: written by the program, measured ones read.

#include "io/case_parts.h"
#include "io/csv_cells.h"
#include "io/soil_test_parts.h"
#include "io/text_lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>

namespace interpile::io {

const std::vector<CurveColumn>& curve_columns() {
    using P = solver::LaboratoryPoint;
    static const std::vector<CurveColumn> columns = {
        {"axial_strain_pct", &P::axial_strain, 100},
        {"shear_strain_pct", &P::shear_strain, 100},
        {"volumetric_strain_pct", &P::volumetric_strain, 100},
        {"vertical_stress_kPa", &P::vertical_stress_kPa, 1},
        {"lateral_stress_kPa", &P::lateral_stress_kPa, 1},
        {"second_lateral_stress_kPa", &P::second_lateral_stress_kPa, 1},
        {"shear_stress_kPa", &P::shear_stress_kPa, 1},
        {"mean_stress_kPa", &P::mean_stress_kPa, 1},
        {"q_kPa", &P::q_kPa, 1},
        {"void_ratio", &P::void_ratio, 1},
        {"excess_pressure_ratio", &P::excess_pressure_ratio, 1},
    };
    return columns;
}

std::string curve_table(const std::vector<solver::LaboratoryPoint>& points) {
    std::string text;
    for (const CurveColumn& column : curve_columns())
        text += fmt::format("{}{}", text.empty() ? "" : ",", column.name);
    text += '\n';
    for (const auto& point : points) {
        for (const CurveColumn& column : curve_columns())
            text += fmt::format("{}{:.7g}", &column == curve_columns().data() ? "" : ",",
                                point.*column.value * column.factor);
        text += '\n';
    }
    return text;
}

std::vector<solver::LaboratoryPoint> read_measured(const std::filesystem::path& file, FaultList& faults) {
    const std::string text = read_text_file(file);
    const auto blame = [&](int number, const CsvCell& cell, std::string what, std::string mend) {
        faults.add(fault_at(file, text, number, cell, std::move(what), std::move(mend)));
    };
    std::vector<std::string> known;
    for (const CurveColumn& column : curve_columns())
        known.emplace_back(column.name);
    const auto heads = split_cells(line_of(text, 1));
    std::vector<const CurveColumn*> columns;
    for (const CsvCell& head : heads) {
        const auto found = std::find(known.begin(), known.end(), head.text);
        if (found == known.end())
            blame(1, head, fmt::format("\"{}\" is not the head of a column", printable(head.text)),
                  fmt::format("Known: {}.", fmt::join(known, ", ")));
        else
            columns.push_back(&curve_columns()[static_cast<std::size_t>(found - known.begin())]);
    }
    if (columns.size() != heads.size())
        return {};
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    std::vector<solver::LaboratoryPoint> points;
    for (const auto& [number, line, cells] : rows_below_head(text)) {
        if (cells.size() != columns.size()) {
            blame(number, {line, 1},
                  fmt::format("row {} has {} values instead of {}", number, cells.size(), columns.size()),
                  "One point per row, with decimal points.");
            continue;
        }
        auto& point = points.emplace_back();
        for (const CurveColumn& column : curve_columns())
            point.*column.value = unknown;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const auto value = number_of(cells[i].text, 1e6);
            if (!value)
                blame(number, cells[i],
                      fmt::format("row {}, column {}: \"{}\" is not a number", number, columns[i]->name,
                                  printable(cells[i].text)),
                      "");
            point.*(columns[i]->value) = value.value_or(unknown) / columns[i]->factor;
        }
    }
    return points;
}

} // namespace interpile::io
