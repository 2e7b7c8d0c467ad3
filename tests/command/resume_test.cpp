// Runs that are stopped or killed and go on, against the same run left alone: every dataset the same to the last bit.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/results_difference.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <csignal>
#include <filesystem>

using namespace interpile::testing;
namespace fs = std::filesystem;

namespace {

const std::string program = program_file();

/// Two piles in Mohr-Coulomb sand, only the first and the last stage recorded.
std::string plain_case() {
    auto text = changed(sound_case, "rows = 2", "rows = 1");
    text = changed(text, "sequence = [1, 4, 2, 3]", "sequence = [2, 1]");
    text = changed(text, "[output]", "[record]\npoints_m = [[3, 0]]\npoint_names = [\"B1\"]\n[output]");
    return changed(text, "tolerance = 2e-3",
                   "tolerance = 5e-3\nincrements_per_pile = 12\nincrements_per_half_stroke = 4");
}

/// Two piles of an endless pattern in two-surface sand, stroke by stroke, every stage recorded.
const std::string sand_cell = R"([ground]
slice_depth_m        = 6
vertical_stress_kPa  = 60
K0                   = 0.5
relative_density_pct = 45
[soil]
model = "two-surface-sand"
[pile]
casing_diameter_m = 0.4
diameter_m        = 0.7
strokes           = 3
[layout]
pattern   = "square"
spacing_m = 1.7
rows      = 1
columns   = 2
[domain]
shape = "pattern-cell"
[grid]
cells_per_diameter = 5
)";

/// The same with flow of water: rests between the piles, over a night and after the last.
std::string wet_cell() {
    auto text = changed(sand_cell, "[pile]", R"([water]
drainage              = "coupled"
permeability_m_s      = 2e-5
sides                 = "closed"
leak_length_m         = 6.0
pile_permeability_m_s = 1e-3
[schedule]
stroke_s       = 20
pile_min       = 20
between_min    = 10
work_h_per_day = 0.6
final_rest_h   = 5
[pile])");
    return changed(text, "strokes           = 3", "strokes           = 2");
}

struct Break {
    int signal;
    double share; ///< of the time of a whole run
};

/// A run left alone, and one broken off and resumed until it ends.
void check_broken_run(const std::string& text, const std::vector<Break>& breaks) {
    const WorkingFolder folder;
    folder.write("case.toml", text);
    const auto begun = std::chrono::steady_clock::now();
    REQUIRE(folder.run(program, {"run", "case.toml", "-o", "whole.h5"}).exit_code == 0);
    const double whole_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
    CHECK(folder.files() == std::vector<std::string>{"case.toml", "whole.h5"}); // no restart file is left

    const fs::path restart = folder.path() / "broken.h5.restart";
    std::vector<std::string> arguments = {"run", "case.toml",  "-o", "broken.h5", "--restart-every",
                                          "0",   "--overwrite"};
    int resumed = 0;
    for (const auto& [signal, share] : breaks) {
        const auto run = folder.run(program, arguments, share * whole_s, signal);
        INFO(run.err);
        REQUIRE((run.exit_code == 130 || run.exit_code == 137 || run.exit_code == 0));
        if (run.exit_code == 130 && run.err.find("Stopped on request") != std::string::npos)
            CHECK_THAT(run.err, Catch::Contains("--resume"));
        if (run.exit_code == 0) // quicker than the run before it: begin again
            fs::remove(folder.path() / "broken.h5");
        resumed += fs::exists(restart) ? 1 : 0;
        arguments.back() = fs::exists(restart) ? "--resume" : "--overwrite";
    }
    CHECK(resumed > 0);
    const auto last = folder.run(program, arguments);
    INFO(last.err);
    REQUIRE(last.exit_code == 0);
    CHECK(first_difference(folder.path() / "whole.h5", folder.path() / "broken.h5") == "");
    CHECK(folder.files() == std::vector<std::string>{"broken.h5", "case.toml", "whole.h5"});
}

const std::vector<Break> stopped_and_killed = {{SIGINT, 0.3}, {SIGKILL, 0.3}, {SIGINT, 0.2}, {SIGKILL, 0.15}};

/// A folder with case.toml and a run of it in r.h5 that was stopped at its beginning.
void stop_early(const WorkingFolder& folder) {
    folder.write("case.toml",
                 changed(plain_case(), "increments_per_pile = 12", "increments_per_pile = 4000"));
    const auto run = folder.run(program, {"run", "case.toml", "-o", "r.h5", "--restart-every", "0"}, 1.5);
    INFO(run.err);
    REQUIRE(run.exit_code == 130);
    REQUIRE(fs::exists(folder.path() / "r.h5.restart"));
}

} // namespace

TEST_CASE("a broken run of Mohr-Coulomb sand ends as one left alone") {
    check_broken_run(plain_case(), stopped_and_killed);
}

TEST_CASE("a broken run of two-surface sand ends as one left alone") {
    check_broken_run(sand_cell, stopped_and_killed);
}

TEST_CASE("a broken run with flow of water ends as one left alone") {
    check_broken_run(wet_cell(), stopped_and_killed);
}

TEST_CASE("a run is resumed with its own case only") {
    const WorkingFolder folder;
    stop_early(folder);
    const auto result = content_of(folder.path() / "r.h5");
    const auto restart = content_of(folder.path() / "r.h5.restart");
    folder.write("other.toml", changed(content_of(folder.path() / "case.toml"), "friction_angle_deg = 33",
                                       "friction_angle_deg = 34"));
    const auto other = folder.run(program, {"run", "other.toml", "-o", "r.h5", "--resume"});
    CHECK(other.exit_code == 3);
    CHECK_THAT(other.err, Catch::Contains("r.h5.restart") &&
                              Catch::Contains("was \"friction_angle_deg = 33\"") &&
                              Catch::Contains("is \"friction_angle_deg = 34\""));
    CHECK(content_of(folder.path() / "r.h5") == result);
    CHECK(content_of(folder.path() / "r.h5.restart") == restart);
    const auto forgotten = folder.run(program, {"run", "case.toml", "-o", "r.h5"});
    CHECK(forgotten.exit_code == 3);
    CHECK_THAT(forgotten.err, Catch::Contains("--resume goes on with it"));
}

TEST_CASE("a damaged restart file, another result and a missing one are refused and nothing is lost") {
    const WorkingFolder folder;
    stop_early(folder);
    const auto result = content_of(folder.path() / "r.h5");
    const auto restart = content_of(folder.path() / "r.h5.restart");
    folder.write("r.h5.restart", restart.substr(0, restart.size() / 2));
    const auto damaged = folder.run(program, {"run", "case.toml", "-o", "r.h5", "--resume"});
    CHECK(damaged.exit_code == 3);
    CHECK_THAT(damaged.err, Catch::Contains("r.h5.restart") && Catch::Contains("damaged"));
    CHECK(content_of(folder.path() / "r.h5") == result);

    folder.write("r.h5.restart", restart);
    fs::rename(folder.path() / "r.h5", folder.path() / "kept.h5");
    const auto missing = folder.run(program, {"run", "case.toml", "-o", "r.h5", "--resume"});
    CHECK(missing.exit_code == 3);
    CHECK_THAT(missing.err, Catch::Contains("r.h5: is not there"));
    folder.write("r.h5", "not a result");
    CHECK(folder.run(program, {"run", "case.toml", "-o", "r.h5", "--resume"}).exit_code == 3);
    CHECK(content_of(folder.path() / "r.h5") == "not a result");
    CHECK(content_of(folder.path() / "r.h5.restart") == restart);
}

TEST_CASE("run --resume says where there is nothing to resume") {
    const WorkingFolder folder;
    folder.write("case.toml", plain_case());
    const auto nothing = folder.run(program, {"run", "case.toml", "-o", "r.h5", "--resume"});
    CHECK(nothing.exit_code == 2);
    CHECK_THAT(nothing.err, Catch::Contains("nothing to resume") && Catch::Contains("r.h5.restart"));
    CHECK(folder.files() == std::vector<std::string>{"case.toml"});
    CHECK(folder.run(program, {"run", "case.toml", "--resume", "--overwrite"}).exit_code == 2);
    CHECK(folder.run(program, {"run", "case.toml", "--restart-every", "-1"}).exit_code == 2);
}
