#include "io/program/command_description.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace interpile::program {

namespace {

/// Text as the macros print it: a hyphen stays one, and no line is taken for a macro.
std::string escaped(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == '-')
            result += "\\-";
        else if (c == '\\')
            result += "\\e";
        else
            result += c;
        if (c == '\n')
            result += "\\&";
    }
    return (!text.empty() && (text.front() == '.' || text.front() == '\'') ? "\\&" : "") + result;
}

std::string head_of(const ArgumentDescription& argument) {
    std::string head;
    for (const auto& name : argument.names)
        head += fmt::format("{}\\fB{}\\fR", head.empty() ? "" : ", ", escaped(name));
    if (!argument.value.empty())
        head += fmt::format("{}\\fI{}\\fR", head.empty() ? "" : " ", escaped(argument.value));
    return head;
}

std::string command_section(const CommandDescription& command) {
    std::string synopsis = fmt::format("\\fBinterpile {}\\fR", escaped(command.name));
    for (const auto& argument : command.arguments)
        if (argument.names.empty())
            synopsis += fmt::format(" \\fI{}\\fR", escaped(argument.value));
    std::string text = fmt::format(".SS {}\n{} [\\fIoptions\\fR]\n.PP\n{}.\n", escaped(command.name),
                                   synopsis, escaped(command.meaning));
    for (const auto& argument : command.arguments)
        text += fmt::format(".TP\n{}\n{}\n", head_of(argument), escaped(argument.meaning));
    text += ".PP\nExamples:\n.PP\n.EX\n";
    for (const auto& example : command.examples)
        text += escaped(example) + "\n";
    return text + ".EE\n";
}

} // namespace

std::string manual_page(const ProgramDescription& program) {
    std::string text = fmt::format(
        ".TH INTERPILE 1 \"\" \"interpile {}\" \"User Commands\"\n.ad l\n"
        ".SH NAME\ninterpile \\- design and simulation of sand compaction piles\n"
        ".SH SYNOPSIS\n\\fBinterpile\\fR \\fIcommand\\fR [\\fIoptions\\fR]\n"
        ".SH DESCRIPTION\n{}\n.PP\n{}\n.PP\n{}\n"
        ".SH COMMANDS\n",
        INTERPILE_VERSION, escaped(program.meaning),
        escaped("Keys, columns and datasets carry their unit: kN, m, s, kPa. Compression and excess pore "
                "pressure are "
                "positive. A fault in a file is told with line, key, allowed range and the mend."),
        escaped(
            "With --json every command prints one object on standard output and nothing else: results, files "
            "written, warnings and faults."));
    for (const auto& command : program.commands)
        text += command_section(command);
    return text + fmt::format(".SH NOTES\nThe examples stand in the folder that \\fBinterpile start "
                              "tutorial\\fR writes, in the order of the work.\n"
                              ".SH EXIT STATUS\n{}\n",
                              escaped(program.footer));
}

} // namespace interpile::program
