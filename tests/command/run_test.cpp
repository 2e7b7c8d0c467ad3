// From case to figures with the real program.

#include "tests/support/case_text.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile::testing;

namespace {
const std::string interpile_program = INTERPILE_PROGRAM;
}

namespace {

/// Two piles on a coarse grid, a few seconds.
std::string small_case() {
    auto text = changed(sound_case, "rows = 2", "rows = 1");
    text = changed(text, "sequence = [1, 4, 2, 3]", "sequence = [2, 1]");
    text = changed(text, "every_pile = false", "every_pile = true");
    return changed(text, "tolerance = 2e-3",
                   "tolerance = 5e-3\nincrements_per_pile = 12\nincrements_per_half_stroke = 4");
}

} // namespace

TEST_CASE("run, figures, export and sample, end to end") {
    const WorkingFolder folder;
    folder.write("two.toml", small_case());
    const auto run = folder.run(interpile_program, {"run", "two.toml"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    for (const char* part : {"Configuration in force", "Volume balance", "not a prediction",
                             "licensed practice", "Result: two.h5"})
        CHECK_THAT(run.out, Catch::Contains(part));
    CHECK_THAT(run.err, Catch::Contains("pile 2 of 2"));
    CHECK(folder.files() == std::vector<std::string>{"two.h5", "two.toml"});

    const auto first = content_of(folder.path() / "two.h5");
    CHECK(folder.run(interpile_program, {"run", "two.toml"}).exit_code == 3);
    CHECK(content_of(folder.path() / "two.h5") == first);

    const auto figures =
        folder.run(interpile_program, {"figures", "two.h5", "--field", "lateral_stress_kPa,void_ratio",
                                       "--format", "svg,pdf", "--stage", "1"});
    INFO(figures.err);
    CHECK(figures.exit_code == 0);
    CHECK(figures.out == "two_figures/lateral_stress_kPa.svg\ntwo_figures/lateral_stress_kPa.pdf\n"
                         "two_figures/void_ratio.svg\ntwo_figures/void_ratio.pdf\n");
    const auto stage = folder.run(interpile_program, {"figures", "two.h5", "--stage", "3"});
    CHECK(stage.exit_code == 2);
    CHECK_THAT(stage.err, Catch::Contains("--stage 3") && Catch::Contains("0 .. 2"));

    CHECK(folder.run(interpile_program, {"export", "two.h5", "-o", "vtk"}).exit_code == 0);
    CHECK(content_of(folder.path() / "vtk/two.pvd").size() > 100);

    const auto line = folder.run(interpile_program, {"sample", "two.h5", "--line", "-1,0,2.7,0", "--points",
                                                     "5", "--field", "void_ratio"});
    CHECK(line.exit_code == 0);
    CHECK_THAT(line.out, Catch::StartsWith("distance_m,x_m,y_m,void_ratio\n0,-1,0,"));
    CHECK(std::count(line.out.begin(), line.out.end(), '\n') == 6);
    CHECK(folder.run(interpile_program, {"sample", "two.h5", "--at", "1,1", "-0.5,2", "-o", "points.csv"})
              .exit_code == 0);
    CHECK_THAT(content_of(folder.path() / "points.csv"),
               Catch::Contains("1,1,") && Catch::Contains("-0.5,2,"));
    CHECK(folder.run(interpile_program, {"sample", "two.h5", "--at", "1"}).exit_code == 2);
}

TEST_CASE("an interrupted run keeps what was complete and exits with 130") {
    const WorkingFolder folder;
    // Far more work than a second allows.
    folder.write("long.toml",
                 changed(small_case(), "increments_per_pile = 12", "increments_per_pile = 4000"));
    const auto run = folder.run(interpile_program, {"run", "long.toml", "-o", "long.h5"}, 1.5);
    INFO(run.err);
    CHECK(run.exit_code == 130);
    CHECK_THAT(run.err, Catch::Contains("Stopped on request"));
    const auto sample =
        folder.run(interpile_program, {"sample", "long.h5", "--at", "1,1", "--field", "void_ratio"});
    CHECK(sample.exit_code == 0);
    CHECK_THAT(sample.err, Catch::Contains("not finished"));
}

TEST_CASE("a run that does not converge says where, keeps the state and exits with 1") {
    const WorkingFolder folder;
    auto text = changed(small_case(), "tolerance = 5e-3",
                        "tolerance = 1e-9\nmax_iterations = 5\nmax_halvings = 0\n"
                        "carry_over_tolerance = 1e-9");
    folder.write("hard.toml", text);
    const auto run = folder.run(interpile_program, {"run", "hard.toml"});
    INFO(run.err);
    CHECK(run.exit_code == 1);
    CHECK_THAT(run.err,
               Catch::Contains("NOT CONVERGED") && Catch::Contains("pile") && Catch::Contains("hard.h5"));
    CHECK(folder.files() == std::vector<std::string>{"hard.h5", "hard.toml"});
}

TEST_CASE("with every_pile = false only the first and the last state are recorded") {
    const WorkingFolder folder;
    folder.write("two.toml", changed(small_case(), "every_pile = true", "every_pile = false"));
    REQUIRE(folder.run(interpile_program, {"run", "two.toml"}).exit_code == 0);
    const auto beyond = folder.run(interpile_program, {"sample", "two.h5", "--at", "1,1", "--stage", "2"});
    CHECK(beyond.exit_code == 2);
    CHECK_THAT(beyond.err, Catch::Contains("0 .. 1"));
}
