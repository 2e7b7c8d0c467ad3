// `interpile design`: the example that comes with the program, written cases, bad files, an earlier result.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/rfc4180.h"
#include "tests/support/site_text.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {
const std::string interpile_program = program_file();
const std::string willow_basin = source_folder() + "/cases/site-willow-basin/site.toml";

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = text.find('\n', at);
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}
} // namespace

TEST_CASE("design makes tables, figures and cases of its example") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"design", willow_basin});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Catch::StartsWith("Willow Basin (invented site)\n") && Contains("Asks for most:") &&
                            Contains("not for approval") && !Contains("-0.00"));
    const auto out = folder.path() / "site_design";
    int cases = 0, told = 0;
    for (const auto& entry : std::filesystem::directory_iterator(out)) {
        const std::string name = entry.path().filename().string();
        INFO(name);
        ++told;
        CHECK(entry.file_size() > 100);
        const auto lines = lines_of(run.out);
        CHECK(std::count(lines.begin(), lines.end(), "site_design/" + name) == 1);
        if (!name.starts_with("case-"))
            continue;
        ++cases;
        const auto check = folder.run(interpile_program, {"check", "site_design/" + name});
        INFO(check.err);
        CHECK(check.exit_code == 0);
    }
    CHECK(cases == 6);                    // three methods, a cell and a group each
    CHECK(told == 9 + cases + 3 * 2 * 3); // two figures of every boring in three formats
    for (const char* file : {"profile-w-1.pdf", "ratios-w-3.svg", "profile-w-2.png", "case-w-2-C-cell.toml"})
        CHECK(std::filesystem::exists(out / file));
    const Rfc4180 spacings(content_of(out / "spacings.csv"));
    REQUIRE(spacings.size() == 9);
    for (std::size_t i = 0; i < spacings.size(); ++i)
        CHECK_THAT(run.out, Contains("in practice " + spacings.at(i, "practical_spacing_m").substr(0, 3)));
}

TEST_CASE("a written case can be driven") {
    const WorkingFolder folder;
    REQUIRE(folder.run(interpile_program, {"design", willow_basin, "-o", "made"}).exit_code == 0);
    // One growth on a coarse grid: whether it runs, not what it says.
    std::string text = content_of(folder.path() / "made" / "case-w-2-C-cell.toml");
    const auto from = text.find("withdrawal_m"), to = text.find("[layout]");
    text.replace(from, to - from, "strokes = 0\n\n");
    text = changed(text, "cells_per_diameter    = 8", "cells_per_diameter    = 6");
    folder.write("short.toml", text);
    const auto run = folder.run(interpile_program, {"run", "short.toml"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
}

TEST_CASE("a target at no depth and one out of reach are told and make no case") {
    const SiteFolder site;
    site.folder.write("site.toml", changed(changed(sound_site, "safety_factor = 1.0", "safety_factor = 3"),
                                           "peak_acceleration_g = 0.2", "peak_acceleration_g = 1.5"));
    const auto none = site.folder.run(interpile_program, {"design", "site.toml"});
    CHECK(none.exit_code == 0);
    CHECK_THAT(none.out, Contains("NO TARGET at B-1, B-2") && !Contains("case-"));
    CHECK_THAT(content_of(site.folder.path() / "site_design" / "profile-b-1.svg"),
               !Contains("The target holds before treatment"));
}

TEST_CASE("a bad site is refused before anything is written, an earlier result stays") {
    const SiteFolder site;
    site.folder.write("site.toml", sound_site);
    REQUIRE(site.folder.run(interpile_program, {"design", "site.toml", "-o", "made"}).exit_code == 0);
    const auto earlier = content_of(site.folder.path() / "made" / "ground.csv");
    const auto files = site.folder.files();
    const auto refused = [&](const std::string& text, const std::string& table, const std::string& part) {
        site.folder.write("site.toml", text);
        site.folder.write("b1.csv", table);
        for (const std::string output : {"made", "other"}) {
            const auto run = site.folder.run(interpile_program, {"design", "site.toml", "-o", output});
            INFO(run.err);
            CHECK(run.exit_code == 2);
            CHECK(run.out.empty());
            CHECK_THAT(run.err, Contains(part) && Contains("earlier results are untouched"));
        }
        CHECK(site.folder.files() == files);
        CHECK(content_of(site.folder.path() / "made" / "ground.csv") == earlier);
    };
    refused(changed(sound_site, "diameter_m = 0.7", "diameter_m = 7"), sound_boring_one,
            "site.toml:24:14: treatment.diameter_m = 7 is outside 0.2 .. 3 m");
    refused(sound_site, changed(sound_boring_one, "5.3,9", "3.3,9"), "b1.csv:6:1:");
    refused("", sound_boring_one, "there is no [[boring]]");
    site.folder.write("site.toml", changed(sound_site, "b2.csv", "none.csv"));
    site.folder.write("b1.csv", sound_boring_one);
    const auto missing = site.folder.run(interpile_program, {"design", "site.toml", "-o", "made"});
    CHECK(missing.exit_code == 3);
    CHECK_THAT(missing.err, Contains("none.csv"));
    CHECK(site.folder.files() == files);
}

// Each of these ended the command once: sand without a permeability to guess, a refusal on a stone.
TEST_CASE("unusual ground does not end the design") {
    const SiteFolder site;
    site.folder.write("site.toml", sound_site);
    site.folder.write("b1.csv", changed(changed(sound_boring_one, "2.3,5,10,18.5,0.2", "2.3,5,45,18.5,0.06"),
                                        "1.3,6,8", "1.3,100,30"));
    const auto run = site.folder.run(interpile_program, {"design", "site.toml"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    const Rfc4180 ground(content_of(site.folder.path() / "site_design" / "ground.csv"));
    CHECK(ground.at(1, "permeability_m_s").empty());
    CHECK_THAT(ground.at(1, "remarks"), Contains("permeability_m_s: grading-guess needs"));
}

TEST_CASE("help-site lists every table of a site file") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"help-site"});
    CHECK(run.exit_code == 0);
    for (const char* part :
         {"[site]", "[[boring]]", "[earthquake]", "[treatment]", "[target]", "[relations]", "spacing_step_m"})
        CHECK_THAT(run.out, Contains(part));
}
