// Borings of an invented site.

#include "io/boring_table.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

const std::string head =
    "depth_m,blow_count,fines_pct,unit_weight_kN_m3,d50_mm,d20_mm,d10_mm,e_max,e_min,kind\n";
const std::string first = "1.3,8,5,18,0.25,0.15,0.1,0.9,0.6,\n";

std::string told(const std::string& text) {
    return testing::told(io::parse_boring_table, text, "B-1.csv");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(io::parse_boring_table, text, "B-1.csv");
}

} // namespace

TEST_CASE("a boring is read with every column", "[boring]") {
    const auto samples = io::parse_boring_table(
        "soil,kind,depth_m,blow_count,fines_pct,unit_weight_kN_m3,d50_mm,d20_mm,d10_mm,e_max,e_min,void_"
        "ratio,"
        "overconsolidation_ratio,friction_angle_deg,permeability_m_s,lateral_stress_ratio\n"
        "fine sand,sand,1.3,8,5,18.5,0.25,0.15,0.1,0.95,0.6,0.8,1.2,33,1e-4,0.5\n"
        "silty sand,,2.3,6.5,20,18,,,,,,,,,,\n",
        "B-1.csv");
    REQUIRE(samples.size() == 2);
    const auto& sand = samples[0];
    CHECK(sand.depth_m == 1.3);
    CHECK(sand.blow_count == 8);
    CHECK(sand.fines_pct == 5);
    CHECK(sand.unit_weight_kN_m3 == 18.5);
    CHECK(sand.d50_mm == 0.25);
    CHECK(sand.soil == "fine sand");
    CHECK(sand.sand);
    CHECK(sand.e_max == 0.95);
    CHECK(sand.e_min == 0.6);
    CHECK(sand.void_ratio == 0.8);
    CHECK(sand.d10_mm == 0.1);
    CHECK(sand.d20_mm == 0.15);
    CHECK(sand.overconsolidation_ratio == 1.2);
    CHECK(sand.friction_angle_deg == 33.0);
    CHECK(sand.permeability_m_s == 1e-4);
    CHECK(sand.lateral_stress_ratio == 0.5);
    CHECK(samples[1].blow_count == 6.5);
    CHECK(std::isnan(samples[1].d50_mm));
    CHECK(!samples[1].e_max);
    CHECK(!samples[1].lateral_stress_ratio);
}

TEST_CASE("four columns make a boring", "[boring]") {
    const auto samples =
        io::parse_boring_table("blow_count,depth_m,unit_weight_kN_m3,fines_pct\n8,1.3,18,5\n", "B-1.csv");
    REQUIRE(samples.size() == 1);
    CHECK(samples[0].depth_m == 1.3);
    CHECK(samples[0].soil.empty());
    CHECK(std::isnan(samples[0].d50_mm));
    CHECK(!samples[0].d10_mm);
}

TEST_CASE("clay, silt and more than half fines are not sand", "[boring]") {
    const auto samples = io::parse_boring_table(
        "depth_m,blow_count,fines_pct,unit_weight_kN_m3,kind\n"
        "1,8,50,18,\n2,8,50.1,18,\n3,8,40,18,clay\n4,8,5,18,silt\n5,8,5,18,sand\n6,8,80,18,sand\n",
        "B-1.csv");
    REQUIRE(samples.size() == 6);
    CHECK(samples[0].sand);
    CHECK(!samples[1].sand);
    CHECK(!samples[2].sand);
    CHECK(!samples[3].sand);
    CHECK(samples[4].sand);
    CHECK(!samples[5].sand);
}

TEST_CASE("bounds of a boring are allowed values", "[boring]") {
    CHECK(told(head + "0.05,0,0,9.81,0.25,0.25,0.25,3,0.2,\n5.05,100,100,26,100,1e-4,1e-4,,,clay\n") ==
          "nothing");
    CHECK(told(head + "3.3,8,5,18,,,,,,\n8.3,8,5,18,,,,,,\n") == "nothing"); // a step of 5 m
}

TEST_CASE("a void ratio outside e_min .. e_max is left to the design", "[boring]") {
    CHECK(told("depth_m,blow_count,fines_pct,unit_weight_kN_m3,e_max,e_min,void_ratio\n1,8,5,18,0.9,0.6,1."
               "1\n") == "nothing");
}

TEST_CASE("a fault of a boring says where, what and how to mend it", "[boring]") {
    const auto [text, said, mend] = GENERATE_COPY(table<std::string, std::string, std::string>({
        {"depth_m,blow_count,unit_weight_kN_m3\n1,8,18\n", "B-1.csv:1:1: column fines_pct is missing",
         "Needed: depth_m, blow_count, fines_pct, unit_weight_kN_m3."},
        {"depth_m,N,fines_pct,unit_weight_kN_m3,blow_count\n", "B-1.csv:1:9: \"N\" is not the head",
         "Known:"},
        {head + first + "2,3,8,5,18,0.25,0.15,0.1,0.9,0.6,\n",
         "B-1.csv:3:1: row 3 has 11 values instead of 10", "A decimal comma"},
        {head + first + "surface,8,5,18,,,,,,\n", "row 3, column depth_m: \"surface\" is not a number",
         "Meters below"},
        {head + "0,8,5,18,,,,,,\n", "B-1.csv:2:1: row 2, column depth_m: 0 is outside 0.05 .. 100",
         "Meters below"},
        {head + first + "-2.3,8,5,18,,,,,,\n", "row 3, column depth_m: -2.3 is outside", "Meters below"},
        {head + first + "2.3,>50,5,18,,,,,,\n", "B-1.csv:3:5: row 3, column blow_count: \">50\" is not",
         "blows per 0.3 m"},
        {head + first + "2.3,101,5,18,,,,,,\n", "column blow_count: 101 is outside 0 .. 100",
         "blows per 0.3 m"},
        {head + first + "2.3,,5,18,,,,,,\n", "row 3, column blow_count: the cell is empty", "N as measured"},
        {head + first + "2.3,8,101,18,,,,,,\n", "column fines_pct: 101 is outside 0 .. 100", "in percent"},
        {head + first + "2.3,8,5,8.2,,,,,,\n", "row 3, column unit_weight_kN_m3: 8.2 is outside 9.81 .. 26",
         "total unit weight of the ground as it lies, not the submerged one"},
        {head + first + "2.3,8,5,1850,,,,,,\n", "unit_weight_kN_m3: 1850 is outside 9.81 .. 26", "total"},
        {head + first + "2.3,8,5,18,0,,,,,\n", "column d50_mm: 0 is outside 0.0001 .. 100", "Leave"},
        {head + first + "2.3,8,5,18,,,,,,gravel\n", "column kind: \"gravel\" is not one of sand, clay, silt",
         "where fines_pct tells"},
        {head + first + "2.3,8,5,18,,,,,,snad\n", "column kind: \"snad\" is not one of",
         "Did you mean sand?"},
        {head + first + "2.3,8,5,18,,,,60,,\n", "column e_max: 60 is outside 0.2 .. 3", "Leave"},
        {head + first + "2.3,8,5,18,,,,0.6,0.9,\n",
         "B-1.csv:3:19: row 3, column e_min: 0.9 is not below "
         "e_max = 0.6",
         "perhaps they are exchanged"},
        {head + first + "2.3,8,5,18,,,,0.6,0.6,\n", "e_min: 0.6 is not below e_max = 0.6", "exchanged"},
        {head + first + "2.3,8,5,18,,0.1,0.15,,,\n",
         "B-1.csv:3:17: row 3, column d10_mm: 0.15 is above "
         "d20_mm = 0.1",
         "exchanged"},
        {head + first + "2.3,8,5,18,0.1,0.2,,,,\n", "row 3, column d20_mm: 0.2 is above d50_mm = 0.1",
         "exchanged"},
        {head + first + "2.3,8,5,18,0.1,0.2,0.05,,,\n", "row 3, column d20_mm: 0.2 is above d50_mm = 0.1",
         "exchanged"},
        {head + first + "2.3,8,5,18,0.1,,0.2,,,\n", "row 3, column d10_mm: 0.2 is above d50_mm = 0.1",
         "exchanged"},
        {head + first + "1.3,8,5,18,,,,,,\n",
         "B-1.csv:3:1: row 3, column depth_m: 1.3 is not below 1.3 in row 2", "of two at the same depth"},
        {head + first + "9,8,5,18,,,,,,\n3,8,5,18,,,,,,\n",
         "B-1.csv:4:1: row 4, column depth_m: 3 is not below 9 in row 3", "Sort the rows by depth"},
        {head + first + "\n6.31,8,5,18,,,,,,\n",
         "B-1.csv:4:1: row 4, column depth_m: 6.31 m is more than 5 m below 1.3 m in row 2",
         "A layer in between would be missed"},
        {head + "1.3,8,60,18,,,,,,\n2.3,8,5,18,,,,,,clay\n", "B-1.csv:1:1: no row is sand",
         "fines_pct up to 50"},
        {head + first + "2.3,8,5,18,,,,,,d\xFCne\n", "B-1.csv:3:18: this byte is not UTF-8 text", "UTF-8"},
        {head, "B-1.csv:1:1: the table has no rows", "below the head"},
    }));
    INFO(text);
    CHECK_THAT(told(text), Contains(said) && Contains(mend));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("numbers of the laboratory have bounds", "[boring]") {
    const auto [column, low, high] =
        GENERATE(table<std::string, std::string, std::string>({{"void_ratio", "0.19", "3.1"},
                                                               {"e_min", "0.19", "3.1"},
                                                               {"overconsolidation_ratio", "0.9", "51"},
                                                               {"friction_angle_deg", "19", "56"},
                                                               {"permeability_m_s", "1e-11", "2"},
                                                               {"lateral_stress_ratio", "0.1", "3.1"},
                                                               {"d10_mm", "1e-5", "101"},
                                                               {"d20_mm", "1e-5", "101"}}));
    for (const auto& value : {low, high})
        CHECK_THAT(
            told("depth_m,blow_count,fines_pct,unit_weight_kN_m3," + column + "\n1,8,5,18," + value + "\n"),
            Contains("row 2, column " + column + ": " + value + " is outside"));
}

TEST_CASE("a faulty row neither hides other faults nor makes new ones", "[boring]") {
    // Without the row at 6 m there would be a gap and no sand.
    CHECK(fault_count(head + "1,8,60,18,,,,,,\n6,x,5,18,,,,,,\n11,8,60,18,,,,,,\n") == 1);
    CHECK(fault_count(head + "1,x,5,18,,,,,,\n2,8,5,18,0.1,0.2,0.3,0.6,0.9,\n1.5,8,5,18,,,,,,\n") == 5);
}

TEST_CASE("a boring is read from a file, or its faults go to those of another", "[boring]") {
    const auto file = std::filesystem::temp_directory_path() / "interpile-boring.csv";
    std::ofstream(file) << head << first;
    io::FaultList faults("site.toml", "[site]\n");
    CHECK(io::read_boring_table(file).size() == 1);
    CHECK(io::read_boring_table(file, faults).size() == 1);
    CHECK(faults.empty());
    std::ofstream(file) << head << first << "1,8,5,18,,,,,,\n";
    io::read_boring_table(file, faults);
    CHECK_THROWS_WITH(faults.throw_if_any(), Contains("interpile-boring.csv:3:1: row 3, column depth_m"));
    std::filesystem::remove(file);
    CHECK_THROWS_AS(io::read_boring_table(file), io::FileTrouble);
}
