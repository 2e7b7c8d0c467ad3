#include "io/case_syntax.h"

#include "io/text_lines.h"
#include "io/vocabulary.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

constexpr int most_syntax_faults = 20;

struct Rewording {
    std::string_view from; ///< part of the library's message
    std::string_view what, mend;
};

// The first match wins. The library speaks to programmers; the user needs the mend.
constexpr Rewording rewordings[] = {
    {"saw ','", "a comma does not belong here", "Write a decimal point: 1.7, not 1,7."},
    {"leading zeroes", "a number must not begin with zeros", "Write 8, not 08."},
    {"could not be interpreted", "this number is too large to be read", ""},
    {"not representable", "this number is too large to be read", ""},
    {"utf-8", "these bytes are not UTF-8 text", "Save the file with the encoding UTF-8."},
    {"parsing root table", "this line is neither a [table] nor key = value", "This file is TOML."},
    {"expected '='", "a key needs an equals sign and a value",
     "Write key = value; keys use a-z, A-Z, 0-9, - and _."},
    {"expected value", "the value is missing", "Write a value behind the equals sign."},
    {"parsing boolean", "this is neither true nor false",
     "Write true or false in small letters, text in quotes."},
    {"parsing floating-point: expected decimal digit", "a number needs digits on both sides of its point",
     "Write 0.5 and 1.0, not .5 and 1. alone."},
    {"parsing string", "the text does not end on its line", "Close the quotes."},
    {"parsing array", "the list is not closed", "Close it with ] and separate its values with commas."},
    {"parsing table header", "the table name is not closed or not a name",
     "Write [name], or [[layer]] for a layer."},
    {"could not determine value type", "this value is not understood",
     "Text stands in quotes, numbers as 0.5."},
    {"expected a comment or whitespace", "there is more behind the value", "A remark begins with #."},
};

Fault syntax_fault(const FaultList& faults, const toml::parse_error& error) {
    const auto at = error.source().begin;
    const std::string_view description = error.description();
    Fault fault = faults.at({static_cast<int>(at.line), static_cast<int>(at.column), 1});
    for (const Rewording& rewording : rewordings)
        if (description.find(rewording.from) != std::string_view::npos) {
            fault.what = rewording.what;
            fault.mend = rewording.mend;
            return fault;
        }
    fault.what = fmt::format("not understood: {}", printable(description));
    return fault;
}

bool is_redefinition(const toml::parse_error& error) {
    return error.description().find("cannot redefine") != std::string_view::npos;
}

/// The name in single quotes of a message about a redefinition.
std::string quoted_name(std::string_view description) {
    const auto open = description.find('\'');
    const auto close = description.find('\'', open + 1);
    if (open == std::string_view::npos || close == std::string_view::npos)
        return {};
    return std::string(description.substr(open + 1, close - open - 1));
}

/// A key as a message shows it, in quotes in the file or not.
std::string in_quotes(std::string_view key) {
    const auto shown = printable(key);
    return shown.starts_with('"') ? shown : fmt::format("\"{}\"", shown);
}

/// A line whose statement neither began above nor goes on below, as far as its own brackets and quotes tell.
bool stands_alone(std::string_view line) {
    return line.find("\"\"\"") == std::string_view::npos && line.find("'''") == std::string_view::npos &&
           std::count(line.begin(), line.end(), '[') == std::count(line.begin(), line.end(), ']') &&
           std::count(line.begin(), line.end(), '{') == std::count(line.begin(), line.end(), '}') &&
           (line.find('=') != std::string_view::npos);
}

/// Place of the first character that is not blank, wide up to the end of the name or header.
Place statement_place(std::string_view line, int number) {
    const auto first = std::min(line.find_first_not_of(" \t"), line.size());
    const auto statement = line.substr(first);
    const auto end = std::min(statement.starts_with('"')
                                  ? line.find('"', first + 1) + 1
                                  : line.find_first_of(statement.starts_with('[') ? "#" : " \t=", first),
                              line.size());
    const auto name = line.substr(first, end - first);
    const auto trimmed = name.substr(0, name.find_last_not_of(" \t") + 1);
    return {number, static_cast<int>(first) + 1, std::max(1, character_count(trimmed))};
}

/// Replace a line by nothing, keeping the numbers of the others.
void blank_line(std::string& text, int number) {
    const std::string_view line = line_of(text, number);
    text.erase(static_cast<std::size_t>(line.data() - text.data()), line.size());
}

/// [name] or [[name]], not a line of a list of lists.
bool is_header(std::string_view line) {
    const auto first = line.find_first_not_of(" \t");
    return first != std::string_view::npos && line[first] == '[' &&
           line.substr(0, line.find('#')).find(',') == std::string_view::npos;
}

/// Blank a repeated table header and its keys up to the next header.
void blank_table(std::string& text, int header) {
    const auto lines = static_cast<int>(std::count(text.begin(), text.end(), '\n')) + 1;
    blank_line(text, header);
    for (int number = header + 1; number <= lines && !is_header(line_of(text, number)); ++number)
        blank_line(text, number);
}

void add_redefinition(FaultList& faults, std::string_view line, int number, const toml::parse_error& error) {
    const std::string name = printable(quoted_name(error.description()));
    const Place place = statement_place(line, number);
    if (!is_header(line)) // the library garbles the name of a key in quotes
        faults.add(place,
                   fmt::format("repeated key {}", in_quotes(characters(line, place.column, place.width))),
                   "Keep one of them.");
    else if (case_dictionary().repeats(name) || soil_test_dictionary().repeats(name))
        faults.add(place, fmt::format("[{0}] and [[{0}]] are mixed", name),
                   fmt::format("Write [[{0}]] above every {0}.", name));
    else
        faults.add(place, fmt::format("repeated table [{}]", name), "Move its keys under the first one.");
}

} // namespace

Place place_of(const toml::source_region& region) {
    const bool one_line = region.begin.line == region.end.line && region.end.column > region.begin.column;
    return {static_cast<int>(region.begin.line), static_cast<int>(region.begin.column),
            one_line ? static_cast<int>(region.end.column - region.begin.column) : 1};
}

bool parse_toml(FaultList& faults, toml::table& table) {
    std::string text = faults.text();
    bool only_repeated = true;
    for (int count = 0; count < most_syntax_faults; ++count) {
        try {
            table = toml::parse(text);
            return only_repeated;
        } catch (const toml::parse_error& error) {
            int number = static_cast<int>(error.source().begin.line);
            if (is_redefinition(error)) {
                // A repeated table is noticed behind its header, which may be on the next line.
                if (!is_header(line_of(text, number)) && number > 1 && is_header(line_of(text, number - 1)) &&
                    error.source().begin.column == 1)
                    --number;
                const std::string line(line_of(text, number));
                add_redefinition(faults, line, number, error);
                if (is_header(line))
                    blank_table(text, number);
                else if (stands_alone(line))
                    blank_line(text, number);
                else
                    return false;
            } else {
                faults.add(syntax_fault(faults, error));
                only_repeated = false;
                if (!stands_alone(line_of(text, number)))
                    return false;
                blank_line(text, number);
            }
        }
    }
    return false;
}

} // namespace interpile::io
