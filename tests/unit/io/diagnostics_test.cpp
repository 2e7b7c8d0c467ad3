// Messages to the user and the nearest word.

#include "io/diagnostics.h"
#include "io/text_lines.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace interpile;

TEST_CASE("a message quotes the line, marks the value and names the mend") {
    const std::string text = "[layout]\nspacing_m = 0.17     # center to center\n";
    const io::CaseFaults faults({{"demo/case.toml",
                                  2,
                                  13,
                                  4,
                                  "layout.spacing_m = 0.17 is outside 0.9 .. 4 m",
                                  "Did you mean 1.7?",
                                  {}}},
                                text);
    CHECK(std::string(faults.what()) ==
          "demo/case.toml:2:13: layout.spacing_m = 0.17 is outside 0.9 .. 4 m\n"
          "    2 | spacing_m = 0.17     # center to center\n"
          "      |             ^^^^\n"
          "   Did you mean 1.7?\n"
          "1 fault in the file; nothing was computed, earlier results are untouched.");
}

TEST_CASE("a fault of another file quotes its own line") {
    const io::CaseFaults faults({{"piles.csv", 1, 1, 3, "no head", {}, "x,y"}}, "[case]\n");
    CHECK_THAT(faults.what(), Catch::Contains("    1 | x,y\n") && !Catch::Contains("[case]"));
}

TEST_CASE("the marker counts characters, not bytes, and tabs do not move it") {
    const std::string text = "\tname = \"Pf\xC3\xA4hle\" x\n";
    const io::CaseFaults faults({{"c", 1, 19, 1, "odd", {}, {}}}, text);
    CHECK_THAT(faults.what(), Catch::Contains("    1 |  name = \"Pf\xC3\xA4hle\" x\n"
                                              "      |                   ^\n"));
}

TEST_CASE("a long line is cut around the marker and control characters cannot reach the terminal") {
    const std::string text = std::string(300, 'a') + "\x1b[31m!" + std::string(300, 'b');
    const io::CaseFaults faults({{"c", 1, 306, 1, "odd", {}, {}}}, text);
    const std::string message = faults.what();
    CHECK(message.find('\x1b') == std::string::npos);
    CHECK_THAT(message, Catch::Contains("?[31m!"));
    std::istringstream lines(message);
    for (std::string line; std::getline(lines, line);)
        CHECK(line.size() < 120);
}

TEST_CASE("the nearest word") {
    const std::vector<std::string> keys = {"diameter_m", "casing_diameter_m", "K0", "rest_min", "strokes"};
    CHECK(io::nearest_word("diametr_m", keys) == "diameter_m");
    CHECK(io::nearest_word("daimeter_m", keys) == "diameter_m"); // an exchange is one step
    CHECK(io::nearest_word("k0", keys) == "K0");
    CHECK(io::nearest_word("stroke", keys) == "strokes");
    CHECK(io::nearest_word("permeability", keys).empty());
    CHECK(io::nearest_word("", keys).empty());
    CHECK(io::nearest_word("x", {}).empty());
}

TEST_CASE("lines and characters") {
    CHECK(io::line_of("a\r\nb\nc", 1) == "a");
    CHECK(io::line_of("a\r\nb\nc", 3) == "c");
    CHECK(io::line_of("a\nb", 7).empty());
    CHECK(io::character_count("\xE2\x82\xAC\xFF") == 2);
    CHECK(io::characters("\xC3\xA4\xC3\xB6\xC3\xBC", 2, 1) == "\xC3\xB6");
    CHECK(io::printable("a\xFF\x7F\tb\xC2\x9B") == "a?? b?");
}
