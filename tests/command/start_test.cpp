// `interpile start`: what it writes is what ships, and the commands it is meant for take it.

#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
const std::string cases = source_folder() + "/cases/";
} // namespace

TEST_CASE("start writes files that the commands take") {
    const WorkingFolder folder;
    const std::vector<std::vector<std::string>> uses = {
        {"case", "check", "case/case.toml"},
        {"cell", "check", "cell/case.toml"},
        {"site", "design", "site/site.toml"},
        {"works", "instruction", "works/works.toml"},
    };
    for (const auto& use : uses) {
        const auto started = folder.run(interpile_program, {"start", use[0]});
        INFO(use[0] << ": " << started.err);
        CHECK(started.exit_code == 0);
        const auto taken = folder.run(interpile_program, {use[1], use[2]});
        INFO(taken.err);
        CHECK(taken.exit_code == 0);
    }
    const auto style = folder.run(interpile_program, {"start", "style"});
    CHECK(style.exit_code == 0);
    CHECK(content_of(folder.path() / "style" / "style.toml") ==
          content_of(cases + "figure-style/style.toml"));
    CHECK(content_of(folder.path() / "site" / "boring-w2.csv") ==
          content_of(cases + "site-willow-basin/boring-w2.csv"));
    CHECK(content_of(folder.path() / "works" / "records.csv") ==
          content_of(cases + "works-riverside/records.csv"));
}

TEST_CASE("start leaves files alone and knows its kinds") {
    const WorkingFolder folder;
    std::filesystem::create_directories(folder.path() / "mine");
    folder.write("mine/case.toml", "my own work");
    const auto again = folder.run(interpile_program, {"start", "case", "-o", "mine"});
    CHECK(again.exit_code == 3);
    CHECK_THAT(again.err, Catch::Contains("left untouched"));
    CHECK(content_of(folder.path() / "mine" / "case.toml") == "my own work");
    const auto wrong = folder.run(interpile_program, {"start", "stie"});
    CHECK(wrong.exit_code == 2);
    CHECK_THAT(wrong.err, Catch::Contains("nearest: site"));
}
