// Chapter 12: where the numbers come from.

#include "io/program/report_cells.h"
#include "io/program/report_parts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace interpile::program {

namespace {

/// Not checked against what it names, or nothing named.
bool is_unchecked(const std::string& source) {
    return source.find("from memory") != std::string::npos || source.find("no source") != std::string::npos;
}

report::Table table_of(const SourceList& sources, const std::string& caption, bool unchecked) {
    constexpr std::size_t most_uses = 6;
    report::Table table{caption, {text_column("source"), text_column("used for")}, {}};
    for (const auto& [source, uses] : sources.entries()) {
        if (is_unchecked(source) != unchecked)
            continue;
        const std::size_t told = std::min(most_uses, uses.size());
        std::string text = fmt::format(
            "{}", fmt::join(uses.begin(), uses.begin() + static_cast<std::ptrdiff_t>(told), "; "));
        if (uses.size() > told)
            text += fmt::format("; and {} more", uses.size() - told);
        table.rows.push_back({source, text});
    }
    return table;
}

} // namespace

Blocks sources_blocks(const SourceList& sources) {
    Blocks blocks;
    if (auto table = table_of(sources, "Sources that were read, definitions, and choices of our own", false);
        !table.rows.empty()) {
        blocks.push_back(report::Heading{"Sources"});
        blocks.push_back(std::move(table));
    }
    if (auto table = table_of(sources, "Values from memory of their source, or without one", true);
        !table.rows.empty()) {
        blocks.push_back(report::Heading{"Values from memory, and values without a source"});
        blocks.push_back(
            report::Paragraph{"These could not be compared with what they name. Check those that decide."});
        blocks.push_back(std::move(table));
    }
    return blocks;
}

} // namespace interpile::program
