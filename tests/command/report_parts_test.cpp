// `interpile report`: what was built, alternatives, pore water, and results that are none.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/study_text.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <sstream>

using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

const std::string cases = source_folder() + "/cases/";

/// The text of the report in one line, symbols and line ends as blanks; its page is sound.
std::string told_by_report(const WorkingFolder& folder, const std::string& keys) {
    folder.write("report.toml", "[report]\ntitle = \"Parts\"\n" + keys);
    const auto run = folder.run(program_file(), {"report", "report.toml", "-o", "out"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(
        folder.run("/usr/bin/python3", {source_folder() + "/tests/support/html_check.py", "out/report.html"})
            .out == "sound\n");
    std::istringstream words(folder.run("/usr/bin/pdftotext", {"-layout", "out/report.pdf", "-"}).out);
    std::string line;
    for (std::string word; words >> word;)
        line += (line.empty() ? "" : " ") + word;
    return line;
}

} // namespace

TEST_CASE("a report of works tells what was built, as the command as-built does") {
    const WorkingFolder folder;
    const std::string works = cases + "works-riverside/works.toml";
    const auto told = told_by_report(folder, "works = \"" + works + "\"\n");
    const auto built = folder.run(program_file(), {"as-built", works, "-o", "built"});
    REQUIRE(built.exit_code == 0);
    CHECK_THAT(told, Contains("24 piles ordered, 23 recorded: 19 as ordered, 4 deviat") &&
                         Contains("Weak spots, the worst first") && Contains("logs of the casing") &&
                         Contains("What was built against what was ordered, in plan"));
    // The worst spot: first row of the table that the command writes.
    const auto spots = content_of(folder.path() / "built" / "weak-spots.csv");
    const auto row = spots.substr(spots.find('\n') + 3); // behind "1,"
    CHECK_THAT(told, Contains(row.substr(0, row.find(',')) + " "));
    CHECK_THAT(told, !Contains("Left out, as there is nothing to tell: As built"));
}

TEST_CASE("a report compares the alternatives of a study") {
    const WorkingFolder folder;
    folder.write("case.toml", cell_case);
    folder.write("study.toml", cell_study);
    const std::string keys = "study = \"study.toml\"\nstudy_folder = \"s\"\n";
    folder.write("report.toml", "[report]\ntitle = \"Parts\"\n" + keys);
    const auto early = folder.run(program_file(), {"report", "report.toml", "-o", "out"});
    CHECK(early.exit_code == 2);
    CHECK_THAT(early.err, Contains("holds no finished member of this study"));
    CHECK_FALSE(std::filesystem::exists(folder.path() / "out"));

    REQUIRE(folder.run(program_file(), {"study", "study.toml", "-o", "s", "--share", "1/2"}).exit_code == 0);
    CHECK_THAT(told_by_report(folder, keys), Contains("2 of 4 alternatives have NO RESULT") &&
                                                 Contains("not run") && Contains("are not predictions"));
    REQUIRE(folder.run(program_file(), {"study", "study.toml", "-o", "s"}).exit_code == 0);
    const auto told = told_by_report(folder, keys);
    CHECK_THAT(told, !Contains("NO RESULT") && Contains("four members: alternatives") &&
                         Contains("simulated N beside the simple methods") && Contains("case of the study"));
    CHECK_THAT(told, Contains("0.150")); // a_s = pi 0.7^2/4/1.6^2
}

TEST_CASE("a report of coupled pore water has its table") {
    const WorkingFolder folder;
    folder.write("wet.toml",
                 cell_case + "[water]\ndrainage = \"coupled\"\npermeability_m_s = 1e-3\nleak_length_m = 2\n"
                             "static_pressure_kPa = 45\n[schedule]\nstroke_s = 20\npile_min = 20\n");
    const auto run = folder.run(program_file(), {"run", "wet.toml", "-o", "wet.h5"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK_THAT(told_by_report(folder, "results = [\"wet.h5\"]\n"),
               Contains("Simulation wet: pore water") && Contains("squeezed out") &&
                   Contains("Nearly liquefied: excess pressure at least 0.9") &&
                   Contains("does not densify under repeated strokes"));
}

TEST_CASE("a result that is not converged is called so wherever it is told") {
    const WorkingFolder folder;
    folder.write("hard.toml", cell_case + "[steps]\nmax_halvings = 0\nmax_iterations = 5\ntolerance = 1e-12\n"
                                          "carry_over_tolerance = 0.1\n");
    REQUIRE(folder.run(program_file(), {"run", "hard.toml", "-o", "hard.h5"}).exit_code == 1);
    const auto told = told_by_report(folder, "results = [\"hard.h5\"]\n");
    CHECK_THAT(told, Contains("Simulation hard: NOT CONVERGED. Its last stage is shown for inspection") &&
                         Contains("NOT CONVERGED: the last stage is saved for inspection") &&
                         Contains(" NO "));
}
