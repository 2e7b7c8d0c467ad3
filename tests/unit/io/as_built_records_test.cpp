// Logs of invented piles.

#include "io/as_built_records.h"
#include "io/csv_cells.h"
#include "io/diagnostics.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

const std::string head = "pile,time_s,tip_depth_m,sand_volume_m3,driving_resistance_kN,inclination_deg\n";
const std::string first = "A1,0,0,0,,\n";

std::string told(const std::string& text) {
    return testing::told(io::parse_as_built_records, text, "log.csv");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(io::parse_as_built_records, text, "log.csv");
}

} // namespace

TEST_CASE("records are read by pile, with cells left empty", "[works]") {
    const auto records = io::parse_as_built_records(
        head + "A1,0,0,0,,0.1\nB2,5,0,0,,\r\nA1,60,8.5,0,120,-0.2\n\nB2,65,8,0,,\nA1,90,7.5,0.13,,\n",
        "log.csv");
    REQUIRE(records.size() == 2);
    CHECK(records[0].pile == "A1");
    REQUIRE(records[0].samples.size() == 3);
    CHECK(records[0].samples[1].time_s == 60);
    CHECK(records[0].samples[1].tip_depth_m == 8.5);
    CHECK(records[0].samples[1].driving_resistance_kN == 120.0);
    CHECK(records[0].samples[1].inclination_deg == -0.2);
    CHECK(!records[0].samples[2].driving_resistance_kN);
    CHECK(records[0].samples[2].sand_volume_m3 == 0.13);
    CHECK(!records[0].position_m);
    CHECK(records[1].pile == "B2");
    CHECK(records[1].samples.size() == 2);
}

TEST_CASE("columns may stand in any order, the optional ones may be absent", "[works]") {
    const auto records = io::parse_as_built_records(
        "\xEF\xBB\xBFtime_s, sand_volume_m3, pile, tip_depth_m\n0, 0, P, 1\n1, 0.2, P, 2", "log.csv");
    REQUIRE(records.size() == 1);
    CHECK(records[0].pile == "P");
    CHECK(records[0].samples[1].tip_depth_m == 2);
    CHECK(records[0].samples[1].sand_volume_m3 == 0.2);
    CHECK(!records[0].samples[1].inclination_deg);
}

TEST_CASE("a fault of a record says where, what and how to mend it", "[works]") {
    const auto [text, said, mend] = GENERATE_COPY(table<std::string, std::string, std::string>({
        {"", "log.csv:1:1: the file is empty", "Write the head there: pile,time_s"},
        {"\n" + first, "log.csv:1:1: the first line is empty", "Write the head there"},
        {head, "log.csv:1:1: the table has no rows", "below the head"},
        {"pile;time_s;tip_depth_m\n", "log.csv:1:1: the cells are not separated by commas",
         "Export with commas"},
        {"pile,time_s,tip_depth,sand_volume_m3\n", "log.csv:1:13: \"tip_depth\" is not the head of a column",
         "Did you mean tip_depth_m?"},
        {"pile,time_s,tip_depth_m,sand_volume_m3,weather\n", "log.csv:1:40: \"weather\" is not the head",
         "Known: pile, time_s"},
        {"pile,time_s,tip_depth_m\n", "log.csv:1:1: column sand_volume_m3 is missing",
         "Needed: pile, time_s, tip_depth_m, sand_volume_m3."},
        {"pile,time_s,time_s,tip_depth_m,sand_volume_m3\n", "log.csv:1:13: column time_s stands here twice",
         "Leave one"},
        {head + first + "A1,1,deep,0,,\n", "log.csv:3:6: row 3, column tip_depth_m: \"deep\" is not a number",
         "Meters below the surface"},
        {head + first + "A1,08:15,1,0,,\n", "log.csv:3:4: row 3, column time_s: \"08:15\" is not a number",
         "Seconds, not a time of day."},
        {head + first + "A1,1,0,5,0,,\n", "log.csv:3:1: row 3 has 7 values instead of 6", "A decimal comma"},
        {head + first + "A1,1,2\n", "log.csv:3:1: row 3 has 3 values instead of 6", "Give every column"},
        {head + first + "A1,1,-0.3,0,,\n", "log.csv:3:6: row 3, column tip_depth_m: -0.3 is outside 0 .. 100",
         "positive downward"},
        {head + first + "A1,1,,0,,\n", "row 3, column tip_depth_m: the cell is empty", "Meters below"},
        {head + first + "A1,1,1,nan,,\n",
         "log.csv:3:8: row 3, column sand_volume_m3: \"nan\" is not a number", "in cubic meters"},
        {head + first + "A1,1,1,2e4,,\n", "sand_volume_m3: 2e4 is outside 0 .. 10000", "in cubic meters"},
        {head + first + "A1,1,1,0,,60\n", "row 3, column inclination_deg: 60 is outside -45 .. 45",
         "From the vertical"},
        {head + first + ",1,1,0,,\n", "log.csv:3:1: row 3, column pile: the cell is empty", "Name the pile"},
        {head + first + "\"A1\",1,1,0,,\n", "row 3, column pile: \"A1\" has quotation marks", "without"},
        {head + first + "A1,9,1,0,,\nA1,8.5,1,0,,\n",
         "log.csv:4:4: row 4, column time_s: 8.5 is below 9 in row 3 of pile A1: time runs backward",
         "Sort the rows"},
        {head + first + "A1,1,1,0.5,,\nA1,2,1,0.4,,\n",
         "log.csv:4:8: row 4, column sand_volume_m3: 0.4 is below 0.5 in row 3 of pile A1: the cumulative "
         "volume falls",
         "not since the last charge"},
        {head + first, "log.csv:2:1: pile A1 has one sample only", "At least two"},
        {head + first + "A\xE9,1,1,0,,\n", "log.csv:3:2: this byte is not UTF-8 text", "encoding UTF-8"},
        {std::string("\xFF\xFEp\0i\0", 6), "log.csv:1:1: this byte is not UTF-8 text", "encoding UTF-8"},
    }));
    INFO(text);
    CHECK_THAT(told(text), Contains(said) && Contains(mend));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("all faults of a record are told at once, in the order of the file", "[works]") {
    const std::string text = told(head + first + "A1,x,-1,0,,\nA1,1,1,0\nA1,5,1,0.2,,\nA1,4,1,0.1,,\n");
    const auto at = [&](const char* place) { return text.find(place); };
    CHECK(at("log.csv:3:4") < at("log.csv:3:6"));
    CHECK(at("log.csv:3:6") < at("log.csv:4:1"));
    CHECK(at("log.csv:4:1") < at("log.csv:6:4"));
    CHECK(at("log.csv:6:4") < at("log.csv:6:8"));
    CHECK_THAT(text, Contains("5 faults"));
}

TEST_CASE("an unknown and a missing column are told together", "[works]") {
    CHECK(fault_count("pile,time_s,tip_depth_m,weather\n") == 2);
}

TEST_CASE("times of different piles are not compared", "[works]") {
    CHECK(told(head + first + "B2,100,0,0,,\nA1,50,1,0,,\nB2,150,1,0,,\n") == "nothing");
}

TEST_CASE("a slip in every row is listed for the first 50", "[works]") {
    std::string text = head;
    for (int i = 0; i < 70; ++i)
        text += "A1,1,0,5,0,,\n";
    CHECK(fault_count(text) == 51);
    CHECK_THAT(told(text), Contains("20 more faults are not listed"));
}

TEST_CASE("rows below the head keep the number of their line", "[works]") {
    const auto rows = io::rows_below_head("h\n\n1,2\r\n  \n3");
    REQUIRE(rows.size() == 2);
    CHECK((rows[0].number == 3 && rows[0].line == "1,2"));
    CHECK((rows[1].number == 5 && rows[1].cells[0].text == "3"));
    CHECK(io::rows_below_head("h\n").empty());
    CHECK(io::rows_below_head("").empty());
}

TEST_CASE("records are read from a file", "[works]") {
    const auto file = std::filesystem::temp_directory_path() / "interpile-as-built-log.csv";
    std::ofstream(file) << head << first << "A1,1,1,0,,\n";
    CHECK(io::read_as_built_records(file).size() == 1);
    std::filesystem::remove(file);
    CHECK_THROWS_AS(io::read_as_built_records(file), io::FileTrouble);
}
