// What `cmake --install` puts in place, the manual page and the completion of bash.

#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

namespace fs = std::filesystem;
const std::string interpile_program = program_file();

/// What bash would propose after these words; the last one is begun.
std::string proposed(const WorkingFolder& folder, const std::string& words) {
    const auto run = folder.run(
        "/bin/bash",
        {"-c", "source <(" + interpile_program + " completion); COMP_WORDS=(" + words +
                   "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _interpile; echo \"${COMPREPLY[*]}\""});
    CHECK(run.err.empty());
    return run.out;
}

} // namespace

TEST_CASE("an installed program has its manual page and its completion") {
    const WorkingFolder folder;
    const std::string build = fs::path(interpile_program).parent_path();
    const auto installed = folder.run("/usr/bin/cmake", {"--install", build, "--prefix", "there"});
    INFO(installed.err);
    REQUIRE(installed.exit_code == 0);
    CHECK(folder.files() == std::vector<std::string>{"there/bin/interpile", "there/bin/interpile-study-mpi",
                                                     "there/share/bash-completion/completions/interpile",
                                                     "there/share/man/man1/interpile.1"});
    const auto version = folder.run((folder.path() / "there/bin/interpile").string(), {"--version"});
    CHECK(version.exit_code == 0);
    CHECK(content_of(folder.path() / "there/share/man/man1/interpile.1") ==
          folder.run(interpile_program, {"man-page"}).out);
}

TEST_CASE("the manual page is read without warnings and holds every command") {
    const WorkingFolder folder;
    folder.write("interpile.1", folder.run(interpile_program, {"man-page"}).out);
    const auto read =
        folder.run("/usr/bin/groff", {"-man", "-ww", "-Tascii", "-P-c", "-P-b", "-P-u", "interpile.1"});
    CHECK(read.exit_code == 0);
    CHECK(read.err.empty());
    for (const char* part :
         {"NAME", "SYNOPSIS", "EXIT STATUS", "interpile after-treatment FILE.toml", "--restart-every SECONDS",
          "interpile study study.toml -o study --jobs 2", "Exit codes: 0 done"})
        CHECK_THAT(read.out, Contains(part));
}

TEST_CASE("bash completes commands, options, files by ending, fields and kinds") {
    const WorkingFolder folder;
    for (const char* file : {"a case.toml", "b.h5", "c.csv"})
        folder.write(file, "");
    fs::create_directories(folder.path() / "deep");
    CHECK(proposed(folder, "interpile as") == "as-built\n");
    CHECK(proposed(folder, "interpile run --ov") == "--overwrite\n");
    CHECK(proposed(folder, "interpile run ''") == "a case.toml deep\n");
    CHECK(proposed(folder, "interpile figures ''") == "b.h5 deep\n");
    CHECK(proposed(folder, "interpile design x.toml -o ''") == "deep\n");
    CHECK(proposed(folder, "interpile figures b.h5 --field void") == "void_ratio\n");
    CHECK(proposed(folder, "interpile figures b.h5 --field pressure_l") == "pressure_loops\n");
    CHECK(proposed(folder, "interpile start tu") == "tutorial\n");
    CHECK(proposed(folder, "interpile run a.toml --threads ''") == "\n");
}
