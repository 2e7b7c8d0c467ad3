// Surveys of invented piles.

#include "io/pile_survey.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

const std::string head = "pile,x_m,y_m\n";
const std::string first = "A1,0,0\n";

std::string told(const std::string& text) {
    return testing::told(io::parse_pile_survey, text, "survey.csv");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(io::parse_pile_survey, text, "survey.csv");
}

} // namespace

TEST_CASE("surveyed piles are read in the order of their rows", "[survey]") {
    const auto piles =
        io::parse_pile_survey("y_m,x_m,pile\r\n0.02,-0.05,B2\r\n10000,-10000,A1\r\n", "survey.csv");
    REQUIRE(piles.size() == 2);
    CHECK(piles[0].pile == "B2");
    CHECK(piles[0].position_m.x() == -0.05);
    CHECK(piles[0].position_m.y() == 0.02);
    CHECK(piles[1].pile == "A1");
    CHECK(piles[1].position_m.x() == -10000);
}

TEST_CASE("a fault of a survey says where, what and how to mend it", "[survey]") {
    const auto [text, said, mend] = GENERATE_COPY(table<std::string, std::string, std::string>({
        {head, "survey.csv:1:1: the table has no rows", "below the head"},
        {"pile,x_m\nA1,0\n", "survey.csv:1:1: column y_m is missing", "Needed: pile, x_m, y_m."},
        {"pile,x,y_m\nA1,0,0\n", "survey.csv:1:6: \"x\" is not the head of a column", "Did you mean x_m?"},
        {head + first + "A2,1,7,0\n", "survey.csv:3:1: row 3 has 4 values instead of 3", "A decimal comma"},
        {head + first + "A2,1.7 m,0\n", "survey.csv:3:4: row 3, column x_m: \"1.7 m\" is not a number",
         "Meters in the coordinates of the layout"},
        {head + first + "A2,1.7,\n", "row 3, column y_m: the cell is empty", "Meters"},
        {head + first + "A2,1.7,5412345.6\n",
         "survey.csv:3:8: row 3, column y_m: 5412345.6 is outside -10000 .. 10000", "not of a national grid"},
        {head + first + ",1.7,0\n", "survey.csv:3:1: row 3, column pile: the cell is empty",
         "Name the pile."},
        {head + first + "\"A2\",1.7,0\n", "row 3, column pile: \"A2\" has quotation marks", "without"},
        {head + first + "A2,1.7,0\nA1,3.4,0\n", "survey.csv:4:1: row 4, column pile: A1 stands in row 2 too",
         "Leave one of them out"},
        {head + first + "A\xB2,1.7,0\n", "survey.csv:3:2: this byte is not UTF-8 text", "UTF-8"},
    }));
    INFO(text);
    CHECK_THAT(told(text), Contains(said) && Contains(mend));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("all faults of a survey are told at once", "[survey]") {
    CHECK(fault_count(head + first + "A1,1.7,0\nA1,3.4,0\nA2,x,y\nA3,1\n") == 5);
}

TEST_CASE("a survey is read from a file, or its faults go to those of another", "[survey]") {
    const auto file = std::filesystem::temp_directory_path() / "interpile-survey.csv";
    std::ofstream(file) << head << first;
    io::FaultList faults("site.toml", "[site]\n");
    CHECK(io::read_pile_survey(file).size() == 1);
    CHECK(io::read_pile_survey(file, {"A1"}, faults).size() == 1);
    CHECK(faults.empty());
    std::ofstream(file) << head << first << first;
    io::read_pile_survey(file, {"A1"}, faults);
    CHECK_THROWS_WITH(faults.throw_if_any(), Contains("interpile-survey.csv:3:1: row 3, column pile: A1"));
    std::filesystem::remove(file);
    CHECK_THROWS_AS(io::read_pile_survey(file), io::FileTrouble);
}
