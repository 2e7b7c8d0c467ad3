// The instruction as a page to print.

#include "io/fixed_digits.h"
#include "io/instruction_sheet.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace interpile::io {

namespace {

/// Tables are 180 mm wide: A4 without margins of 14 mm, and room for their lines.
constexpr std::string_view style = R"(<style>
@page { size: A4; margin: 15mm 14mm; }
body { font: 9.5pt sans-serif; color: #000; width: 180mm; margin: 0 auto; }
h1 { font-size: 15pt; margin: 0 0 1mm; }
h2 { font-size: 11.5pt; margin: 6mm 0 2mm; break-after: avoid; }
p { margin: 1mm 0; }
table { border-collapse: collapse; table-layout: fixed; width: 180mm; }
thead { display: table-header-group; }
tr { break-inside: avoid; }
th, td { border: 0.2mm solid #555; padding: 0.7mm 1.2mm; text-align: right; }
th { background: #e8e8e8; font-size: 8.5pt; vertical-align: bottom; }
td.text, th.text { text-align: left; overflow-wrap: anywhere; }
td.box { text-align: center; }
td.box span { display: inline-block; width: 3.2mm; height: 3.2mm; border: 0.3mm solid #000; }
.fill { margin: 3mm 0; }
.fill span { display: inline-block; border-bottom: 0.2mm solid #000; width: 32mm; margin-right: 3mm; }
.caution { border: 0.4mm solid #000; padding: 2mm 3mm; margin: 4mm 0; break-inside: avoid; }
.strokes { break-before: page; }
</style>
)";

constexpr std::string_view caution = "Computed from the volume balance of a stroke; not a design. Local "
                                     "codes, the documents of the project and "
                                     "licensed practice go first. Confirm strokes and bulking by trial piles "
                                     "and by the sand found at the site; stop and "
                                     "ask if the sand, the depth or the driving of a pile differs from this "
                                     "sheet. Treated ground is to be verified by "
                                     "borings or soundings between the piles.";

enum class Kind { Text, Number, Blank, Box };

struct Column {
    std::string_view head; ///< with its unit
    int width_mm = 0;
    Kind kind = Kind::Number;
};

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char c : text)
        safe += c == '&'   ? "&amp;"
                : c == '<' ? "&lt;"
                : c == '>' ? "&gt;"
                : c == '"' ? "&quot;"
                           : std::string(1, c);
    return safe;
}

/// Columns of kind Blank and Box have no cells in `rows`.
std::string table_of(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows) {
    std::string html = "<table><colgroup>";
    for (const Column& column : columns)
        html += fmt::format("<col style=\"width:{}mm\">", column.width_mm);
    html += "</colgroup><thead><tr>";
    for (const Column& column : columns)
        html += fmt::format("<th{}>{}</th>", column.kind == Kind::Text ? " class=\"text\"" : "", column.head);
    html += "</tr></thead><tbody>\n";
    for (const auto& row : rows) {
        html += "<tr>";
        auto cell = row.begin();
        for (const Column& column : columns)
            switch (column.kind) {
            case Kind::Text:
                html += fmt::format("<td class=\"text\">{}</td>", escaped(*cell++));
                break;
            case Kind::Number:
                html += fmt::format("<td>{}</td>", escaped(*cell++));
                break;
            case Kind::Blank:
                html += "<td></td>";
                break;
            case Kind::Box:
                html += "<td class=\"box\"><span></span></td>";
                break;
            }
        html += "</tr>\n";
    }
    return html + "</tbody></table>\n";
}

std::string lines_to_fill(const std::vector<std::string_view>& names) {
    std::string html = "<p class=\"fill\">";
    for (const auto name : names)
        html += fmt::format("{} <span>&nbsp;</span> ", name);
    return html + "</p>\n";
}

std::string summary(const WorksFile& works, const std::vector<solver::StrokeStep>& steps) {
    const auto& pile = works.pile;
    const auto& full = steps.front();
    const auto& last = steps.back();
    const auto totals = sand_totals(works);
    std::vector<std::vector<std::string>> rows = {
        {"Piles", fmt::format("{}", works.piles.size()), "-"},
        {"Casing diameter D", fixed(pile.casing_diameter_m, 3), "m"},
        {"Finished diameter d", fixed(pile.pile_diameter_m, 3), "m"},
        {"Lower end of the pile, below the surface", fixed(pile.bottom_depth_m, 2), "m"},
        {"Top of the pile, below the surface", fixed(pile.top_depth_m, 2), "m"},
        {"Length of the pile", fixed(pile.bottom_depth_m - pile.top_depth_m, 2), "m"}};
    if (works.area_per_pile_m2)
        rows.push_back({"Plan area of a pile", fixed(*works.area_per_pile_m2, 3), "m2"});
    rows.insert(
        rows.end(),
        {{"Strokes of a pile", fmt::format("{}", steps.size()), "-"},
         {"Full stroke: withdraw", fixed(full.withdrawal_m, 3), "m"},
         {"Full stroke: re-drive", fixed(full.redrive_m, 3), "m"},
         {"Full stroke: net rise", fixed(full.net_rise_m, 3), "m"},
         {"Bulking: loose volume over volume in the pile", fixed(pile.bulking, 2), "-"},
         {"Sand of a pile, loose", fixed(last.total_loose_m3, 3), "m3"},
         {"Sand of a pile, in place", fixed(last.total_in_place_m3, 3), "m3"},
         {"Sand of all piles, loose", fixed(totals.loose_m3, 3), "m3"},
         {"Sand of all piles, in place: sum of all strokes", fixed(totals.in_place_m3, 3), "m3"},
         {"Design volume: number x area x length", fixed(totals.design_m3, 3), "m3"},
         {"Difference of the last two", fixed(std::abs(totals.in_place_m3 - totals.design_m3), 3), "m3"},
         {"Rest between piles", fmt::format("{:g}", works.rest_h), "h"},
         {"Allowed distance of a pile from its place", fixed(works.limits.position_m, 2), "m"},
         {"Allowed slope of a pile", fixed(works.limits.verticality, 3), "-"},
         {"Allowed shortfall at either end of a pile", fixed(works.limits.length_shortfall_m, 2), "m"},
         {"Sand in each meter over the ordered volume, at least", fixed(works.limits.least_volume_ratio, 2),
          "-"}});
    std::string html =
        "<h2>Summary</h2>\n" +
        table_of({{"Quantity", 110, Kind::Text}, {"Value", 40}, {"Unit", 30, Kind::Text}}, rows);
    for (const std::string& value : instruction_defaults(works))
        html += fmt::format("<p>Default: {}</p>\n", escaped(value));
    return html;
}

std::string order_of_work(const WorksFile& works) {
    std::vector<std::vector<std::string>> rows;
    for (std::size_t place = 0; place < works.order.size(); ++place) {
        const WorksPile& pile = works.piles[works.order[place]];
        rows.push_back({fmt::format("{}", place + 1), pile.name, fixed(pile.center_m.x(), 2),
                        fixed(pile.center_m.y(), 2), fmt::format("{:g}", place == 0 ? 0.0 : works.rest_h)});
    }
    return "<h2>Order of work</h2>\n<p>Center x, y in the axes of the site. Blank columns are filled in at "
           "the rig.</p>\n" +
           table_of({{"Order [-]", 14},
                     {"Pile", 24, Kind::Text},
                     {"x [m]", 20},
                     {"y [m]", 20},
                     {"Rest before [h]", 16},
                     {"Start [date, time]", 22, Kind::Blank},
                     {"End [time]", 18, Kind::Blank},
                     {"Deepest tip [m]", 16, Kind::Blank},
                     {"Sand used, loose [m3]", 18, Kind::Blank},
                     {"Done", 12, Kind::Box}},
                    rows);
}

std::string strokes_of_a_pile(const WorksFile& works, const std::vector<solver::StrokeStep>& steps) {
    std::vector<std::vector<std::string>> rows;
    for (const auto& s : steps)
        rows.push_back({fmt::format("{}", s.number), fixed(s.tip_before_m, 2), fixed(s.withdrawal_m, 3),
                        fixed(s.redrive_m, 3), fixed(s.net_rise_m, 3), fixed(s.tip_after_m, 2),
                        fixed(s.loose_m3, 3), fixed(s.total_loose_m3, 3), fixed(s.total_in_place_m3, 3),
                        fmt::format("{}", s.passes)});
    return "<section class=\"strokes\"><h2>Strokes of a pile</h2>\n" +
           fmt::format(
               "<p>{}. All piles are equal: one copy of this table per pile. Depths below the surface.</p>\n",
               escaped(works.title)) +
           lines_to_fill({"Pile", "Date", "Rig", "Operator"}) +
           fmt::format("<p>Before step 1 drive the casing to a tip depth of {:.2f} m. In every step withdraw "
                       "while the "
                       "sand is discharged, then re-drive. Target diameter {:.3f} m. After the last step "
                       "withdraw the "
                       "casing; the ground above the top of the pile is left as the project says.</p>\n",
                       works.pile.bottom_depth_m, works.pile.pile_diameter_m) +
           table_of({{"Step [-]", 12},
                     {"Tip before [m]", 15},
                     {"Withdraw [m]", 17},
                     {"Re-drive [m]", 15},
                     {"Net rise [m]", 13},
                     {"Tip after [m]", 15},
                     {"Sand, loose [m3]", 16},
                     {"Total, loose [m3]", 17},
                     {"Total, in place [m3]", 17},
                     {"Passes [-]", 13},
                     {"Sand found, loose [m3]", 18, Kind::Blank},
                     {"Done", 12, Kind::Box}},
                    rows) +
           "<p>Passes: down-goings of the casing through the middle of the step when the pile is complete, "
           "the first "
           "driving included.</p>\n</section>\n";
}

} // namespace

std::string instruction_page(const WorksFile& works) {
    const auto steps = solver::stroke_instruction(works.pile);
    const std::string title = escaped(works.title);
    std::string html = fmt::format("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
                                   "<title>Instruction: {}</title>\n",
                                   title);
    html += style;
    html +=
        fmt::format("</head><body>\n<h1>{}</h1>\n<p>Instruction for sand compaction piles, made by interpile "
                    "" INTERPILE_VERSION " from {}</p>\n",
                    title, escaped(works.file.filename().string()));
    html += lines_to_fill({"Issued by", "Date", "Checked by"});
    html += fmt::format("<p class=\"caution\"><b>Caution.</b> {}</p>\n", caution);
    html += summary(works, steps);
    html += order_of_work(works);
    html += strokes_of_a_pile(works, steps);
    return html + "</body></html>\n";
}

} // namespace interpile::io
