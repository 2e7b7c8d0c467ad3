// From case to figures with the real program.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iterator>
#include <regex>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
}

namespace {

/// Two piles on a coarse grid, a few seconds.
std::string small_case() {
    auto text = changed(sound_case, "rows = 2", "rows = 1");
    text = changed(text, "sequence = [1, 4, 2, 3]", "sequence = [2, 1]");
    text = changed(text, "[output]",
                   "[record]\npoints_m = [[3, 0]]\npoint_names = [\"B1\"]\n"
                   "[target]\nrelative_density_pct = 75\n[output]");
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
    for (const char* part :
         {"Configuration in force", "Volume balance", "Relative density (*) of the ground between", "K there",
          "mid-span", "below target", "not a prediction", "licensed practice", "Result: two.h5"})
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

    const auto loops = folder.run(interpile_program, {"figures", "two.h5", "--field",
                                                      "pressure_loops,half_strokes,density_distribution",
                                                      "--format", "svg", "--pile", "1", "-o", "record"});
    INFO(loops.err);
    CHECK(loops.exit_code == 0);
    CHECK(loops.out ==
          "record/pressure_loops.svg\nrecord/half_strokes.svg\nrecord/density_distribution.svg\n");
    const auto no_pile = folder.run(interpile_program, {"figures", "two.h5", "--pile", "3"});
    CHECK(no_pile.exit_code == 2);
    CHECK_THAT(no_pile.err, Catch::Contains("--pile 3") && Catch::Contains("1 .. 2"));

    const auto sequence = folder.run(interpile_program, {"figures", "two.h5", "--sequence", "--stages", "0,2",
                                                         "--format", "svg", "-o", "s"});
    INFO(sequence.err);
    CHECK(sequence.exit_code == 0);
    CHECK(sequence.out == "s/sequence_relative_density_pct.svg\n");
    const auto no_stage =
        folder.run(interpile_program, {"figures", "two.h5", "--sequence", "--stages", "1,3"});
    CHECK(no_stage.exit_code == 2);
    CHECK_THAT(no_stage.err, Catch::Contains("--stages 3") && Catch::Contains("0 .. 2"));
    CHECK(folder.run(interpile_program, {"figures", "two.h5", "--stages", "1"}).exit_code == 2);

    // A result compared with a copy of itself: no difference anywhere.
    std::filesystem::copy_file(folder.path() / "two.h5", folder.path() / "again.h5");
    const auto compared = folder.run(interpile_program, {"compare", "two.h5", "again.h5", "--field",
                                                         "relative_density_pct", "--format", "svg"});
    INFO(compared.err);
    CHECK(compared.exit_code == 0);
    CHECK(compared.out == "comparison/side_by_side_relative_density_pct.svg\n"
                          "comparison/difference_relative_density_pct.svg\ncomparison/differences.csv\n");
    CHECK_THAT(content_of(folder.path() / "comparison/differences.csv"),
               Catch::Contains("relative_density_pct,%,two,again,2,2,yes,") && Catch::Contains(",0,0,"));
    const auto twice = folder.run(interpile_program, {"compare", "two.h5", "two.h5", "-o", "none"});
    CHECK(twice.exit_code == 2);
    CHECK_THAT(twice.err, Catch::Contains("stands there twice"));
    CHECK(folder.run(interpile_program, {"compare", "two.h5", "-o", "none"}).exit_code == 2);
    CHECK_FALSE(std::filesystem::exists(folder.path() / "none"));

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

TEST_CASE("the record of half strokes and of the ground between the piles as CSV") {
    const WorkingFolder folder;
    folder.write("two.toml", changed(small_case(), "every_pile = true", "every_pile = false"));
    REQUIRE(folder.run(interpile_program, {"run", "two.toml"}).exit_code == 0);
    const auto half_strokes = folder.run(interpile_program, {"sample", "two.h5", "--half-strokes"});
    CHECK(half_strokes.exit_code == 0);
    // Two piles, each with a casing pass and two strokes of two halves; also between the recorded stages.
    CHECK(std::count(half_strokes.out.begin(), half_strokes.out.end(), '\n') == 1 + 2 * 5);
    CHECK_THAT(half_strokes.out, Catch::StartsWith("pile,place_in_order,stroke,phase,injected_area_m2,"));
    CHECK_THAT(half_strokes.out, Catch::Contains("relative_density_pct at B1,lateral_stress_ratio at B1,"
                                                 "excess_pressure_kPa at B1\n"));
    CHECK_THAT(half_strokes.out, Catch::Contains("\n2,1,0,casing pass,0.12566") &&
                                     Catch::Contains("\n1,2,2,re-driving,0.3848"));
    const auto ground = folder.run(interpile_program, {"sample", "two.h5", "--ground", "-o", "ground.csv"});
    CHECK(ground.exit_code == 0);
    CHECK_THAT(content_of(folder.path() / "ground.csv"), Catch::StartsWith("stage,pile,converged,mean_"));
    CHECK(folder.run(interpile_program, {"sample", "two.h5", "--ground", "--half-strokes"}).exit_code == 2);
    const auto useless = folder.run(interpile_program, {"sample", "two.h5", "--ground", "--stage", "1"});
    CHECK(useless.exit_code == 2);
    CHECK_THAT(useless.err, Catch::Contains("--stage have no effect"));
}

TEST_CASE("a run with flow of water in time, from check to figures") {
    const WorkingFolder folder;
    // No strokes, one pile after the other, in elastic-plastic sand whose water leaves through a leak.
    auto text = changed(small_case(), "withdrawal_m = 0.6\nredrive_m = 0.4", "strokes = 0");
    text = changed(text, "casing_diameter_m = 0.4\n", "");
    text = changed(text, "[output]",
                   "[water]\ndrainage = \"coupled\"\npermeability_m_s = 2e-5\nleak_length_m = 4\n"
                   "[schedule]\ncasing_pass_s = 60\npile_min = 20\nfinal_rest_h = 24\n[output]");
    folder.write("wet.toml", text);
    const auto check = folder.run(interpile_program, {"check", "wet.toml"});
    CHECK_THAT(check.out, Catch::Contains("50 min 00 s, then 24 h 00 min of rest") && // 2 x 20 + 10
                              Catch::Contains("coefficient of consolidation"));
    const auto run = folder.run(interpile_program, {"run", "wet.toml"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    // Piles 2 and 1 are driven in 60 s each, the second half an hour later; then 19 min of its time and the rest.
    for (const char* row : {"\n +1 +2 +1 min +", "\n +2 +1 +31 min +", "\n +3 +rest +24 h 50 min +"}) {
        const std::regex pattern(row);
        CHECK(std::distance(std::sregex_iterator(run.out.begin(), run.out.end(), pattern), {}) ==
              2); // both tables
    }

    const auto half_strokes = folder.run(interpile_program, {"sample", "wet.h5", "--half-strokes"});
    CHECK_THAT(half_strokes.out, Catch::Contains(",rest,") && Catch::Contains(",89400,"));
    const auto figures = folder.run(
        interpile_program, {"figures", "wet.h5", "--format", "svg", "--field",
                            "excess_pressure_history,excess_pore_pressure_kPa,half_strokes,pressure_loops"});
    INFO(figures.err);
    CHECK(figures.exit_code == 0);
    // Nothing is left after the final rest: the plan shows the stage with the largest pressure, unless told otherwise.
    const auto words_of_plan = [&](std::vector<std::string> more) {
        std::vector<std::string> arguments = {"figures",  "wet.h5", "-o",      "plan",
                                              "--format", "pdf",    "--field", "excess_pore_pressure_kPa"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        CHECK(folder.run(interpile_program, arguments).exit_code == 0);
        return folder.run("/usr/bin/pdftotext", {"plan/excess_pore_pressure_kPa.pdf", "-"}).out;
    };
    CHECK_THAT(words_of_plan({}), Catch::Contains("after pile") && !Catch::Contains("after the final rest"));
    CHECK_THAT(words_of_plan({"--stage", "3"}), Catch::Contains("after the final rest"));
    CHECK(folder.run(interpile_program, {"export", "wet.h5", "-o", "vtk"}).exit_code == 0);
    CHECK_THAT(content_of(folder.path() / "vtk/wet.pvd"), Catch::Contains("timestep=\"89400\""));

    folder.write("dry.toml", small_case());
    REQUIRE(folder.run(interpile_program, {"run", "dry.toml"}).exit_code == 0);
    const auto none =
        folder.run(interpile_program, {"figures", "dry.h5", "--field", "excess_pressure_history"});
    CHECK(none.exit_code == 2);
    CHECK_THAT(none.err, Catch::Contains("drainage = \"coupled\""));
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
    CHECK_THAT(run.out, Catch::Contains("K there")); // the ground as far as it is recorded
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

TEST_CASE("a slice without heave warns of what no ground could take") {
    const WorkingFolder folder;
    folder.write("fixed.toml", R"([ground]
slice_depth_m        = 6
vertical_stress_kPa  = 100
K0                   = 0.5
relative_density_pct = 60
vertical_condition   = "fixed"
[soil]
model = "two-surface-sand"
[pile]
casing_diameter_m = 0.4
diameter_m        = 0.7
strokes           = 4
[layout]
pattern   = "square"
spacing_m = 1.5
rows      = 1
columns   = 1
[domain]
shape = "pattern-cell"
part  = "quarter"
[grid]
cells_per_diameter = 6
)");
    const auto run = folder.run(interpile_program, {"run", "fixed.toml"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    for (const char* part : {"wall pressure", "x overburden", "denser than e_min"})
        CHECK_THAT(run.err, Catch::Contains(part));
}
