#include "io/key_substitution.h"

#include "io/case_syntax.h"
#include "io/text_lines.h"

#include <fmt/format.h>

#include <charconv>
#include <sstream>
#include <stdexcept>

namespace interpile::io {

namespace {

struct Path {
    std::string table;
    std::size_t number = 0; ///< of a repeated table, from 1; 0: a table that stands once
    std::string key;
};

Path parts_of(std::string_view path) {
    Path parts;
    const auto dot = path.rfind('.');
    if (dot == std::string_view::npos)
        throw std::invalid_argument("has no table: write TABLE.KEY");
    parts.key = path.substr(dot + 1);
    std::string_view table = path.substr(0, dot);
    if (const auto open = table.find('['); open != std::string_view::npos) {
        const std::string_view inside = table.substr(open + 1);
        const auto end = std::from_chars(inside.data(), inside.data() + inside.size(), parts.number).ptr;
        if (std::string_view(end, static_cast<std::size_t>(inside.data() + inside.size() - end)) != "]" ||
            parts.number == 0)
            throw std::invalid_argument("is not understood: write TABLE[NUMBER].KEY, from 1");
        table = table.substr(0, open);
    }
    parts.table = table;
    return parts;
}

toml::table parsed(const std::string& text) {
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& error) {
        throw std::invalid_argument(fmt::format("cannot be set: {}", printable(error.description())));
    }
}

/// Where the bytes of a character begin; the library counts lines and characters.
std::size_t offset_of(const std::string& text, const toml::source_position& at) {
    const std::string_view line = line_of(text, static_cast<int>(at.line));
    if (line.data() == nullptr) // behind the last line
        return text.size();
    return static_cast<std::size_t>(line.data() - text.data()) +
           characters(line, 1, static_cast<int>(at.column) - 1).size();
}

const toml::table* table_at(const toml::table& root, const Path& path) {
    const toml::node* node = root.get(path.table);
    if (path.number == 0) {
        if (node != nullptr && !node->is_table())
            throw std::invalid_argument(fmt::format(
                "is in a table that stands several times: write {}[NUMBER].{}", path.table, path.key));
        return node == nullptr ? nullptr : node->as_table();
    }
    const auto* list = node == nullptr ? nullptr : node->as_array();
    const auto* element =
        list == nullptr || path.number > list->size() ? nullptr : list->get(path.number - 1);
    if (element == nullptr || !element->is_table())
        throw std::invalid_argument(
            fmt::format("names [[{}]] number {}, which the case does not have", path.table, path.number));
    return element->as_table();
}

std::string added(const std::string& text, const toml::table* table, const Path& path,
                  std::string_view literal) {
    const std::string line = fmt::format("{} = {}\n", path.key, literal);
    if (table == nullptr)
        return fmt::format("{}{}[{}]\n{}", text, text.empty() || text.ends_with('\n') ? "" : "\n", path.table,
                           line);
    const auto header = table->source().begin;
    const std::string_view header_line = line_of(text, static_cast<int>(header.line));
    const auto end = static_cast<std::size_t>(header_line.data() - text.data()) + header_line.size();
    const auto next = text.find('\n', end);
    if (next == std::string::npos)
        return text + "\n" + line;
    return text.substr(0, next + 1) + line + text.substr(next + 1);
}

std::string as_text(const toml::node* node) {
    std::ostringstream out;
    if (node != nullptr)
        node->visit([&](const auto& value) { out << value; });
    return out.str();
}

} // namespace

std::string with_value(const std::string& text, std::string_view path_text, std::string_view literal) {
    const Path path = parts_of(path_text);
    const toml::table root = parsed(text);
    const toml::table* table = table_at(root, path);
    const toml::node* present = table == nullptr ? nullptr : table->get(path.key);
    std::string changed;
    if (present != nullptr) {
        const auto begin = offset_of(text, present->source().begin);
        const auto end = offset_of(text, present->source().end);
        changed = text.substr(0, begin) + std::string(literal) + text.substr(end);
    } else {
        changed = added(text, table, path, literal);
    }
    // Tables written in unusual ways (dotted, in one line) are found out here rather than guessed.
    const toml::table now = parsed(changed);
    const toml::table wanted = parsed(fmt::format("value = {}", literal));
    const toml::table* there = table_at(now, path);
    if (there == nullptr || as_text(there->get(path.key)) != as_text(wanted.get("value")))
        throw std::invalid_argument(
            fmt::format("cannot be set in a table written this way: write [{}] above its keys", path.table));
    return changed;
}

} // namespace interpile::io
