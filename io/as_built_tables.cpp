#include "io/as_built_tables.h"

#include "io/csv_text.h"
#include "io/fixed_digits.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace interpile::io {

namespace {

using solver::AsBuiltSlice;

double area_m2(double diameter_m) {
    return std::numbers::pi / 4 * diameter_m * diameter_m;
}

/// In full: seconds since a far origin have more than six digits.
std::string seconds(const std::optional<double>& time_s) {
    return time_s ? fmt::format("{:.12g}", *time_s) : "";
}

/// Of a table that another file may name.
std::string place(double length_m) {
    return fixed(length_m, 4);
}

std::optional<double> shortfall(double missing_m) {
    return std::max(0.0, missing_m);
}

void built_cells(CsvText& table, const SitePile& pile) {
    const auto& built = pile.built;
    const auto& design = pile.design;
    const double ordered_m = design.bottom_depth_m - design.top_depth_m;
    using Number = std::optional<double>;
    table.cell(built ? Number(built->length_m) : Number())
        .cell(ordered_m)
        .cell(built ? shortfall(built->top_depth_m - design.top_depth_m) : Number())
        .cell(built ? shortfall(design.bottom_depth_m - built->bottom_depth_m) : Number())
        .cell(built ? Number(built->sand_volume_m3) : Number())
        .cell(area_m2(design.diameter_m) * ordered_m)
        .cell(built ? Number(built->volume_outside_m3) : Number())
        .cell(pile.position_deviation_m)
        .cell(built && built->tilt ? Number(built->tilt->slope) : Number())
        .cell(built && built->tilt ? Number(built->tilt->depth_m) : Number())
        .cell(built ? Number(built->duration_s / 3600) : Number())
        .cell(seconds(pile.started_s));
}

void order_cells(CsvText& table, const SitePile& pile, double ordered_rest_h) {
    table.cell(pile.ordered_place);
    if (!pile.place) {
        table.cell("").cell("").cell("").cell(ordered_rest_h).cell("");
        return;
    }
    table.cell(pile.place->place).cell(pile.place->in_turn).cell(pile.place->rest_before_h);
    table.cell(ordered_rest_h);
    if (pile.place->rest_before_h)
        table.cell(!began_too_early(pile, ordered_rest_h));
    else
        table.cell("");
}

} // namespace

std::string quantity_of(solver::AsBuiltCheck check) {
    const std::string text = description(check);
    return text.substr(0, text.find(" ["));
}

std::string unit_of(solver::AsBuiltCheck check) {
    const std::string text = description(check);
    const auto start = text.find('[') + 1;
    return text.substr(start, text.find(']') - start);
}

std::string slices_table(const WorksFile& works, const AsBuiltSite& site) {
    CsvText table({"pile", "top_depth_m", "bottom_depth_m", "sand_m3", "ordered_sand_m3", "sand_over_ordered",
                   "diameter_m", "ordered_diameter_m", "replacement_ratio", "ordered_replacement_ratio",
                   "passes", "ordered_passes", "largest_resistance_kN"});
    const auto steps = solver::stroke_instruction(works.pile);
    for (const SitePile& pile : site.piles) {
        if (!pile.built)
            continue;
        const double area = area_m2(pile.design.diameter_m);
        for (const AsBuiltSlice& slice : pile.built->slices) {
            const double ordered_m3 = area * (slice.bottom_depth_m - slice.top_depth_m);
            table.cell(pile.ordered.name).cell(slice.top_depth_m).cell(slice.bottom_depth_m);
            table.cell(slice.sand_volume_m3).cell(ordered_m3).cell(slice.sand_volume_m3 / ordered_m3);
            table.cell(slice.equivalent_diameter_m).cell(pile.design.diameter_m);
            table.cell(slice.replacement_ratio).cell(area / pile.design.cell_area_m2);
            table.cell(slice.passes)
                .cell(solver::ordered_passes((slice.top_depth_m + slice.bottom_depth_m) / 2, steps))
                .cell(slice.largest_resistance_kN);
            table.end_row();
        }
    }
    return table.text();
}

std::string piles_table(const WorksFile& works, const AsBuiltSite& site) {
    CsvText table({"pile",           "verdict",          "limits_not_kept", "left_open",
                   "length_m",       "ordered_length_m", "short_at_top_m",  "short_at_bottom_m",
                   "sand_m3",        "ordered_sand_m3",  "sand_outside_m3", "position_deviation_m",
                   "tilt",           "tilt_depth_m",     "duration_h",      "started_s",
                   "ordered_place",  "built_place",      "in_turn",         "rest_before_h",
                   "ordered_rest_h", "rest_kept"});
    for (const SitePile& pile : site.piles) {
        std::vector<std::string> open;
        for (const auto check : pile.assessment.not_recorded)
            open.push_back(quantity_of(check));
        table.cell(pile.ordered.name).cell(description(pile.verdict()));
        table.cell(static_cast<int>(pile.assessment.findings.size())).cell(joined(open));
        built_cells(table, pile);
        order_cells(table, pile, works.rest_h);
        table.end_row();
    }
    return table.text();
}

std::string weak_spots_table(const AsBuiltSite& site) {
    CsvText table(
        {"rank", "pile", "from_depth_m", "to_depth_m", "quantity", "value", "limit", "unit", "severity"});
    int rank = 0;
    for (const auto& [finding, severity] : site.weak_spots) {
        table.cell(++rank).cell(finding.pile).cell(finding.from_depth_m).cell(finding.to_depth_m);
        table.cell(quantity_of(finding.what)).cell(finding.value).cell(finding.limit);
        table.cell(unit_of(finding.what)).cell(severity);
        table.end_row();
    }
    return table.text();
}

std::string positions_table(const AsBuiltSite& site) {
    CsvText table({"pile", "x_m", "y_m"});
    for (const SitePile& pile : site.piles) {
        table.cell(pile.ordered.name).cell(place(pile.position_m().x())).cell(place(pile.position_m().y()));
        table.end_row();
    }
    return table.text();
}

std::string layout_table(const AsBuiltSite& site, double depth_m) {
    CsvText table({"pile", "x_m", "y_m", "diameter_m", "place_in_order"});
    for (const SitePile& pile : site.piles) {
        const auto diameter_m = diameter_at(pile, depth_m);
        if (diameter_m == 0.0)
            continue;
        std::string in_order;
        if (pile.place)
            in_order = fmt::format("{}", pile.place->place);
        table.cell(pile.ordered.name).cell(place(pile.position_m().x())).cell(place(pile.position_m().y()));
        table.cell(diameter_m ? place(*diameter_m) : "").cell(in_order);
        table.end_row();
    }
    return table.text();
}

} // namespace interpile::io
