// The tutorial and the examples of the help, executed as written; the example in Python on the result they leave.

#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/readme_blocks.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <map>
#include <regex>
#include <set>

using namespace interpile::testing;

namespace {

namespace fs = std::filesystem;
const fs::path interpile_program = program_file();

/// A shell with the program in its path.
class Shell {
public:
    explicit Shell(const WorkingFolder& folder) : folder_(folder) {}

    /// `cd` lasts, as in a terminal.
    ProgramRun operator()(const std::string& command) {
        if (command.starts_with("cd ")) {
            place_ /= command.substr(3);
            return {fs::is_directory(folder_.path() / place_) ? 0 : 1, "", ""};
        }
        return folder_.run("/bin/bash", {"-c", "PATH=" + interpile_program.parent_path().string() +
                                                   ":$PATH; cd " + place_.string() + " && " + command});
    }
    fs::path place() const { return folder_.path() / place_; }

private:
    const WorkingFolder& folder_;
    fs::path place_ = ".";
};

/// Files that a text names with their folder: `design/needs.csv`.
std::set<std::string> named_files(const std::string& text) {
    const std::regex form("`([a-z-]+/[A-Za-z0-9._/-]+\\.(?:csv|pdf|html|toml|h5))`");
    std::set<std::string> names;
    for (std::sregex_iterator found(text.begin(), text.end(), form), end; found != end; ++found)
        names.insert((*found)[1]);
    return names;
}

/// The commands that `interpile --help` lists.
std::vector<std::string> listed_commands(Shell& shell) {
    const std::string help = shell("interpile --help").out;
    std::vector<std::string> names;
    std::istringstream lines(help.substr(help.find("Subcommands:")));
    const std::regex form("  ([a-z]+(?:-[a-z]+)*) .*");
    std::smatch found;
    for (std::string line; std::getline(lines, line);)
        if (std::regex_match(line, found, form))
            names.push_back(found[1]);
    return names;
}

std::vector<std::string> examples_in_help(Shell& shell, const std::string& command) {
    const auto help = shell("interpile " + command + " --help");
    CHECK(help.exit_code == 0);
    const auto begin = help.out.find("Examples");
    REQUIRE(begin != std::string::npos);
    std::vector<std::string> examples;
    std::istringstream lines(help.out.substr(begin));
    for (std::string line; std::getline(lines, line);)
        if (line.starts_with("  interpile "))
            examples.push_back(line.substr(2));
    return examples;
}

void execute_examples(Shell& shell) {
    // What makes a file for another stands before it; the rest follows in any order.
    std::vector<std::string> commands = {"start", "design", "run", "study"};
    for (const auto& name : listed_commands(shell))
        if (std::find(commands.begin(), commands.end(), name) == commands.end())
            commands.push_back(name);
    CHECK(commands.size() == 24);
    for (const auto& command : commands) {
        const auto examples = examples_in_help(shell, command);
        CHECK(!examples.empty());
        for (const auto& example : examples) {
            const auto run = shell(example);
            INFO(example << "\n" << run.err);
            CHECK(example.find("interpile " + command) == 0);
            CHECK(run.exit_code == 0);
        }
    }
}

} // namespace

TEST_CASE("the tutorial does what it says, and so do the examples of the help") {
    const WorkingFolder folder;
    Shell shell(folder);
    const std::string readme = content_of(source_folder() + "/cases/tutorial/README.md");
    const auto blocks = readme_blocks(readme);
    REQUIRE(blocks.size() >= 10);
    for (const auto& block : blocks) {
        std::string printed;
        for (const auto& command : block.commands) {
            const auto run = shell(command);
            INFO(command << "\n" << run.err);
            REQUIRE(run.exit_code == 0);
            printed += run.out;
        }
        for (const auto& line : block.excerpt) {
            INFO("expected: " << line << "\nprinted:\n" << printed);
            CHECK(has_line(printed, line));
        }
    }
    const auto files = named_files(readme);
    CHECK(files.size() > 15);
    for (const auto& file : files) {
        INFO(file);
        CHECK((fs::exists(shell.place() / file) || fs::exists(fs::path(source_folder()) / file)));
    }

    // The means that the example in Python prints are those of the program: of the ground without pile material.
    const auto read =
        shell("/usr/bin/python3 " + source_folder() + "/cases/read-with-python/read_result.py cell.h5");
    INFO(read.err);
    CHECK(read.exit_code == 0);
    CHECK(has_line(read.out, "    0  44.50 44.50 0.000"));
    CHECK(has_line(read.out, "    1  55.63 ..."));

    fs::remove(shell.place() / "cell.h5"); // an example makes it again
    execute_examples(shell);
}

TEST_CASE("an excerpt that is not printed is noticed") {
    CHECK(has_line("a 1.00 b\nmean 55.6 %\n", "mean 55.9 %"));
    CHECK(has_line("stage 1 2 3", "stage 1 ..."));
    CHECK(!has_line("mean 55.6 %", "mean 58.0 %"));
    CHECK(!has_line("mean 55.6 %", "mean 55.6"));
    CHECK(!has_line("12 piles", "13 piles"));
    CHECK(!has_line("", "mean 55.6 %"));
}
