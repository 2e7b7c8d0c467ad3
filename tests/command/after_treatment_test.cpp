// `interpile after-treatment`: the example that comes with the program, one test simulated, bad files, Ctrl-C.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/rfc4180.h"
#include "tests/support/site_text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {
const std::string interpile_program = program_file();
const std::string willow_basin = source_folder() + "/cases/site-willow-basin/site.toml";
const std::string after_site = sound_site + "\n[after]\ntable = \"after.csv\"\nreplacement_ratio = 0.087\n";
} // namespace

TEST_CASE("after-treatment holds the tests of its example against prediction") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"after-treatment", willow_basin});
    INFO(run.out << run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    // 24 rows, of which one has 64 % fines
    CHECK_THAT(run.out,
               Catch::StartsWith("Willow Basin (invented site): 24 tests between the piles, 23 compared\n") &&
                   Contains("method B") && Contains("method D") &&
                   Contains("simulation   no test to compare with") && Contains("efficiency 0.") &&
                   Contains("not for approval") && !Contains("nan"));
    const auto out = folder.path() / "site_after";
    CHECK(folder.files() == std::vector<std::string>{"site_after/measured-predicted.pdf",
                                                     "site_after/measured-predicted.png",
                                                     "site_after/measured-predicted.svg",
                                                     "site_after/scores.csv", "site_after/tests.csv"});
    const Rfc4180 tests(content_of(out / "tests.csv")), scores(content_of(out / "scores.csv"));
    REQUIRE(tests.size() == 24);
    double ratios = 0;
    int compared = 0;
    for (std::size_t i = 0; i < tests.size(); ++i) {
        if (!tests.at(i, "remarks").starts_with("left out")) {
            ++compared;
            ratios += tests.number(i, "blow_count_measured") / tests.number(i, "blow_count_method_C");
        }
    }
    CHECK(compared == 23);
    CHECK(scores.at(2, "by") == "method C");
    CHECK(scores.number(2, "value") == Approx(ratios / compared).epsilon(1e-4));
}

TEST_CASE("after-treatment simulates the cell of a test and finds strokes") {
    const SiteFolder site;
    site.folder.write("site.toml", after_site);
    site.folder.write("after.csv", "place,depth_m,blow_count,replacement_ratio\nB-1,5.3,10,0.2\n");
    const auto run =
        site.folder.run(interpile_program, {"after-treatment", "site.toml", "--simulate", "-o", "made"});
    INFO(run.out << run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err == "simulation 1 of 6\n");
    CHECK_THAT(run.out, Contains("1 test between the piles, 1 compared") &&
                            Contains("simulation   measured over predicted N") &&
                            Contains("strokes, N of density") && Contains("made/strokes.csv") &&
                            !Contains("nan"));
    const Rfc4180 tests(content_of(site.folder.path() / "made" / "tests.csv")),
        strokes(content_of(site.folder.path() / "made" / "strokes.csv"));
    REQUIRE(strokes.size() == 6);
    CHECK(strokes.number(3, "strokes") == 10); // of a case made by the program
    CHECK(tests.at(0, "blow_count_simulated") == strokes.at(3, "blow_count_density_alone"));
}

TEST_CASE("after-treatment stopped by Ctrl-C exits with 130 and writes nothing") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"after-treatment", willow_basin, "--simulate"}, 1.5);
    CHECK(run.exit_code == 130);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Contains("Stopped on request; nothing was written."));
    CHECK(folder.files().empty());
}

TEST_CASE("after-treatment refuses a site without tests or with bad ones, an earlier result stays") {
    const SiteFolder site;
    site.folder.write("site.toml", after_site);
    site.folder.write("after.csv", "place,depth_m,blow_count\nB-1,2.3,10\n");
    REQUIRE(site.folder.run(interpile_program, {"after-treatment", "site.toml", "-o", "made"}).exit_code ==
            0);
    const auto earlier = content_of(site.folder.path() / "made" / "tests.csv");
    const auto files = site.folder.files();
    const auto refused = [&](const std::string& text, const std::string& table, const std::string& part) {
        site.folder.write("site.toml", text);
        site.folder.write("after.csv", table);
        for (const std::string output : {"made", "other"}) {
            const auto run =
                site.folder.run(interpile_program, {"after-treatment", "site.toml", "-o", output});
            INFO(run.err);
            CHECK(run.exit_code == 2);
            CHECK(run.out.empty());
            CHECK_THAT(run.err, Contains(part));
        }
        CHECK(site.folder.files() == files);
        CHECK(content_of(site.folder.path() / "made" / "tests.csv") == earlier);
    };
    refused(sound_site, "", "interpile: site.toml names no tests: give [after] with table\n");
    refused(after_site, "place,depth_m,blow_count\nB-1,2.3,-10\nB-3,2.3,10\n", "after.csv:2:9:");
    refused(after_site, "place,depth_m,blow_count\nB-3,2.3,10\n",
            "after.csv:2:1: row 2, column place: nothing says which boring tells the ground");
    site.folder.write("site.toml", changed(after_site, "after.csv", "none.csv"));
    CHECK(site.folder.run(interpile_program, {"after-treatment", "site.toml"}).exit_code == 3);
    CHECK(site.folder.files() == files);
}

TEST_CASE("tests that cannot be compared make no figure") {
    const SiteFolder site;
    site.folder.write("site.toml", after_site);
    site.folder.write("after.csv", "place,depth_m,blow_count\nB-1,4.3,10\n"); // silt
    const auto run = site.folder.run(interpile_program, {"after-treatment", "site.toml", "--simulate"});
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Contains("1 test between the piles, 0 compared") && !Contains("measured-predicted"));
    CHECK(std::filesystem::exists(site.folder.path() / "site_after" / "tests.csv"));
    CHECK_FALSE(std::filesystem::exists(site.folder.path() / "site_after" / "measured-predicted.pdf"));
}
