// `interpile instruction`, `neighbors` and `as-built`: the example that comes with the program, and bad files.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"
#include "tests/support/works_text.h"
#include "tests/support/written_table.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
const std::string riverside = source_folder() + "/cases/works-riverside/works.toml";
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

// The deviations of the example are those its README names.
TEST_CASE("as-built finds what is planted in its example, and nothing else") {
    const WorkingFolder folder;
    const auto run = folder.run(interpile_program,
                                {"as-built", riverside, "-o", "built", "--slice", "5.5", "--slice", "9.8"});
    INFO(run.err);
    CHECK(run.exit_code == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Catch::Contains("24 piles ordered, 23 recorded: 19 as ordered, 4 deviating, 1 not "
                                        "recorded") &&
                            Catch::Contains("no log of P12") && Catch::Contains("kept by 22 of 22") &&
                            Catch::Contains("Plan at 9.8 m: 23 of 24 piles; without sand there: P9"));
    const auto spots = rows_of(content_of(folder.path() / "built" / "weak-spots.csv"));
    REQUIRE(spots.size() == 5);
    CHECK(spots[0].at("quantity") == "length missing at the bottom");
    CHECK(spots[0].at("value") == "0.6");
    const std::vector<std::string> piles = {"P9", "P9", "P15", "P4", "P20"};
    for (std::size_t i = 0; i < spots.size(); ++i)
        CHECK(spots[i].at("pile") == piles[i]);
    CHECK(rows_of(content_of(folder.path() / "built" / "slices.csv")).size() == 23 * 9);
    CHECK(rows_of(content_of(folder.path() / "built" / "piles.csv")).size() == 24);
    CHECK(rows_of(content_of(folder.path() / "built" / "positions.csv")).size() == 24);
    CHECK(rows_of(content_of(folder.path() / "built" / "layout-as-built-9.8.csv")).size() == 23);
    for (const char* ending : {"pdf", "svg", "png"})
        CHECK(std::filesystem::file_size(folder.path() / "built" / ("weak-spots." + std::string(ending))) >
              5000);
}

TEST_CASE("as-built refuses what it cannot compare and writes nothing") {
    const WorkingFolder folder;
    folder.write("works.toml", sound_works + "\n[as_built]\nrecords = \"log.csv\"\n");
    const auto refused = [&](int exit_code, const std::string& said, std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), "as-built");
        const auto run = folder.run(interpile_program, arguments);
        CHECK(run.exit_code == exit_code);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Catch::Contains(said));
    };
    refused(3, "log.csv cannot be read", {"works.toml"});
    folder.write("log.csv", "pile,time_s,tip_depth_m,sand_volume_m3\nP7,0,0,0\nP7,9,10,0\n");
    refused(2, "log.csv:2:1: row 2, column pile: P7 was not ordered", {"works.toml"});
    folder.write("log.csv", "pile,time_s,tip_depth_m,sand_volume_m3\nP1,0,0,0\nP1,9,10,0\n");
    refused(2, "--slice 0.5: the ordered piles reach from 1 to 10 m", {"works.toml", "--slice", "0.5"});
    folder.write("alone.toml", sound_works);
    refused(2, "key \"records\" is missing in [as_built]", {"alone.toml"});
    CHECK(folder.files() == std::vector<std::string>{"alone.toml", "log.csv", "works.toml"});
}

TEST_CASE("bad works files are refused and nothing is written") {
    const WorkingFolder folder;
    folder.write("bad.toml",
                 changed(changed(sound_works, "net_rise_m = 0.3", "net_rise_m = 0"), "y_m = 1\n", ""));
    for (const std::string command : {"instruction", "neighbors", "as-built"}) {
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
