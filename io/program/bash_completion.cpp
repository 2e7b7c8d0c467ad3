#include "io/program/command_description.h"
#include "io/program/starter_files.h"
#include "mesh/fields.h"
#include "postprocess/figures.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace interpile::program {

namespace {

std::string words_of_kinds() {
    std::vector<std::string> kinds;
    for (const auto& file : starter_files())
        if (std::find(kinds.begin(), kinds.end(), file.kind) == kinds.end())
            kinds.push_back(file.kind);
    return fmt::format("{}", fmt::join(kinds, " "));
}

std::string words_of_fields() {
    std::vector<std::string> fields = postprocess::other_figures();
    for (const auto& info : mesh::field_table())
        fields.emplace_back(info.name);
    return fmt::format("{}", fmt::join(fields, " "));
}

/// A bash statement that proposes words, files by ending or folders.
/// \param value  as the help names it: KIND, FILE.toml
std::string proposals(const std::string& value) {
    if (value == "KIND")
        return fmt::format("_interpile_words \"{}\"", words_of_kinds());
    if (value == "FIELDS")
        return fmt::format("_interpile_words \"{}\"", words_of_fields());
    if (value == "FORMATS")
        return "_interpile_words \"pdf svg png\"";
    if (value == "FOLDER")
        return "_interpile_files -d";
    if (value == "FILE")
        return "_interpile_files -f";
    if (const auto dot = value.rfind('.'); dot != std::string::npos)
        return fmt::format("_interpile_files -f -X '!*{}'", value.substr(dot));
    return ":"; // a number
}

std::string branch_of(const CommandDescription& command) {
    std::vector<std::string> options = {"--help"};
    std::string after_options, positional = ":";
    for (const auto& argument : command.arguments) {
        options.insert(options.end(), argument.names.begin(), argument.names.end());
        if (argument.names.empty())
            positional = proposals(argument.value);
        else if (!argument.value.empty())
            after_options += fmt::format("            {}) {}; return ;;\n", fmt::join(argument.names, " | "),
                                         proposals(argument.value));
    }
    std::string text = fmt::format("    {})\n", command.name);
    if (!after_options.empty())
        text += fmt::format("        case $before in\n{}        esac\n", after_options);
    return text + fmt::format("        if [[ $word == -* ]]; then _interpile_words \"{}\"; else {}; fi ;;\n",
                              fmt::join(options, " "), positional);
}

} // namespace

std::string bash_completion(const ProgramDescription& program) {
    std::vector<std::string> names;
    std::string branches;
    for (const auto& command : program.commands) {
        names.push_back(command.name);
        branches += branch_of(command);
    }
    return fmt::format(R"(# Completion of interpile for bash, made by `interpile completion`.

_interpile_words() {{
    mapfile -t COMPREPLY < <(compgen -W "$1" -- "$word")
}}

# Files as the options of compgen say, and folders to look into.
_interpile_files() {{
    mapfile -t COMPREPLY < <({{ compgen "$@" -- "$word"; compgen -d -- "$word"; }} | sort -u)
}}

_interpile() {{
    local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}}
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        _interpile_words "{} --help --version"
        return
    fi
    case ${{COMP_WORDS[1]}} in
{}    esac
}}
complete -o filenames -F _interpile interpile
)",
                       fmt::join(names, " "), branches);
}

} // namespace interpile::program
