#include "postprocess/report/document.h"

#include <fmt/format.h>

#include <stdexcept>

namespace interpile::postprocess::report {

namespace {

void require_sound(const Table& table) {
    if (table.columns.empty())
        throw std::invalid_argument(fmt::format("table \"{}\" has no columns", table.caption));
    for (const auto& row : table.rows)
        if (row.size() != table.columns.size())
            throw std::invalid_argument(fmt::format("table \"{}\" has a row of {} cells for {} columns",
                                                    table.caption, row.size(), table.columns.size()));
}

} // namespace

std::string Numbering::chapter() {
    headings_ = 0;
    return number(++chapters_);
}

std::string Numbering::heading() {
    return number(chapters_) + "." + number(++headings_);
}

std::string unit_in_brackets(const Column& column) {
    if (column.unit.empty())
        return {};
    std::string unit = column.unit;
    for (const auto& [digit, raised] : {std::pair("m2", "m\u00b2"), std::pair("m3", "m\u00b3")})
        if (const auto at = unit.find(digit); at != std::string::npos)
            unit.replace(at, 2, raised);
    return "[" + unit + "]";
}

void require_sound(const Document& document) {
    if (document.title.empty())
        throw std::invalid_argument("a report needs a title");
    for (const auto& chapter : document.chapters)
        for (const auto& block : chapter.blocks) {
            if (const auto* table = std::get_if<Table>(&block))
                require_sound(*table);
            const auto* figure = std::get_if<Figure>(&block);
            if (figure && !(figure->drawing.size_pt.minCoeff() > 0 && figure->drawing.draw))
                throw std::invalid_argument(fmt::format("figure \"{}\" has no size", figure->caption));
        }
}

} // namespace interpile::postprocess::report
