// `interpile check`: sound cases are described, bad ones refused, nothing is written unless asked for.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
}

TEST_CASE("check describes the cases that come with the program") {
    const WorkingFolder folder;
    for (const std::string name : {"demo-harbor", "classroom-example"}) {
        const auto run =
            folder.run(interpile_program, {"check", source_folder() + "/cases/" + name + "/case.toml"});
        INFO(run.err);
        CHECK(run.exit_code == 0);
        CHECK(run.err.empty());
        for (const char* part : {"Configuration in force", "default:", "area replacement ratio", "unknowns",
                                 "Order of work", "Remarks", "drained"})
            CHECK_THAT(run.out, Catch::Contains(part));
        // Only the soil of the class example is one that strokes cannot densify.
        CHECK((run.out.find("not a prediction") != std::string::npos) == (name == "classroom-example"));
    }
    CHECK(folder.files().empty());
}

TEST_CASE("check draws the layout when asked") {
    const WorkingFolder folder;
    folder.write("four.toml", sound_case);
    for (const std::string ending : {"pdf", "svg", "png"}) {
        CHECK(folder.run(interpile_program, {"check", "four.toml", "--layout-figure", "plan." + ending})
                  .exit_code == 0);
        CHECK(content_of(folder.path() / ("plan." + ending)).size() > 1000);
    }
    const auto other = folder.run(interpile_program, {"check", "four.toml", "--layout-figure", "plan.bmp"});
    CHECK(other.exit_code == 3);
    CHECK_THAT(other.err, Catch::Contains("plan.bmp"));
    CHECK(folder.files().size() == 4);
}

TEST_CASE("check of a bad case shows every fault on standard error and exits with 2") {
    const WorkingFolder folder;
    folder.write("bad.toml", changed(changed(sound_case, "K0 = 0.5", "K0 = nan"), "spacing_m", "spacng_m"));
    const auto run = folder.run(interpile_program, {"check", "bad.toml"});
    CHECK(run.exit_code == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Catch::StartsWith("bad.toml:8:6: ground.K0 = nan") &&
                            Catch::Contains("nearest: \"spacing_m\"") &&
                            Catch::Contains("faults in the file"));
}
