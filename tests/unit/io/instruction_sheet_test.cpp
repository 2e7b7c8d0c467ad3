// The instruction of a site: sand closes on the volume of the piles, rows follow the order of work, the page fits A4.

#include "io/fixed_digits.h"
#include "io/instruction_sheet.h"
#include "io/neighbors_report.h"
#include "tests/support/case_text.h"
#include "tests/support/works_text.h"
#include "tests/support/written_table.h"

#include <catch2/catch.hpp>

#include <iterator>
#include <numbers>
#include <regex>

using namespace interpile;
using namespace interpile::testing;
using Catch::Matchers::Contains;

namespace {

/// The sound works with some text changed.
io::WorksFile works(const std::string& from = "", const std::string& to = "") {
    return io::parse_works(from.empty() ? sound_works : changed(sound_works, from, to), "works.toml");
}

std::size_t times(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++count;
    return count;
}

} // namespace

// The volume of cylinders: number x pi d^2/4 x length, however the last stroke is shortened.
TEST_CASE("sand of all strokes closes on the volume of the piles", "[instruction]") {
    const std::string net_rise = GENERATE("0.3", "0.29", "0.07", "0.37");
    INFO(net_rise);
    const auto site = works("net_rise_m = 0.3", "net_rise_m = " + net_rise);
    const double volume_m3 = 6 * std::numbers::pi / 4 * 0.7 * 0.7 * 9;
    const auto totals = io::sand_totals(site);
    CHECK(totals.in_place_m3 == Approx(volume_m3).epsilon(1e-9));
    CHECK(totals.loose_m3 == Approx(1.2 * volume_m3).epsilon(1e-9));
    CHECK(totals.design_m3 == Approx(volume_m3).epsilon(1e-12));
    double loose_m3 = 0, in_place_m3 = 0; // of the written numbers
    const auto rows = rows_of(io::instruction_table(site));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        loose_m3 += std::stod(rows[i].at("sand_loose_m3"));
        if (i + 1 == rows.size() || rows[i + 1].at("step") == "1")
            in_place_m3 += std::stod(rows[i].at("total_in_place_m3"));
    }
    CHECK(loose_m3 == Approx(1.2 * volume_m3).epsilon(1e-9));
    CHECK(in_place_m3 == Approx(volume_m3).epsilon(1e-9));
}

TEST_CASE("rows follow the order of work", "[instruction]") {
    const auto rows = rows_of(io::instruction_table(works()));
    REQUIRE(rows.size() == 6 * 30);
    const std::vector<std::string> order = {"P1", "P2", "P3", "P6", "P5", "P4"}; // alternating rows of three
    for (std::size_t i = 0; i < rows.size(); ++i) {
        CHECK(rows[i].at("pile") == order[i / 30]);
        CHECK(rows[i].at("place_in_order") == std::to_string(i / 30 + 1));
        CHECK(rows[i].at("step") == std::to_string(i % 30 + 1));
        CHECK(rows[i].at("rest_before_pile_h") == (i < 30 ? "0" : "0.5"));
    }
    CHECK(rows[90].at("x_m") == "4.0000");
    CHECK(rows[90].at("y_m") == "2.0000");
}

// w = 1.2 (0.7/0.4)^2 0.3 = 1.1025 m, r = w - 0.3; loose sand pi 0.4^2/4 w.
TEST_CASE("a stroke is printed to a tenth of a millimeter, equal strokes equally", "[instruction]") {
    const auto site = works();
    const auto rows = rows_of(io::instruction_table(site));
    for (const auto& row : rows) {
        CHECK(row.at("withdrawal_m") == "1.1025");
        CHECK(row.at("redrive_m") == "0.8025");
        CHECK(row.at("net_rise_m") == "0.3000");
        CHECK(row.at("target_diameter_m") == "0.7000");
        CHECK(std::stod(row.at("sand_loose_m3")) == Approx(std::numbers::pi * 0.04 * 1.1025).epsilon(1e-11));
    }
    CHECK(rows[0].at("tip_before_m") == "10.0000");
    CHECK(rows[29].at("tip_after_m") == "1.0000");
    CHECK(rows[0].at("passes") == "1");
    CHECK(rows[29].at("passes") == "4");
    const std::string page = io::instruction_page(site);
    CHECK(times(page, "<td>1.103</td><td>0.803</td><td>0.300</td>") == 30);
}

TEST_CASE("fixed digits round halves up in size and know no negative zero", "[instruction]") {
    CHECK(io::fixed(1.1025 - 4e-16, 3) == "1.103");
    CHECK(io::fixed(-1.1025 + 4e-16, 3) == "-1.103");
    CHECK(io::fixed(-1e-9, 2) == "0.00");
    CHECK(io::fixed(0.00049, 3) == "0.000");
    CHECK(io::fixed(12, 0) == "12");
}

TEST_CASE("the page fits A4 and every row has a cell for every head", "[instruction]") {
    const std::string page = io::instruction_page(works());
    CHECK_THAT(page, Contains("@page { size: A4; margin: 15mm 14mm; }"));
    CHECK_FALSE(std::regex_search(page, std::regex("(src|href)=|@import|url\\("))); // needs no other file
    const std::regex table("<table>[^]*?</table>"), width("width:([0-9]+)mm"), head("<th[ >]"),
        row("<tr>[^]*?</tr>"), cell("<td[ >]");
    const auto count = [](const std::string& text, const std::regex& part) {
        return std::distance(std::sregex_iterator(text.begin(), text.end(), part), std::sregex_iterator());
    };
    int tables = 0;
    for (auto t = std::sregex_iterator(page.begin(), page.end(), table); t != std::sregex_iterator();
         ++t, ++tables) {
        const std::string text = t->str();
        int wide_mm = 0;
        for (auto w = std::sregex_iterator(text.begin(), text.end(), width); w != std::sregex_iterator(); ++w)
            wide_mm += std::stoi((*w)[1]);
        CHECK(wide_mm == 180); // of 210 - 2 x 14
        const auto heads = count(text, head);
        CHECK(heads == count(text, std::regex("<col ")));
        auto r = std::sregex_iterator(text.begin(), text.end(), row);
        for (++r; r != std::sregex_iterator(); ++r)
            CHECK(count(r->str(), cell) == heads);
    }
    CHECK(tables == 3);
    CHECK(times(page, "class=\"box\"") == 6 + 30); // a pile, a stroke
}

TEST_CASE("the page says what it is worth and which defaults hold", "[instruction]") {
    const std::string page = io::instruction_page(works());
    for (const char* part :
         {"Local codes", "licensed practice", "Default: pile.bulking = 1.2 (common practice, no source",
          "Sand, loose [m3]", "Rest before [h]"})
        CHECK_THAT(page, Contains(part));
    CHECK_THAT(io::instruction_page(works("net_rise_m = 0.3", "net_rise_m = 0.3\nbulking = 1.1")),
               !Contains("pile.bulking"));
    CHECK_THAT(io::instruction_summary(works()),
               Contains("P1, P2, P3, P6, P5, P4; rest of 0.5 h") && Contains("difference 0.000 m3"));
}

TEST_CASE("titles and names cannot break the page", "[instruction]") {
    const auto site = works("title = \"six piles\"", "title = 'a<script>\"&'");
    const std::string page = io::instruction_page(site);
    CHECK_THAT(page, Contains("<h1>a&lt;script&gt;&quot;&amp;</h1>") && !Contains("<script"));
}

TEST_CASE("the report of neighbors names limits, hours and that it is a screening", "[neighbors]") {
    const std::string report = io::neighbors_report(works());
    INFO(report);
    for (const char* part :
         {"Screening only", "limit 75 dB", "limit 85 dB(A)", "Working hours 8:00 to 17:30", "non-vibratory",
          "only beyond about 50 m", "common practice, no source", "site border"})
        CHECK_THAT(report, Contains(part));
    const std::string hours = "work_start_h = 8\nwork_end_h = 17.5\n";
    CHECK_THAT(io::neighbors_report(works(hours, "")), Contains("Working hours: none given"));
    // Levels at 20 m as in the tests of screen_neighbors: 50 - 9.03 - 8.68 alpha 15; 72 .. 92 - 6.84 - 8.68 alpha 13.
    CHECK(std::regex_search(report,
                            std::regex("site border +20\\.00 +non-vibratory +35\\.8 \\.\\. 39\\.7 +within")));
    CHECK(std::regex_search(
        report, std::regex("site border +20\\.00 +vibratory +60\\.6 \\.\\. 84\\.0 +may be above")));
}
