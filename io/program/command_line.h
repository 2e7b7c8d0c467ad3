#pragma once
// From the words on the command line to the command.

#include "io/program/command_declarations.h"

#include <memory>

namespace interpile::program {

class CommandLine {
public:
    CommandLine();
    ~CommandLine();

    /// \throws UsageError  one clear line
    void read(int argc, const char* const* argv);

    /// The command that was read; empty before.
    std::string command() const;
    /// The command, its figures in the style that was given.
    io::ExitCode execute(Answer& answer) const;

private:
    void declare_self_descriptions();

    std::unique_ptr<CLI::App> app_;
    Options options_;
};

/// Whether faults are to be told as JSON, also those that keep a command line from being read.
bool asks_for_json(int argc, const char* const* argv);

} // namespace interpile::program
