// Tests after treatment of an invented site.

#include "io/after_table.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

const std::string head =
    "place,depth_m,blow_count,fines_pct,replacement_ratio,days_after,simulated_blow_count\n";
const std::string first = "P1,2.3,18,5,0.13,14,16.5\n";

std::string told(const std::string& text) {
    return testing::told(io::parse_after_table, text, "after.csv");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(io::parse_after_table, text, "after.csv");
}

} // namespace

TEST_CASE("tests after treatment are read in the order of their rows", "[after]") {
    const auto tests =
        io::parse_after_table(head + first + "P2,2.3,20,,,,\nP1,1.3,12,,0.5,0,\n", "after.csv");
    REQUIRE(tests.size() == 3);
    CHECK(tests[0].place == "P1");
    CHECK(tests[0].depth_m == 2.3);
    CHECK(tests[0].blow_count == 18);
    CHECK(tests[0].fines_pct == 5.0);
    CHECK(tests[0].replacement_ratio == 0.13);
    CHECK(tests[0].days_after == 14.0);
    CHECK(tests[0].simulated_blow_count == 16.5);
    CHECK(tests[1].place == "P2");
    CHECK(!tests[1].fines_pct);
    CHECK(!tests[1].replacement_ratio);
    CHECK(!tests[1].days_after);
    CHECK(!tests[1].simulated_blow_count);
    CHECK(tests[2].days_after == 0.0);
}

TEST_CASE("three columns make a table of tests after treatment", "[after]") {
    const auto tests = io::parse_after_table("blow_count,place,depth_m\n18,P1,2.3\n", "after.csv");
    REQUIRE(tests.size() == 1);
    CHECK(tests[0].blow_count == 18);
    CHECK(!tests[0].fines_pct);
}

TEST_CASE("a fault of a test after treatment says where, what and how to mend it", "[after]") {
    const auto [text, said, mend] = GENERATE_COPY(table<std::string, std::string, std::string>({
        {head, "after.csv:1:1: the table has no rows", "below the head"},
        {"place,depth_m\nP1,2.3\n", "after.csv:1:1: column blow_count is missing",
         "Needed: place, depth_m, blow_count."},
        {"place,depth_m,blow_counts\nP1,2.3,18\n", "after.csv:1:15: \"blow_counts\" is not the head",
         "Did you mean blow_count?"},
        {head + first + "P1,3,3,18,5,0.13,14,16\n", "after.csv:3:1: row 3 has 8 values instead of 7",
         "A decimal comma"},
        {head + first + ",3.3,18,,,,\n", "after.csv:3:1: row 3, column place: the cell is empty",
         "Name the boring."},
        {head + first + "P1,0.01,18,,,,\n",
         "after.csv:3:4: row 3, column depth_m: 0.01 is outside 0.05 .. 100", "Meters below"},
        {head + first + "P1,3.3,18/30,,,,\n", "row 3, column blow_count: \"18/30\" is not a number",
         "blows per 0.3 m"},
        {head + first + "P1,3.3,101,,,,\n", "column blow_count: 101 is outside 0 .. 100", "blows per 0.3 m"},
        {head + first + "P1,3.3,,,,,\n", "row 3, column blow_count: the cell is empty", "blows per 0.3 m"},
        {head + first + "P1,3.3,18,-1,,,\n", "column fines_pct: -1 is outside 0 .. 100", "in percent"},
        {head + first + "P1,3.3,18,,13,,\n", "column replacement_ratio: 13 is outside 0.01 .. 0.5",
         "0.15, not 15 %"},
        {head + first + "P1,3.3,18,,0.009,,\n", "column replacement_ratio: 0.009 is outside", "fraction"},
        {head + first + "P1,3.3,18,,,2031-05-06,\n", "column days_after: \"2031-05-06\" is not a number",
         "not a date"},
        {head + first + "P1,3.3,18,,,10001,\n", "column days_after: 10001 is outside 0 .. 10000",
         "not a date"},
        {head + first + "P1,3.3,18,,,,nan\n", "column simulated_blow_count: \"nan\" is not a number", "N in"},
        {head + first + "P1,2.30,19,,,,\n",
         "after.csv:3:4: row 3, column depth_m: 2.30 of place P1 stands in row 2 too",
         "Leave one of them out"},
        {head + first + "P\xE9,3.3,18,,,,\n", "after.csv:3:2: this byte is not UTF-8 text", "UTF-8"},
    }));
    INFO(text);
    CHECK_THAT(told(text), Contains(said) && Contains(mend));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("all faults of tests after treatment are told at once", "[after]") {
    CHECK(fault_count(head + first + "P1,x,y,,,,\nP1,2.3,18,,,,\nP3,1\n") == 4);
}

TEST_CASE("tests after treatment are read from a file, or their faults go to those of another", "[after]") {
    const auto file = std::filesystem::temp_directory_path() / "interpile-after.csv";
    std::ofstream(file) << head << first;
    io::FaultList faults("site.toml", "[site]\n");
    CHECK(io::read_after_table(file).size() == 1);
    CHECK(io::read_after_table(file, {{"P1"}, 0.1}, faults).size() == 1);
    CHECK(faults.empty());
    std::ofstream(file) << head << first << first;
    io::read_after_table(file, {{"P1"}, 0.1}, faults);
    CHECK_THROWS_WITH(faults.throw_if_any(), Contains("interpile-after.csv:3:4: row 3, column depth_m: 2.3"));
    std::filesystem::remove(file);
    CHECK_THROWS_AS(io::read_after_table(file), io::FileTrouble);
}
