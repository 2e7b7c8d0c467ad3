#include "io/program/command_line.h"

#include "io/program/command_description.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace interpile::program {

namespace {

std::vector<std::string> command_names(const CLI::App& app) {
    std::vector<std::string> names;
    for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(command->get_name());
    return names;
}

/// The library only says that a command is missing; the user needs the word and the nearest command.
bool is_unknown_command(const CLI::App& app, const std::string& word, std::string& message) {
    const auto names = command_names(app);
    if (word.starts_with('-') || std::find(names.begin(), names.end(), word) != names.end())
        return false;
    const std::string nearest = io::nearest_word(word, names);
    message = fmt::format("unknown command \"{}\"; {}", word,
                          nearest.empty() ? "interpile --help lists the commands"
                                          : fmt::format("nearest: \"{}\"", nearest));
    return true;
}

/// What the library could not place: it lists values before the option they belong to.
std::string unknown_argument(const CLI::App& app) {
    const auto* command = app.get_subcommands().empty() ? &app : app.get_subcommands().front();
    const auto extras = app.remaining(true);
    const auto option =
        std::find_if(extras.begin(), extras.end(), [](const auto& e) { return e.starts_with('-'); });
    if (option == extras.end())
        return fmt::format("{}: unexpected argument \"{}\"", command->get_name(),
                           extras.empty() ? "" : extras.front());
    std::vector<std::string> known;
    for (const auto* known_option : command->get_options())
        for (const auto& name : known_option->get_lnames())
            known.push_back("--" + name);
    const std::string nearest = io::nearest_word(option->substr(0, option->find('=')), known);
    return fmt::format("{}: unknown option \"{}\"; {}", command->get_name(), *option,
                       nearest.empty()
                           ? fmt::format("interpile {} --help lists the options", command->get_name())
                           : fmt::format("nearest: \"{}\"", nearest));
}

std::vector<const CLI::App*> commands_of(const CLI::App& app) {
    return app.get_subcommands([](const CLI::App*) { return true; });
}

ArgumentDescription description_of(const CLI::Option& option) {
    ArgumentDescription argument;
    for (const auto& name : option.get_snames())
        argument.names.push_back("-" + name);
    for (const auto& name : option.get_lnames())
        argument.names.push_back("--" + name);
    if (option.get_type_size() > 0)
        argument.value = option.get_type_name();
    argument.meaning = option.get_description();
    return argument;
}

ProgramDescription description_of(const CLI::App& app) {
    ProgramDescription program{app.get_description(), app.get_footer(), {}};
    for (const auto* command : commands_of(app)) {
        CommandDescription description{
            command->get_name(), command->get_description(), {}, examples_of(command->get_name())};
        for (const auto* option : command->get_options())
            if (option != command->get_help_ptr())
                description.arguments.push_back(description_of(*option));
        program.commands.push_back(std::move(description));
    }
    return program;
}

} // namespace

CommandLine::CommandLine()
    : app_(std::make_unique<CLI::App>(
          "Densification of sand by sand compaction piles, simulated in a horizontal slice of ground.",
          "interpile")) {
    app_->set_version_flag("--version", "interpile " INTERPILE_VERSION);
    app_->require_subcommand(1);
    app_->footer("Exit codes: 0 done, 1 not converged, 2 bad input, 3 file trouble, 130 stopped.\n"
                 "Results need checking by licensed practice; local codes and field control govern.");
    declare_commands(*app_, options_);
    declare_self_descriptions();
    for (const auto& name : command_names(*app_)) {
        auto* command = app_->get_subcommand(name);
        command->add_flag("--json", options_.json,
                          "print one JSON object instead of words: results, files, warnings, faults");
        command->footer(fmt::format("Examples, in the folder that `interpile start tutorial` writes:\n  {}",
                                    fmt::join(examples_of(name), "\n  ")));
    }
}

CommandLine::~CommandLine() = default;

void CommandLine::declare_self_descriptions() {
    const auto declare = [&](const char* name, const char* what,
                             std::string (*text)(const ProgramDescription&)) {
        app_->add_subcommand(name, what)->callback([this, text] {
            options_.chosen = [this, text](Answer& answer) {
                answer.text("text", text(description_of(*app_)));
                return io::Done;
            };
        });
    };
    declare("man-page", "This help as a page for man", manual_page);
    declare("completion", "What bash needs to complete commands, options and files", bash_completion);
}

void CommandLine::read(int argc, const char* const* argv) {
    std::string message;
    if (argc == 1)
        throw UsageError(fmt::format("a command is needed: {}; interpile --help says more",
                                     fmt::join(command_names(*app_), ", ")));
    if (is_unknown_command(*app_, argv[1], message))
        throw UsageError(message);
    try {
        app_->parse(argc, argv);
    } catch (const CLI::ExtrasError&) {
        throw UsageError(unknown_argument(*app_));
    } catch (const CLI::CallForHelp&) {
        options_.chosen = [this](Answer& answer) {
            answer.text("text", app_->help());
            return io::Done;
        };
    } catch (const CLI::CallForVersion& version) {
        options_.chosen = [text = std::string(version.what()) + "\n"](Answer& answer) {
            answer.text("text", text);
            return io::Done;
        };
    } catch (const CLI::ParseError& error) {
        throw UsageError(std::string(error.what()) + "; see interpile --help");
    }
}

std::string CommandLine::command() const {
    const auto given = app_->get_subcommands();
    return given.empty() ? std::string() : given.front()->get_name();
}

io::ExitCode CommandLine::execute(Answer& answer) const {
    take_style(options_.style);
    const auto code = options_.chosen(answer);
    end_style(options_.style, answer);
    return code;
}

bool asks_for_json(int argc, const char* const* argv) {
    return std::any_of(argv + 1, argv + argc,
                       [](const char* word) { return std::string_view(word) == "--json"; });
}

} // namespace interpile::program
