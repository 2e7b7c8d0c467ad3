// The model of a report: numbers, units, what it refuses.

#include "tests/unit/postprocess/report/sample_document.h"

#include <catch2/catch.hpp>

using namespace interpile::tests;

TEST_CASE("chapters, headings, tables and figures are counted by themselves", "[report]") {
    report::Numbering numbers;
    CHECK(numbers.chapter() == "1");
    CHECK(numbers.heading() == "1.1");
    CHECK(numbers.heading() == "1.2");
    CHECK(numbers.table() == "1");
    CHECK(numbers.chapter() == "2");
    CHECK(numbers.heading() == "2.1");
    CHECK(numbers.table() == "2");
    CHECK(numbers.figure() == "1");
}

TEST_CASE("units stand in brackets, powers raised", "[report]") {
    CHECK(report::unit_in_brackets({"load", "kPa"}) == "[kPa]");
    CHECK(report::unit_in_brackets({"sand", "m3/m"}) == "[m\u00b3/m]");
    CHECK(report::unit_in_brackets({"place", ""}).empty());
}

TEST_CASE("a document that cannot be set is refused", "[report]") {
    CHECK_NOTHROW(report::require_sound(sample_document(3)));
    auto untitled = sample_document(3);
    untitled.title.clear();
    CHECK_THROWS_WITH(report::require_sound(untitled), Catch::Contains("needs a title"));
    auto ragged = sample_document(3);
    std::get<report::Table>(ragged.chapters[0].blocks[2]).rows[1].pop_back();
    CHECK_THROWS_WITH(report::require_sound(ragged), Catch::Contains("a row of 2 cells for 3 columns"));
    auto headless = sample_document(0);
    std::get<report::Table>(headless.chapters[0].blocks[2]).columns.clear();
    CHECK_THROWS_WITH(report::require_sound(headless), Catch::Contains("has no columns"));
    auto flat = sample_document(3);
    std::get<report::Figure>(flat.chapters[1].blocks[1]).drawing.size_pt.y() = 0;
    CHECK_THROWS_WITH(report::require_sound(flat), Catch::Contains("has no size"));
}
