#include "io/instruction_sheet.h"

#include "io/csv_cells.h"
#include "io/fixed_digits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::io {

namespace {

constexpr std::size_t named_piles = 12; // in the summary

/// Tenths of a millimeter.
std::string length(double value_m) {
    return fixed(value_m, 4);
}

/// Enough digits that the sum over a site closes on its volume.
std::string volume(double value_m3) {
    return fmt::format("{:.12g}", value_m3);
}

} // namespace

SandTotals sand_totals(const WorksFile& works) {
    SandTotals totals;
    const auto count = static_cast<double>(works.piles.size());
    for (const auto& step : solver::stroke_instruction(works.pile)) {
        totals.loose_m3 += count * step.loose_m3;
        totals.in_place_m3 += count * step.in_place_m3;
    }
    const auto& pile = works.pile;
    totals.design_m3 = count * std::numbers::pi / 4 * pile.pile_diameter_m * pile.pile_diameter_m *
                       (pile.bottom_depth_m - pile.top_depth_m);
    return totals;
}

std::string instruction_table(const WorksFile& works) {
    std::string table =
        "place_in_order,pile,x_m,y_m,rest_before_pile_h,step,tip_before_m,withdrawal_m,redrive_m,"
        "net_rise_m,tip_after_m,sand_loose_m3,total_loose_m3,total_in_place_m3,"
        "target_diameter_m,passes\n";
    std::vector<std::string> strokes; // equal for all piles
    for (const auto& s : solver::stroke_instruction(works.pile))
        strokes.push_back(fmt::format("{},{},{},{},{},{},{},{},{},{},{}\n", s.number, length(s.tip_before_m),
                                      length(s.withdrawal_m), length(s.redrive_m), length(s.net_rise_m),
                                      length(s.tip_after_m), volume(s.loose_m3), volume(s.total_loose_m3),
                                      volume(s.total_in_place_m3), length(s.target_diameter_m), s.passes));
    for (std::size_t place = 0; place < works.order.size(); ++place) {
        const WorksPile& pile = works.piles[works.order[place]];
        const std::string head =
            fmt::format("{},{},{},{},{},", place + 1, written_cell(pile.name), length(pile.center_m.x()),
                        length(pile.center_m.y()), place == 0 ? 0.0 : works.rest_h);
        for (const std::string& stroke : strokes)
            table.append(head).append(stroke);
    }
    return table;
}

std::vector<std::string> instruction_defaults(const WorksFile& works) {
    std::vector<std::string> defaults;
    for (const SettingInForce& setting : works.settings)
        if (setting.is_default && (setting.key.starts_with("pile.") || setting.key.starts_with("order.")))
            defaults.push_back(fmt::format("{} = {} ({})", setting.key, setting.value, setting.source));
    return defaults;
}

std::string instruction_summary(const WorksFile& works) {
    const auto& pile = works.pile;
    const auto steps = solver::stroke_instruction(pile);
    const auto& full = steps.front();
    const auto& last = steps.back();
    const auto totals = sand_totals(works);
    const auto count = works.piles.size();
    std::string text =
        fmt::format("{}\n  piles: {}; casing {} m, finished {} m, tip from {} m up to {} m below the "
                    "surface\n",
                    works.title, count, fixed(pile.casing_diameter_m, 3), fixed(pile.pile_diameter_m, 3),
                    fixed(pile.bottom_depth_m, 2), fixed(pile.top_depth_m, 2));
    text += fmt::format("  strokes of a pile: {}; a full one: withdraw {} m, re-drive {} m, net rise {} m\n",
                        steps.size(), fixed(full.withdrawal_m, 3), fixed(full.redrive_m, 3),
                        fixed(full.net_rise_m, 3));
    if (last.net_rise_m < full.net_rise_m * (1 - 1e-6))
        text += fmt::format("  the last is shorter: withdraw {} m, re-drive {} m, net rise {} m\n",
                            fixed(last.withdrawal_m, 3), fixed(last.redrive_m, 3), fixed(last.net_rise_m, 3));
    text += fmt::format("  sand of a pile: {} m3 loose, {} m3 in place\n", fixed(last.total_loose_m3, 3),
                        fixed(last.total_in_place_m3, 3));
    text += fmt::format(
        "  sand of all piles: {} m3 loose, {} m3 in place; number x area x length: {} m3, difference "
        "{} m3\n",
        fixed(totals.loose_m3, 3), fixed(totals.in_place_m3, 3), fixed(totals.design_m3, 3),
        fixed(std::abs(totals.in_place_m3 - totals.design_m3), 3));
    text += "  order of work: ";
    for (std::size_t place = 0; place < std::min(count, named_piles); ++place)
        text += fmt::format("{}{}", place == 0 ? "" : ", ", works.piles[works.order[place]].name);
    text +=
        fmt::format("{}; rest of {:g} h between piles\n", count > named_piles ? ", ..." : "", works.rest_h);
    for (const std::string& value : instruction_defaults(works))
        text += fmt::format("  default: {}\n", value);
    return text;
}

} // namespace interpile::io
