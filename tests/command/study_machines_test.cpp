// A study over the ranks of an MPI run and over an array of batch jobs: the same table to the byte.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/study_text.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>

using namespace interpile::testing;
using Catch::Contains;

namespace {

namespace fs = std::filesystem;

const fs::path programs = fs::path(program_file()).parent_path();

/// Six members, so that four ranks have unequal shares.
void write_study(const WorkingFolder& folder) {
    folder.write("case.toml", cell_case);
    auto text = cell_study;
    folder.write("study.toml", text.replace(text.find("[1.6, 2.0]"), 10, "[1.6, 1.8, 2.0]"));
}

std::string serial_table(const WorkingFolder& folder) {
    const auto run = folder.run(program_file(), {"study", "study.toml", "-o", "serial"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    return content_of(folder.path() / "serial" / "study.csv");
}

/// As root, with more ranks than cores, and without looking for leaks: MPI leaves memory of its plugins behind, whose
/// places are unknown once they are unloaded, so that no list could name them. Members are looked at in other tests.
ProgramRun mpi_study(const WorkingFolder& folder, int ranks, std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(),
                     {"OMPI_ALLOW_RUN_AS_ROOT=1", "OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1",
                      "OMPI_MCA_rmaps_base_oversubscribe=1", "ASAN_OPTIONS=detect_leaks=0", "mpirun", "-n",
                      std::to_string(ranks), programs / "interpile-study-mpi"});
    return folder.run("/usr/bin/env", arguments);
}

} // namespace

TEST_CASE("a study has the same table with any number of MPI ranks") {
    const WorkingFolder folder;
    write_study(folder);
    const auto table = serial_table(folder);
    for (const int ranks : {1, 2, 4}) {
        const std::string name = "ranks-" + std::to_string(ranks);
        const auto run = mpi_study(folder, ranks, {"study.toml", "-o", name});
        INFO(run.err << run.out); // mpirun tells there which rank failed and how
        CHECK(run.exit_code == 0);
        CHECK_THAT(run.out, Contains("6 members, 6 converged"));
        CHECK(content_of(folder.path() / name / "study.csv") == table);
    }
    // What is lost is run again by one of the ranks.
    fs::remove(folder.path() / "ranks-2" / "members" / "0004.result.toml");
    const auto again = mpi_study(folder, 2, {"study.toml", "-o", "ranks-2"});
    INFO(again.err << again.out);
    CHECK(again.exit_code == 0);
    CHECK(content_of(folder.path() / "ranks-2" / "study.csv") == table);

    // One object of the table, whatever the members say.
    fs::remove(folder.path() / "ranks-2" / "members" / "0004.result.toml");
    const auto object = mpi_study(folder, 2, {"study.toml", "-o", "ranks-2", "--json"});
    INFO(object.err << object.out);
    CHECK(object.exit_code == 0);
    CHECK_THAT(object.out,
               Catch::StartsWith("{") && Contains("\"command\": \"study\"") && Catch::EndsWith("}\n"));
    CHECK_THAT(object.err, Contains("member 4 ("));

    // A fault is told by one rank.
    folder.write("study.toml", changed(cell_study, "ground.relative_density_pct", "ground.no_such_key"));
    const auto bad = mpi_study(folder, 3, {"study.toml", "-o", "bad"});
    INFO(bad.err);
    CHECK(bad.exit_code == 2);
    CHECK_THAT(bad.err, Contains("ground.no_such_key"));
    CHECK(bad.err.find("nothing was computed") == bad.err.rfind("nothing was computed"));
    CHECK_FALSE(fs::exists(folder.path() / "bad"));
}

TEST_CASE("an array of batch jobs makes the table of a serial study") {
    const WorkingFolder folder;
    write_study(folder);
    const auto table = serial_table(folder);
    const auto script = source_folder() + "/cases/study-chart-validation/batch-array.sh";
    const auto path = "PATH=" + programs.string() + ":" + std::getenv("PATH");
    for (int job = 1; job <= 12; ++job) { // more jobs than members
        const auto run =
            folder.run("/usr/bin/env",
                       {path, "FOLDER=array", "SLURM_ARRAY_TASK_ID=" + std::to_string(job), "bash", script});
        INFO(run.err);
        CHECK(run.exit_code == 0);
        CHECK_THAT(run.out, Contains(job <= 6 ? "1 members, 1 converged" : "0 members, 0 converged"));
    }
    CHECK_FALSE(fs::exists(folder.path() / "array" / "study.csv"));
    CHECK(folder.run(program_file(), {"study", "study.toml", "-o", "array", "--collect"}).exit_code == 0);
    CHECK(content_of(folder.path() / "array" / "study.csv") == table);
}

TEST_CASE("shares part the members, and bad ones are refused") {
    const WorkingFolder folder;
    write_study(folder);
    const auto share = [&](const std::string& text) {
        return folder.run(program_file(), {"study", "study.toml", "-o", "s", "--share", text, "--jobs", "2"});
    };
    for (const char* bad : {"0/2", "3/2", "1", "1/", "1/2/3", "1-2", "a/b", "-1/2", "1/99999999999"}) {
        INFO(bad);
        const auto run = share(bad);
        CHECK(run.exit_code == 2);
        CHECK_THAT(run.err, Contains("K/N is needed"));
    }
    CHECK_FALSE(fs::exists(folder.path() / "s"));
    CHECK_THAT(share("2/4").out, Contains("share 2/4: 2 members, 2 converged"));
    for (const char* there : {"0002.result.toml", "0006.result.toml"})
        CHECK(fs::exists(folder.path() / "s" / "members" / there));
    CHECK_FALSE(fs::exists(folder.path() / "s" / "members" / "0001.result.toml"));
}
