// `interpile instruction` and `interpile neighbors`: the example that comes with the program, and bad files.

#include "tests/support/case_text.h"
#include "tests/support/program_run.h"
#include "tests/support/works_text.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile::testing;

namespace {
const std::string interpile_program = INTERPILE_PROGRAM;
const std::string riverside = std::string(SOURCE_DIR) + "/cases/works-riverside/works.toml";
} // namespace

TEST_CASE("instruction writes a table and a page of its example") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"instruction", riverside, "-o", "sheets"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    // 24 cylinders of 0.7 m and 9 m: 83.127 m3.
    CHECK_THAT(run.out, Catch::Contains(
                            "83.127 m3 in place; number x area x length: 83.127 m3, difference 0.000 m3") &&
                            Catch::Contains("sheets/instruction.html"));
    const std::string table = content_of(folder.path() / "sheets" / "instruction.csv");
    CHECK(std::count(table.begin(), table.end(), '\n') == 1 + 24 * 30);
    CHECK_THAT(table, Catch::Contains("\n1,P19,")); // from the north: the last row first
    CHECK_THAT(content_of(folder.path() / "sheets" / "instruction.html"),
               Catch::StartsWith("<!DOCTYPE html>") && Catch::EndsWith("</html>\n"));
}

TEST_CASE("neighbors writes a table of its example and says what it is") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"neighbors", riverside, "-o", "sheets"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Catch::Contains("Screening only") && Catch::Contains("quay wall") &&
                            Catch::Contains("Working hours 8:00 to 17:30"));
    const std::string table = content_of(folder.path() / "sheets" / "neighbors.csv");
    CHECK(std::count(table.begin(), table.end(), '\n') == 1 + 3);
    CHECK_THAT(table, Catch::Contains("screening,buried pipe,"));
}

TEST_CASE("bad works files are refused and nothing is written") {
    const WorkingFolder folder;
    folder.write("bad.toml",
                 changed(changed(sound_works, "net_rise_m = 0.3", "net_rise_m = 0"), "y_m = 1\n", ""));
    for (const std::string command : {"instruction", "neighbors"}) {
        const auto run = folder.run(interpile_program, {command, "bad.toml"});
        CHECK(run.exit_code == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Catch::Contains("bad.toml:10:14: pile.net_rise_m = 0 is outside 0.05 .. 10 m") &&
                                Catch::Contains("key \"y_m\" is missing"));
        CHECK(folder.run(interpile_program, {command, "none.toml"}).exit_code == 3);
    }
    folder.write("alone.toml", sound_works.substr(0, sound_works.find("[surroundings]")));
    const auto run = folder.run(interpile_program, {"neighbors", "alone.toml"});
    CHECK(run.exit_code == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err,
               Catch::Contains("alone.toml: key \"border_distance_m\" is missing in [surroundings]"));
    CHECK(folder.files() == std::vector<std::string>{"alone.toml", "bad.toml"});
}

TEST_CASE("help-works lists every table of a works file") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program, {"help-works"});
    CHECK(run.exit_code == 0);
    for (const char* part :
         {"[pile]", "[layout]", "rest_h", "[limits]", "[as_built]", "[surroundings]", "[[place]]"})
        CHECK_THAT(run.out, Catch::Contains(part));
}
