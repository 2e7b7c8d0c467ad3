// Charts with invented curves.

#include "io/chart_table.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <string>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

const std::string head = "blow_count_before,replacement_ratio,blow_count_after\n";
const std::string two_curves = "0,0.1,6\n20,0.1,22\n0,0.2,12\n20,0.2,32\n";

std::string told(const std::string& text) {
    return testing::told(io::parse_chart_table, text, "chart.csv");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(io::parse_chart_table, text, "chart.csv");
}

} // namespace

TEST_CASE("a chart is read from its points", "[chart]") {
    const auto chart = io::parse_chart_table(head + two_curves, "chart.csv");
    CHECK(*chart.blow_count_after(0, 0.1) == 6);
    CHECK(*chart.blow_count_after(20, 0.2) == 32);
    CHECK(*chart.blow_count_after(10, 0.15) == Approx(18)); // middle of the four points
    CHECK(!chart.blow_count_after(21, 0.2));
}

TEST_CASE("points of a chart may stand in any order", "[chart]") {
    const auto chart =
        io::parse_chart_table("blow_count_after,replacement_ratio,blow_count_before\n32,0.2,20\n"
                              "6,0.1,0\n22,0.1,20\n12,0.2,0\n",
                              "chart.csv");
    CHECK(*chart.blow_count_after(10, 0.15) == Approx(18));
}

TEST_CASE("a fault of a chart says where, what and how to mend it", "[chart]") {
    const auto [text, said, mend] = GENERATE_COPY(table<std::string, std::string, std::string>({
        {head, "chart.csv:1:1: the table has no rows", "below the head"},
        {"blow_count_before,blow_count_after\n0,6\n", "column replacement_ratio is missing", "Needed:"},
        {"blow_count_before;replacement_ratio;blow_count_after\n", "not separated by commas",
         "decimal points"},
        {head + two_curves + "5,15,20\n",
         "chart.csv:6:3: row 6, column replacement_ratio: 15 is outside 0 .. 1", "0.15, not 15 %"},
        {head + two_curves + "5,15%,20\n", "column replacement_ratio: \"15%\" is not a number", "0.15"},
        {head + two_curves + "5,0,15,20\n", "chart.csv:6:1: row 6 has 4 values instead of 3",
         "A decimal comma"},
        {head + two_curves + "-1,0.1,20\n", "column blow_count_before: -1 is outside 0 .. 100", "per 0.3 m"},
        {head + two_curves + "5,0.1,101\n", "column blow_count_after: 101 is outside 0 .. 100", "per 0.3 m"},
        {head + two_curves + "5,0.1,\n", "row 6, column blow_count_after: the cell is empty", "per 0.3 m"},
        {head + two_curves + "5,0.1,\xE4\n", "chart.csv:6:7: this byte is not UTF-8 text", "UTF-8"},
        {head + two_curves + "20,0.2,33\n", "chart.csv:1:1: chart: N0 = 20, a_s = 0.2 is given twice",
         "of different N0"},
        {head + two_curves + "5,0.3,40\n", "chart: the curve a_s = 0.3 has one point, 2 are needed",
         "two points or more"},
        {head + "0,0.1,6\n20,0.1,33\n0,0.2,12\n20,0.2,32\n",
         "chart: at N0 = 20 the curve a_s = 0.2 is not above a_s = 0.1", "lies above every curve"},
    }));
    INFO(text);
    CHECK_THAT(told(text), Contains(said) && Contains(mend));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("all faulty cells of a chart are told at once", "[chart]") {
    CHECK(fault_count(head + "a,0.1,6\n20,2,22\n0,0.2\n20,0.2,132\n") == 4);
}

TEST_CASE("a chart is read from a file, or its faults go to those of another", "[chart]") {
    const auto file = std::filesystem::temp_directory_path() / "interpile-chart.csv";
    std::ofstream(file) << head << two_curves;
    io::FaultList faults("site.toml", "[site]\n");
    CHECK(io::read_chart_table(file).blow_count_after(0, 0.1) == 6.0);
    CHECK(io::read_chart_table(file, faults));
    CHECK(faults.empty());
    std::ofstream(file) << head << two_curves << "5,0.3,40\n";
    CHECK(!io::read_chart_table(file, faults));
    CHECK_THROWS_WITH(faults.throw_if_any(), Contains("interpile-chart.csv:1:1: chart: the curve a_s = 0.3"));
    std::filesystem::remove(file);
    CHECK_THROWS_AS(io::read_chart_table(file), io::FileTrouble);
}
