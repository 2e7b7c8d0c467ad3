// Tables of an invented nursery of trees.

#include "io/csv_table.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

#include <stdexcept>
#include <string>
#include <vector>

using namespace interpile;
using Catch::Matchers::Contains;

namespace {

std::vector<io::ColumnRule> columns() {
    return {{.name = "tree", .text = true, .advice = "Name the tree."},
            {.name = "height_m", .low = 0.1, .high = 120, .advice = "Meters above the ground."},
            {.name = "age_years", .high = 5000, .may_lack = true, .advice = "Leave it empty if not known."},
            {.name = "leaf",
             .text = true,
             .may_lack = true,
             .advice = "Allowed: broad, needle.",
             .words = {"broad", "needle"}}};
}

std::size_t parse(const std::string& text, const char* file) {
    const io::CsvTable table(text, file, columns());
    table.throw_if_any();
    return table.rows().size();
}

std::string told(const std::string& text) {
    return testing::told(parse, text, "trees.csv");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(parse, text, "trees.csv");
}

const std::string head = "tree,height_m,age_years,leaf\n";

} // namespace

TEST_CASE("cells of a table are found by the head of their column", "[table]") {
    const io::CsvTable table("leaf,height_m , tree\nbroad,2.50,oak 1\n,30, fir\n", "trees.csv", columns());
    CHECK(table.sound());
    REQUIRE(table.rows().size() == 2);
    const auto& oak = table.rows()[0];
    CHECK(oak.line() == 2);
    CHECK(oak.text("tree") == "oak 1");
    CHECK(oak.number("height_m") == 2.5);
    CHECK(oak.text("height_m") == "2.50");
    CHECK(oak.text("leaf") == "broad");
    CHECK(!oak.number("age_years"));
    CHECK(oak.text("age_years").empty());
    CHECK(table.rows()[1].text("leaf").empty());
    CHECK_THROWS_AS(oak.number("girth_m"), std::out_of_range);
}

TEST_CASE("what spreadsheets add to a table does no harm", "[table]") {
    const io::CsvTable table("\xEF\xBB\xBFtree,height_m\r\noak,2\r\n\r\n,\r\nb\xC3\xBC"
                             "che,3\r\n , \r\n",
                             "trees.csv", columns());
    REQUIRE(table.rows().size() == 2);
    CHECK(table.rows()[0].number("height_m") == 2);
    CHECK(table.rows()[1].text("tree") == "b\xC3\xBC"
                                          "che");
    CHECK(table.rows()[1].line() == 5);
}

TEST_CASE("bounds of a column are allowed values", "[table]") {
    CHECK(told(head + "a,0.1,0,\nb,120,5000,\n") == "nothing");
}

TEST_CASE("a fault of a table says where, what and how to mend it", "[table]") {
    const auto [text, said, mend] = GENERATE_COPY(table<std::string, std::string, std::string>({
        {"", "trees.csv:1:1: the file is empty", "Write the head there: tree,height_m,age_years,leaf."},
        {"\xEF\xBB\xBF", "trees.csv:1:1: the file is empty", "Write the head there"},
        {" \noak,3\n", "trees.csv:1:1: the first line is empty", "Write the head there"},
        {head, "trees.csv:1:1: the table has no rows", "below the head"},
        {head + ",,,\n", "trees.csv:1:1: the table has no rows", "below the head"},
        {"tree;height_m\n", "trees.csv:1:1: the cells are not separated by commas", "Export with commas"},
        {"tree\theight_m\n", "trees.csv:1:1: the cells are not separated by commas", "Export with commas"},
        {"tree,hieght_m\noak,x\n", "trees.csv:1:6: \"hieght_m\" is not the head of a column",
         "Did you mean height_m?"},
        {"tree,height\noak,x\n", "trees.csv:1:6: \"height\" is not the head of a column",
         "Did you mean height_m?"},
        {"tree,height_m,age\noak,x,2\n", "trees.csv:1:15: \"age\" is not the head of a column",
         "Did you mean age_years?"},
        {"tree,height_m,weather\n", "trees.csv:1:15: \"weather\" is not the head", "Known: tree, height_m"},
        {"tree,height_m,\noak,3,\n", "trees.csv:1:15: this column has no head", "remove the comma"},
        {"tree,leaf\n", "trees.csv:1:1: column height_m is missing", "Needed: tree, height_m."},
        {"tree,height_m,tree\n", "trees.csv:1:15: column tree stands here twice", "Leave one of them out."},
        {head + "oak,2,5,3,broad\n", "trees.csv:2:1: row 2 has 5 values instead of 4", "A decimal comma"},
        {head + "oak,2\n", "trees.csv:2:1: row 2 has 2 values instead of 4", "Give every column"},
        {head + "oak,tall,3,\n", "trees.csv:2:5: row 2, column height_m: \"tall\" is not a number",
         "Meters above"},
        {head + "oak,2;5,3,\n", "row 2, column height_m: \"2;5\" is not a number", "Meters above"},
        {head + "oak,2 m,3,\n", "row 2, column height_m: \"2 m\" is not a number", "Meters above"},
        {head + "oak,nan,3,\n", "row 2, column height_m: \"nan\" is not a number", "Meters above"},
        {head + "oak,inf,3,\n", "row 2, column height_m: \"inf\" is not a number", "Meters above"},
        {head + "oak,1e999,3,\n", "row 2, column height_m: \"1e999\" is not a number", "Meters above"},
        {head + "oak,0.099,3,\n", "row 2, column height_m: 0.099 is outside 0.1 .. 120", "Meters above"},
        {head + "oak,121,3,\n", "row 2, column height_m: 121 is outside 0.1 .. 120", "Meters above"},
        {head + "oak,,3,\n", "trees.csv:2:5: row 2, column height_m: the cell is empty", "Meters above"},
        {head + ",2,3,\n", "trees.csv:2:1: row 2, column tree: the cell is empty", "Name the tree."},
        {head + "\"oak\",2,3,\n", "row 2, column tree: \"oak\" has quotation marks", "without quotation"},
        {head + "o\x01k,2,3,\n", "row 2, column tree: \"o?k\" has control characters", "Name the tree."},
        {head + "oak,2,3,Broad\n", "trees.csv:2:9: row 2, column leaf: \"Broad\" is not one of broad, needle",
         "Did you mean broad?"},
        {head + "oak,2,3,round\n", "row 2, column leaf: \"round\" is not one of", "Allowed: broad, needle."},
        {head + "ok,2,3,\nch\xEAne,2,3,\n", "trees.csv:3:3: this byte is not UTF-8 text", "encoding UTF-8"},
        {std::string("\xFF\xFEt\0r\0", 6), "trees.csv:1:1: this byte is not UTF-8 text", "encoding UTF-8"},
        {head + std::string("o\0k,2,3,\n", 9), "trees.csv:2:2: this byte is not UTF-8 text", "UTF-8"},
    }));
    INFO(text);
    CHECK_THAT(told(text), Contains(said) && Contains(mend));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("a fault quotes its line with a marker under the cell", "[table]") {
    CHECK_THAT(told(head + "oak,tall,3,\n"), Contains("    2 | oak,tall,3,\n      |     ^^^^\n"));
}

TEST_CASE("all faults of a table are told at once, by line", "[table]") {
    const std::string text = told(head + "oak,x,-1,\nfir,2\n,3,3,wide\n");
    const auto at = [&](const char* place) { return text.find(place); };
    CHECK(at("trees.csv:2:5") < at("trees.csv:2:7"));
    CHECK(at("trees.csv:2:7") < at("trees.csv:3:1"));
    CHECK(at("trees.csv:3:1") < at("trees.csv:4:1"));
    CHECK(at("trees.csv:4:1") < at("trees.csv:4:6"));
    CHECK_THAT(text, Contains("5 faults"));
    CHECK(fault_count("tree,weather,weather\n") == 3);

    const std::string missing = told("leaf\n"); // at one place in the order of the columns
    CHECK(missing.find("column tree is missing") < missing.find("column height_m is missing"));
}

TEST_CASE("the first 50 faults by line are listed, and how many follow", "[table]") {
    const auto with_faults = [](int count) {
        std::string text = head;
        for (int i = 0; i < count; ++i)
            text += "oak,2,5,3,\n";
        return text;
    };
    CHECK(fault_count(with_faults(50)) == 50);
    CHECK(fault_count(with_faults(51)) == 51);
    CHECK_THAT(told(with_faults(51)), Contains("trees.csv:52:1: 1 more fault is not listed"));
    CHECK_THAT(told(with_faults(70)), Contains("trees.csv:52:1: 20 more faults are not listed"));

    std::string text = head;
    for (int i = 0; i < 60; ++i)
        text += "oak,2,5,\n";
    io::CsvTable table(text, "trees.csv", columns());
    for (auto row = table.rows().rbegin(); row != table.rows().rend(); ++row) // found from below
        table.blame(*row, "tree", "oak again", "");
    CHECK_THROWS_WITH(table.throw_if_any(), Contains("trees.csv:2:1: row 2, column tree: oak again") &&
                                                Contains("trees.csv:51:1: row 51") &&
                                                Contains("trees.csv:52:1: 10 more faults are not listed"));
}

TEST_CASE("rows with a faulty cell are left out, further checks add their faults", "[table]") {
    io::CsvTable table(head + "oak,2,,\nfir,x,,\nelm,3,,\n", "trees.csv", columns());
    CHECK(!table.sound());
    REQUIRE(table.rows().size() == 2);
    CHECK(table.rows()[1].line() == 4);
    table.blame(table.rows()[1], "height_m", "3 is too much", "Cut it.");
    table.blame(table.rows()[1], "age_years", "is not known", "Count rings.");
    table.blame_row(table.rows()[0], "row 2 is not wanted", "");
    table.blame_table("too few trees", "Plant more.");
    CHECK_THROWS_WITH(table.throw_if_any(),
                      Contains("trees.csv:4:5: row 4, column height_m: 3 is too much") &&
                          Contains("trees.csv:2:1: row 2 is not wanted") &&
                          Contains("trees.csv:1:1: too few trees") && Contains("5 faults"));
}

TEST_CASE("faults of tables are told together with those of the file that names them", "[table]") {
    io::FaultList faults("site.toml", "[ground]\ndepth = 1\nwater = 2\n");
    for (const char* file : {"b.csv", "a.csv"})
        io::CsvTable("tree,height_m\noak,x\nfir,y\n", file, columns()).pass_faults_to(faults);
    faults.add({2, 1, 5}, "depth is wrong");
    std::string text;
    try {
        faults.throw_if_any();
    } catch (const io::CaseFaults& thrown) {
        text = thrown.what();
    }
    CHECK_THAT(text, Contains("a.csv:2:5: row 2, column height_m: \"x\" is not a number\n    2 | oak,x\n"));
    const auto at = [&](const char* place) { return text.find(place); };
    CHECK(at("site.toml:2:1") < at("a.csv:2:5"));
    CHECK(at("a.csv:3:5") < at("b.csv:2:5")); // each table by itself
    CHECK_THAT(text, Contains("5 faults"));
}
