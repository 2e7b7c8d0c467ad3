// `interpile study`: a small study, its table, and what happens to members that fail or are not finished.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/study_text.h"
#include "tests/support/written_table.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace interpile::testing;
using Catch::Contains;

namespace {

const std::string interpile_program = program_file();
namespace fs = std::filesystem;

ProgramRun study(const WorkingFolder& folder, std::vector<std::string> more) {
    more.insert(more.begin(), {"study", "study.toml"});
    return folder.run(interpile_program, more);
}

void write_study(const WorkingFolder& folder) {
    folder.write("case.toml", cell_case);
    folder.write("study.toml", cell_study);
}

} // namespace

TEST_CASE("a study makes a table that does not depend on the number of jobs") {
    const WorkingFolder folder;
    write_study(folder);
    const auto one = study(folder, {"-o", "one"}), two = study(folder, {"-o", "two", "--jobs", "2"});
    INFO(one.err << two.err);
    CHECK(one.exit_code == 0);
    CHECK(two.exit_code == 0);
    CHECK_THAT(one.out, Contains("4 members, 4 converged") && Contains("no predictions")); // Mohr-Coulomb
    CHECK_THAT(one.err, Contains("member 4 of 4"));
    const auto table = content_of(folder.path() / "one" / "study.csv");
    CHECK(table == content_of(folder.path() / "two" / "study.csv"));
    // The library writes the time of creation into the extension of the superblock, the first 128 bytes.
    const auto after_head = [&](const char* name) {
        return content_of(folder.path() / name / "study.h5").substr(128);
    };
    CHECK(after_head("one") == after_head("two"));

    const auto rows = rows_of(table);
    REQUIRE(rows.size() == 4);
    CHECK(rows[1].at("layout.spacing_m") == "1.6");
    CHECK(rows[1].at("relative_density_before_pct") == "60");
    // pi 0.7^2/4/1.6^2
    CHECK(std::stod(rows[1].at("replacement_ratio")) == Approx(0.150331).epsilon(1e-5));
    // Meyerhof: N = (D_r/21)^2 (s' + 70)/100
    CHECK(std::stod(rows[1].at("blow_count_before")) == Approx(11.4286).epsilon(1e-4));
    const double after = std::stod(rows[1].at("relative_density_pct"));
    CHECK(std::stod(rows[1].at("blow_count_after")) == Approx(after * after / 441 * 1.4).epsilon(1e-4));
    CHECK(std::stod(rows[1].at("weakest_relative_density_pct")) <= after);
    CHECK(std::stod(rows[1].at("heave_pct")) > 0);
    for (const char* file : {"0001.toml", "0001.h5", "0004.result.toml"})
        CHECK(fs::exists(folder.path() / "one" / "members" / file));
    CHECK_THAT(content_of(folder.path() / "one" / "times.csv"), Contains("wall_time_s"));
}

TEST_CASE("a study with [validation] compares blow counts and draws figures") {
    const WorkingFolder folder;
    write_study(folder);
    folder.write("study.toml", cell_study + "[validation]\nfines_pct = 0\n");
    const auto run = study(folder, {"-o", "s"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    CHECK_THAT(run.out, Contains("Simulated over predicted") && Contains("simulation, density: "));
    CHECK_THAT(content_of(folder.path() / "s" / "validation.csv"), Contains("\nB,density,all,"));
    CHECK_THAT(content_of(folder.path() / "s" / "validation-trend.csv"), Contains("\nmethod D,"));
    for (const char* name : {"spacing-curves", "blow-counts-01", "blow-counts-02"})
        for (const char* ending : {".pdf", ".svg", ".png"})
            CHECK(fs::file_size(folder.path() / "s" / (std::string(name) + ending)) > 5000);
}

TEST_CASE("a member is the run of its case") {
    const WorkingFolder folder;
    write_study(folder);
    CHECK(study(folder, {"-o", "s"}).exit_code == 0);
    CHECK(folder.run(interpile_program, {"run", "s/members/0003.toml", "-o", "alone.h5"}).exit_code == 0);
    const auto last = [&](const std::string& file) {
        const auto rows = rows_of(folder.run(interpile_program, {"sample", file, "--ground"}).out);
        return rows.back();
    };
    CHECK(last("alone.h5") == last("s/members/0003.h5"));
}

TEST_CASE("finished members are kept, changed ones run again") {
    const WorkingFolder folder;
    write_study(folder);
    CHECK(study(folder, {"-o", "s"}).exit_code == 0);
    const auto table = content_of(folder.path() / "s" / "study.csv");
    const auto file = folder.path() / "s" / "members" / "0001.h5";
    const auto written = fs::last_write_time(file);
    CHECK_THAT(study(folder, {"-o", "s"}).out, Contains("4 of 4 members are finished already"));
    CHECK(fs::last_write_time(file) == written);
    CHECK(content_of(folder.path() / "s" / "study.csv") == table);

    fs::remove(folder.path() / "s" / "members" / "0002.result.toml");
    folder.write("s/members/0004.result.toml", "state = \"converged\"\n"); // torn
    CHECK_THAT(study(folder, {"-o", "s"}).out, Contains("2 of 4 members are finished already"));
    CHECK(content_of(folder.path() / "s" / "study.csv") == table);

    folder.write("study.toml", changed(cell_study, "[1.6, 2.0]", "[1.6, 2.1]"));
    CHECK_THAT(study(folder, {"-o", "s"}).out, Contains("2 of 4 members are finished already"));
    CHECK(rows_of(content_of(folder.path() / "s" / "study.csv"))[2].at("spacing_m") == "2.1");
}

TEST_CASE("a member that does not converge is listed, the others go on") {
    const WorkingFolder folder;
    folder.write("case.toml", cell_case + "[steps]\nmax_halvings = 0\nmax_iterations = 5\n");
    folder.write("study.toml", "[study]\nbase = \"case.toml\"\nkeep_results = false\n[[factor]]\n"
                               "key = \"steps.tolerance\"\nvalues = [1e-12, 0.1]\n"
                               "[[factor]]\nkey = \"steps.carry_over_tolerance\"\nvalues = [0.1]\n"
                               "[[factor]]\nkey = \"steps.max_iterations\"\nvalues = [5, 500]\n");
    const auto run = study(folder, {"-o", "s"});
    CHECK(run.exit_code == 1);
    CHECK_THAT(run.err, Contains("member 1 (steps.tolerance = 1e-12") && Contains("not converged: "));
    const auto table = content_of(folder.path() / "s" / "study.csv");
    CHECK_THAT(table, Contains("\n1,1e-12,0.1,5,not converged,") && Contains("\n4,0.1,0.1,500,converged,"));
    CHECK_FALSE(fs::exists(folder.path() / "s" / "members" / "0004.h5")); // only its row is kept
    CHECK(fs::exists(folder.path() / "s" / "members" / "0004.result.toml"));
    CHECK_THAT(study(folder, {"-o", "s"}).out, Contains("4 of 4 members are finished already"));
}

TEST_CASE("members can be run one by one and collected") {
    const WorkingFolder folder;
    write_study(folder);
    CHECK(study(folder, {"-o", "whole"}).exit_code == 0);
    CHECK(study(folder, {"-o", "s", "--member", "2"}).exit_code == 0);
    CHECK_FALSE(fs::exists(folder.path() / "s" / "study.csv"));
    const auto early = study(folder, {"-o", "s", "--collect"});
    CHECK(early.exit_code == 1);
    CHECK_THAT(early.err, Contains("member 1 (") && Contains("not run"));
    for (const char* member : {"1", "3", "4"})
        CHECK(study(folder, {"-o", "s", "--member", member}).exit_code == 0);
    CHECK(study(folder, {"-o", "s", "--collect"}).exit_code == 0);
    CHECK(content_of(folder.path() / "s" / "study.csv") == content_of(folder.path() / "whole" / "study.csv"));
}

TEST_CASE("Ctrl-C ends a study with 130, and the next call goes on") {
    const WorkingFolder folder;
    // Each member takes longer than the test waits.
    folder.write("case.toml",
                 changed(changed(cell_case, "strokes = 1", "strokes = 0"), "cells_per_diameter = 4",
                         "cells_per_diameter = 60\n[steps]\nincrements_per_pile = 5000"));
    folder.write("study.toml", cell_study);
    const auto run = folder.run(interpile_program, {"study", "study.toml", "-o", "s", "--jobs", "2"}, 1.0);
    CHECK(run.exit_code == 130);
    CHECK_THAT(run.err, Contains("Stopped on request"));
    CHECK_FALSE(fs::exists(folder.path() / "s" / "study.csv"));
    CHECK_FALSE(fs::exists(folder.path() / "s" / "members" / "0001.result.toml"));
    CHECK_FALSE(fs::exists(folder.path() / "s" / "members" / "0001.h5"));
    write_study(folder);
    CHECK(study(folder, {"-o", "s"}).exit_code == 0);
}

TEST_CASE("bad studies and options are refused before anything is written") {
    const WorkingFolder folder;
    write_study(folder);
    const auto refused = [&](const std::string& said, std::vector<std::string> more) {
        more.insert(more.end(), {"-o", "s"});
        const auto run = study(folder, more);
        CHECK(run.exit_code == 2);
        CHECK_THAT(run.err, Contains(said));
        CHECK_FALSE(fs::exists(folder.path() / "s"));
    };
    refused("--jobs 0: 1 .. 256", {"--jobs", "0"});
    refused("--member 5: the study has the members 1 .. 4", {"--member", "5"});
    refused("do not go together", {"--member", "1", "--collect"});
    folder.write("study.toml", changed(cell_study, "[1.6, 2.0]", "[0.3, 2.0]"));
    refused("study.toml:5:", {});
    CHECK_THAT(folder.run(interpile_program, {"help-study"}).out,
               Contains("[[factor]]") && Contains("Latin hypercube"));
}
