// `--json`: every command prints one object and nothing else, also where it refuses.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

namespace fs = std::filesystem;
const std::string interpile_program = program_file();

class Asked {
public:
    Asked() { REQUIRE(folder_.run(interpile_program, {"start", "tutorial", "-o", "."}).exit_code == 0); }

    /// The answer; Python finds it sound.
    std::string operator()(std::vector<std::string> arguments, int exit_code = 0) const {
        arguments.push_back("--json");
        const auto run = folder_.run(interpile_program, arguments);
        INFO(arguments.front() << "\n" << run.out << run.err);
        CHECK(run.exit_code == exit_code);
        folder_.write("answer.json", run.out);
        const auto verdict = folder_.run("/usr/bin/python3",
                                         {source_folder() + "/tests/support/json_check.py", "answer.json"});
        CHECK(verdict.err.empty());
        CHECK(verdict.out == "sound\n");
        CHECK_THAT(run.out, Contains("\"exit_code\": " + std::to_string(exit_code)));
        return run.out;
    }
    const WorkingFolder& folder() const { return folder_; }

private:
    WorkingFolder folder_;
};

} // namespace

TEST_CASE("every command answers in JSON with units in its keys") {
    const Asked asked;
    // Values of the words of the same commands, as the tutorial quotes them.
    CHECK_THAT(asked({"design", "site.toml", "-o", "design"}),
               Contains("\"practical_spacing_m\": 2.0,") && Contains("\"design/spacings.csv\""));
    CHECK_THAT(asked({"check", "design/case-b-2-C-cell.toml"}), Contains("\"spacing_m\": 2.0"));
    // A coarse grid: what is told, not what it says.
    asked.folder().write("short.toml",
                         changed(content_of(asked.folder().path() / "design/case-b-2-C-cell.toml"),
                                 "cells_per_diameter    = 8", "cells_per_diameter    = 4"));
    CHECK_THAT(asked({"run", "short.toml", "-o", "r.h5"}),
               Contains("\"mean_relative_density_pct\": ") && Contains("\"r.h5\""));
    CHECK_THAT(asked({"instruction", "works.toml"}), Contains("\"strokes_per_pile\": 27"));
    CHECK_THAT(asked({"neighbors", "works.toml"}), Contains("\"retaining wall\""));
    CHECK_THAT(asked({"as-built", "works.toml"}), Contains("\"deviating\": 2") && Contains("\"P11\""));
    CHECK_THAT(asked({"after-treatment", "site.toml"}), Contains("\"target_kept\": false"));
    CHECK_THAT(asked({"figures", "r.h5", "--format", "svg", "--field", "void_ratio"}), Contains(".svg\""));
    fs::copy_file(asked.folder().path() / "r.h5", asked.folder().path() / "again.h5");
    CHECK_THAT(asked({"compare", "r.h5", "again.h5", "--format", "svg", "--field", "relative_density_pct"}),
               Contains("\"least_difference_relative_density_pct\": 0.0") && Contains("differences.csv\""));
    CHECK_THAT(asked({"export", "r.h5"}), Contains(".pvd\""));
    CHECK_THAT(asked({"sample", "r.h5", "--at", "1,1"}), Contains("\"csv\": \"distance_m,x_m"));
    CHECK_THAT(asked({"start", "soil-test"}), Contains("\"soil-test/soil-test.toml\""));
    CHECK_THAT(asked({"soil-test", "soil-test/soil-test.toml"}), Contains("\"points\": "));
    asked.folder().write("study.toml", "[study]\ntitle = \"two\"\nbase = \"short.toml\"\n[[factor]]\nkey = "
                                       "\"layout.spacing_m\"\nvalues = [2.0, 2.3]\n");
    CHECK_THAT(asked({"study", "study.toml", "--member", "2"}), Contains("\"state\": \"converged\""));
    CHECK_THAT(asked({"study", "study.toml", "--collect"}, 1),
               Contains("\"not run\"")); // the first is missing
    asked.folder().write("report.toml", "[report]\ntitle = \"short\"\nworks = \"works.toml\"\n");
    CHECK_THAT(asked({"report", "report.toml"}), Contains("report.pdf\""));
    for (const char* help : {"help-case", "help-soil-test", "help-site", "help-works", "help-study",
                             "help-report", "help-style"})
        CHECK_THAT(asked({help}), Contains("\"keys\": ["));
    for (const char* self : {"man-page", "completion"})
        CHECK_THAT(asked({self}), Contains("\"text\": "));
    CHECK_THAT(asked({"run", "--help"}), Contains("Usage"));
}

TEST_CASE("faults are told as JSON with the same exit codes") {
    const Asked asked;
    asked.folder().write("bad.toml", "[ground]\nslice_depth_m = -3\nspacing = 1\n");
    const auto answer = asked({"check", "bad.toml"}, 2);
    CHECK_THAT(answer, Contains("\"status\": \"bad input\"") && Contains("\"file\": \"bad.toml\"") &&
                           Contains("\"line\": 2") && Contains("\"key\": \"ground.slice_depth_m\"") &&
                           Contains("\"key\": \"spacing\"") && Contains("\"key\": \"pattern\""));
    asked.folder().write("long.toml", "[ground]\n" + std::string(300000, 'k') + " = 1\n");
    CHECK_THAT(asked({"check", "long.toml"}, 2), Contains("unknown key"));
    asked.folder().write("boring-1.csv",
                         "depth_m,blow_count,fines_pct,unit_weight_kN_m3,soil\n1.3,many,5,18,sand\n");
    CHECK_THAT(asked({"design", "site.toml"}, 2),
               Contains("boring-1.csv\"") && Contains("\"key\": \"blow_count\""));
    CHECK_THAT(asked({"run", "none.toml"}, 3), Contains("file trouble") && Contains("none.toml"));
    CHECK_THAT(asked({"study", "study.toml", "--jobs", "0"}, 3),
               Contains("\"command\": \"study\"")); // no base case
    CHECK_THAT(asked({"sample", "r.h5"}, 2), Contains("\"command\": \"sample\""));
    CHECK_THAT(asked({"figures", "r.h5", "--format", "bmp"}, 2), Contains("\"key\": \"--format\""));
    CHECK_THAT(asked({"chek"}, 2), Contains("nearest: \\\"check\\\"") && Contains("\"command\": null"));
}
