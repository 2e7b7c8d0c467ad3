// `interpile report`: the example that comes with the program, a result made here, bad files.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <sstream>

using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

const std::string interpile_program = program_file();
const std::string cases = source_folder() + "/cases/";
const std::string willow_basin = cases + "site-willow-basin/site.toml";

std::string text_of_pdf(const WorkingFolder& folder, const std::string& file) {
    const auto run = folder.run("/usr/bin/pdftotext", {"-layout", file, "-"});
    REQUIRE(run.exit_code == 0);
    return run.out;
}

/// Words with one blank between them: symbols and line ends stand apart in the text of a PDF.
std::string one_line(const std::string& text) {
    std::istringstream words(text);
    std::string line;
    for (std::string word; words >> word;)
        line += (line.empty() ? "" : " ") + word;
    return line;
}

std::string verdict_on(const WorkingFolder& folder, const std::string& file) {
    return folder.run("/usr/bin/python3", {source_folder() + "/tests/support/html_check.py", file}).out;
}

} // namespace

TEST_CASE("report makes its example, twice the same") {
    const WorkingFolder folder;
    for (const std::string output : {"one", "two"}) {
        const auto run = folder.run(interpile_program,
                                    {"report", cases + "report-willow-basin/report.toml", "-o", output});
        INFO(run.err);
        CHECK(run.exit_code == 0);
        CHECK(run.err.empty());
        CHECK(run.out == output + "/report.html\n" + output + "/report.pdf\n");
    }
    for (const char* file : {"report.html", "report.pdf"})
        CHECK(content_of(folder.path() / "one" / file) == content_of(folder.path() / "two" / file));
    CHECK(verdict_on(folder, "one/report.html") == "sound\n");
    CHECK(content_of(folder.path() / "one" / "report.html").find("http") == std::string::npos);

    const std::string pdf = one_line(text_of_pdf(folder, "one/report.pdf"));
    for (const char* part :
         {"Sand compaction piles at Willow Basin", "2026-11-25", "nobody is to build by it",
          "Job and cautions", "Boring W-3: ground before treatment",
          "the procedures disagree on liquefaction at 1.3 m", "Severity before treatment",
          "Spacing by boring and method",
          "Left out, as there is nothing to tell: Simulation; Alternatives compared; Neighbors; Instruction; "
          "As built",
          "never at both", "The target is NOT KEPT by 1 of 23 tests",
          "Values from memory, and values without a source", "page 2 of "})
        CHECK_THAT(pdf, Contains(part));
    CHECK_THAT(folder.run("/usr/bin/pdfinfo", {"one/report.pdf"}).out, !Contains("Pages:           1\n"));
}

TEST_CASE("a report tells a simulation and works, and dates itself by the result") {
    const WorkingFolder folder;
    REQUIRE(folder.run(interpile_program, {"design", willow_basin, "-o", "made"}).exit_code == 0);
    // A coarse grid: what is told, not what it says.
    const std::string text = changed(content_of(folder.path() / "made" / "case-w-2-C-cell.toml"),
                                     "cells_per_diameter    = 8", "cells_per_diameter    = 6");
    folder.write("short.toml", text);
    REQUIRE(folder.run(interpile_program, {"run", "short.toml", "-o", "r.h5"}).exit_code == 0);
    folder.write("report.toml", "[report]\ntitle = \"All of it\"\nsite = \"" + willow_basin +
                                    "\"\nworks = \"" + cases +
                                    "works-riverside/works.toml\"\nresults = [\"r.h5\"]\n" +
                                    "[[text]]\nchapter = \"tests\"\nbody = \"No tests yet.\"\n");
    const auto run = folder.run(interpile_program, {"report", "report.toml"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK(verdict_on(folder, "report_report/report.html") == "sound\n");
    const std::string pdf = text_of_pdf(folder, "report_report/report.pdf");
    const std::string told = one_line(pdf);
    for (const char* part :
         {"Simulation short: convergence and volume balance", "Simulation short: every value in force",
          "in plan, with the weakest point", "N of the density, and what K adds",
          "Vibration and noise of one rig", "Order of work", "No tests yet.", "No data of this chapter"})
        CHECK_THAT(told, Contains(part));
    CHECK_THAT(pdf, Contains("our own derivation") && Contains("Ishihara & Takatsu"));
    // The date of the result stands on the title page, as the file gives none.
    const std::string html = content_of(folder.path() / "report_report" / "report.html");
    const auto date = html.find("<dt>Date</dt><dd>2");
    REQUIRE(date != std::string::npos);
    const std::string day = html.substr(date + 17, 10);
    CHECK_THAT(html, Contains("begun " + day));
    // Both tables of the works name the sand: 24 cylinders of 0.7 m and 9 m.
    CHECK_THAT(html, Contains("83.127"));
}

TEST_CASE("a report of works alone leaves out the rest and says so") {
    const WorkingFolder folder;
    folder.write("report.toml",
                 "[report]\ntitle = \"Works\"\nworks = \"" + cases + "works-riverside/works.toml\"\n");
    REQUIRE(folder.run(interpile_program, {"report", "report.toml", "-o", "out"}).exit_code == 0);
    const std::string pdf = one_line(text_of_pdf(folder, "out/report.pdf"));
    CHECK_THAT(pdf,
               Contains("Left out, as there is nothing to tell: Ground; Need; Simple methods; Simulation"));
    CHECK_THAT(pdf, !Contains("Boring"));
    CHECK(content_of(folder.path() / "out" / "report.html").find("<dt>Date</dt>") == std::string::npos);
}

// K 0.7 over K_0 0.5, which the site takes: (1 + 2 K)/(1 + 2 K_0) = 1.2, from memory of Ishihara & Takatsu (1979).
TEST_CASE("the lateral stress is counted at one place only and apart from the density") {
    const WorkingFolder folder;
    for (const char* table : {"boring-w1.csv", "boring-w2.csv", "boring-w3.csv", "after.csv"})
        std::filesystem::copy_file(cases + "site-willow-basin/" + table, folder.path() / table);
    folder.write("report.toml", "[report]\ntitle = \"K\"\nsite = \"site.toml\"\n");
    const auto page_with = [&](const std::string& effect) {
        folder.write("site.toml", changed(content_of(willow_basin), "[relations]",
                                          "lateral_stress = \"" + effect +
                                              "\"\nlateral_stress_ratio = 0.7\n\n[relations]"));
        const auto run = folder.run(interpile_program, {"report", "report.toml", "-o", "out"});
        INFO(run.err);
        CHECK(run.exit_code == 0);
        return content_of(folder.path() / "out" / "report.html");
    };
    const std::string at_resistance = page_with("resistance");
    CHECK_THAT(at_resistance, Contains("counted at the resistance") &&
                                  Contains("<td>0.50</td><td>1.20</td>") && !Contains("counted at N"));
    CHECK_THAT(page_with("blow-count"), Contains("counted at N") && !Contains("counted at the resistance"));
}

TEST_CASE("bad report files are refused and nothing is written") {
    const WorkingFolder folder;
    const auto refused = [&](int exit_code, const std::string& text, const std::string& said) {
        folder.write("report.toml", text);
        const auto run = folder.run(interpile_program, {"report", "report.toml", "-o", "out"});
        INFO(run.err);
        CHECK(run.exit_code == exit_code);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Contains(said));
        CHECK_FALSE(std::filesystem::exists(folder.path() / "out"));
    };
    const std::string head = "[report]\ntitle = \"x\"\n";
    refused(2, head, "there is nothing to tell");
    refused(2, head + "site = \"a.toml\"\nresult = [\"r.h5\"]\n", "nearest: \"results\"");
    refused(3, head + "site = \"none.toml\"\n", "none.toml");
    refused(3, head + "results = [\"none.h5\"]\n", "none.h5");
    folder.write("text.h5", "not a result");
    refused(3, head + "results = [\"text.h5\"]\n", "text.h5");
    std::string site = content_of(willow_basin);
    for (const char* boring : {"boring-w1.csv", "boring-w2.csv", "boring-w3.csv", "after.csv"}) {
        std::filesystem::copy_file(cases + "site-willow-basin/" + boring, folder.path() / boring);
    }
    folder.write("site.toml", site.substr(0, site.find("[after]")));
    refused(2, head + "site = \"site.toml\"\nafter = true\n", "names no tests");
    folder.write("site.toml", changed(site, "diameter_m        = 0.70", "diameter_m        = 7"));
    refused(2, head + "site = \"site.toml\"\n", "treatment.diameter_m = 7 is outside 0.2 .. 3 m");
}

TEST_CASE("help-report lists the keys of a report file") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"help-report"});
    CHECK(run.exit_code == 0);
    for (const char* part : {"[report]", "[[text]]", "results", "chapter", "instruction"})
        CHECK_THAT(run.out, Contains(part));
}
