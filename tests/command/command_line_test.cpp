// The command line itself: help, version, what happens to slips. Exit codes as the help states them.

#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
}

TEST_CASE("help names every command and the exit codes") {
    const WorkingFolder folder;
    const auto help = folder.run(interpile_program, {"--help"});
    CHECK(help.exit_code == 0);
    for (const char* command :
         {"check", "run", "help-case", "figures", "export", "sample", "instruction", "neighbors"}) {
        CHECK_THAT(help.out, Catch::Contains(command));
        const auto own = folder.run(interpile_program, {command, "--help"});
        CHECK(own.exit_code == 0);
        CHECK_THAT(own.out, Catch::Contains("Usage"));
    }
    CHECK_THAT(help.out,
               Catch::Contains("0 done, 1 not converged, 2 bad input, 3 file trouble, 130 stopped"));
    CHECK(help.err.empty());
}

TEST_CASE("version") {
    const auto version = WorkingFolder().run(interpile_program, {"--version"});
    CHECK(version.exit_code == 0);
    CHECK_THAT(version.out, Catch::StartsWith("interpile "));
}

TEST_CASE("slips on the command line end with exit code 2 and one clear line") {
    const WorkingFolder folder;
    const auto refused = [&](const std::vector<std::string>& arguments, const std::string& part) {
        const auto run = folder.run(interpile_program, arguments);
        INFO(run.err);
        CHECK(run.exit_code == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Catch::StartsWith("interpile: ") && Catch::Contains(part));
        CHECK(std::count(run.err.begin(), run.err.end(), '\n') == 1);
        CHECK(run.err.size() <
              700); // the longest lists the fields and figures, line_across_piles since 600 was enough
    };
    refused({}, "a command is needed");
    refused({"chek", "case.toml"}, "unknown command \"chek\"; nearest: \"check\"");
    refused({"check"}, "CASE is required");
    refused({"run", "a.toml", "--overwrit"}, "unknown option \"--overwrit\"; nearest: \"--overwrite\"");
    refused({"check", "a.toml", "b.toml"}, "unexpected argument \"b.toml\"");
    refused({"sample", "a.h5"}, "--line x1,y1,x2,y2, --at x,y, --half-strokes");
    refused({"sample", "a.h5", "--at", "1,1", "--line", "0,0,1,1"},
            "--line x1,y1,x2,y2, --at x,y, --half-strokes");
    refused({"sample", "a.h5", "--line", "0,0,1,1", "--points", "1"}, "--points 1");
    refused({"sample", "a.h5", "--line", "0,0,1,1", "--points", "many"}, "--points");
    refused({"sample", "a.h5", "--at", "1,1", "--field", "void_ration"}, "nearest: \"void_ratio\"");
    refused({"figures", "a.h5", "--format", "bmp"}, "--format bmp");
    refused({"figures", "a.h5", "--field", "densty"}, "--field densty");
    CHECK(folder.files().empty());
}

TEST_CASE("files that are missing or of another kind end with exit code 3") {
    const WorkingFolder folder;
    folder.write("text.h5", "no result");
    const auto trouble = [&](const std::vector<std::string>& arguments, const std::string& part) {
        const auto run = folder.run(interpile_program, arguments);
        INFO(run.err);
        CHECK(run.exit_code == 3);
        CHECK_THAT(run.err, Catch::StartsWith("interpile: ") && Catch::Contains(part));
    };
    for (const char* command : {"check", "run"}) {
        trouble({command, "none.toml"}, "none.toml");
        trouble({command, "."}, "is a folder");
    }
    for (const char* command : {"figures", "export"}) {
        trouble({command, "none.h5"}, "none.h5");
        trouble({command, "text.h5"}, "text.h5");
    }
    trouble({"sample", "none.h5", "--at", "0,0"}, "none.h5");
    CHECK(folder.files() == std::vector<std::string>{"text.h5"});
}

TEST_CASE("help-case prints the vocabulary") {
    const auto run = WorkingFolder().run(interpile_program, {"help-case"});
    CHECK(run.exit_code == 0);
    CHECK_THAT(run.out, Catch::Contains("[ground]") && Catch::Contains("[[layer]]") &&
                            Catch::Contains("with model = \"mohr-coulomb\"") && Catch::Contains("spacing_m"));
}
