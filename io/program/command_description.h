#pragma once
// What the command line knows of its commands, free of the library that reads it: for help, manual page and completion.

#include <string>
#include <string_view>
#include <vector>

namespace interpile::program {

/// A value in the place `value`: "FOLDER", "FILE.toml". Nothing: a flag.
struct ArgumentDescription {
    std::vector<std::string> names; ///< "-o", "--output"; empty: told by its place
    std::string value;
    std::string meaning;
};

struct CommandDescription {
    std::string name;
    std::string meaning;
    std::vector<ArgumentDescription> arguments;
    std::vector<std::string_view> examples; ///< in the folder that `interpile start tutorial` writes
};

struct ProgramDescription {
    std::string meaning;
    std::string footer; ///< exit codes and caution
    std::vector<CommandDescription> commands;
};

/// Commands that a user can copy; every one is executed by tests/command/examples_test.cpp.
const std::vector<std::string_view>& examples_of(std::string_view command);

/// The page for man(1), in its macros.
std::string manual_page(const ProgramDescription& program);

/// What bash needs to complete commands, options, files by their ending, fields and kinds.
std::string bash_completion(const ProgramDescription& program);

} // namespace interpile::program
