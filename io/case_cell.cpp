// [domain] shape = "pattern-cell" of a case: what the cell asks of [layout].

#include "io/case_parts.h"
#include "mesh/pattern_cell.h"

#include <fmt/format.h>

namespace interpile::io {

namespace {

using Setting = mesh::CellObstacle::Setting;

std::string path_of(Setting setting, const mesh::LayoutSettings& layout) {
    switch (setting) {
    case Setting::Pattern:
        return "layout.pattern";
    case Setting::Angle:
        return "layout.angle_deg";
    case Setting::Count:
        return layout.rows > 1 ? "layout.rows" : "layout.columns";
    case Setting::Part:
        return "domain.part";
    }
    return {};
}

std::string_view mend_of(Setting setting) {
    switch (setting) {
    case Setting::Pattern:
        return "Use shape = \"rectangle\" or \"round\".";
    case Setting::Angle:
        return "Remove it: an endless pattern is the same however it is turned.";
    case Setting::Count:
        return "Use rows = 1 and columns = 1, or shape = \"rectangle\" for a group.";
    case Setting::Part:
        return "Use part = \"whole\", or rows = 1 and columns = 1.";
    }
    return {};
}

} // namespace

bool is_pattern_cell(const CaseValues& values) {
    return values.has("domain.shape") && values.text("domain.shape") == "pattern-cell";
}

std::optional<mesh::CellPart> read_cell_part(CaseValues& values, const mesh::LayoutSettings& layout) {
    if (!is_pattern_cell(values) || !values.has("domain.part"))
        return {};
    mesh::LayoutSettings wanted = layout;
    wanted.cell = values.text("domain.part") == "quarter" ? mesh::CellPart::Quarter : mesh::CellPart::Whole;
    for (const auto& [setting, why] : mesh::cell_obstacles(wanted))
        values.fault(path_of(setting, layout), fmt::format("has no pattern-cell: {}", why),
                     std::string(mend_of(setting)));
    return wanted.cell;
}

} // namespace interpile::io
