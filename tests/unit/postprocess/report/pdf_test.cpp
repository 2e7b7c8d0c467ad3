// The report as PDF, read by poppler-utils.

#include "postprocess/report/page_flow.h"
#include "postprocess/report/pdf.h"
#include "tests/unit/postprocess/report/sample_document.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile;
using namespace interpile::tests;
using Catch::Matchers::Contains;

namespace {

const std::string day = "2026-11-25T00:00:00Z";

/// Text of every page.
std::vector<std::string> pages_of(const std::string& pdf) {
    std::vector<std::string> pages;
    const std::string text = told_of(pdf, ".pdf", "pdftotext -layout", "-");
    for (std::size_t at = 0, end; (end = text.find('\f', at)) != std::string::npos; at = end + 1)
        pages.push_back(text.substr(at, end - at));
    return pages;
}

int count_of(const std::string& text, const std::string& part) {
    int count = 0;
    for (std::size_t at = 0; (at = text.find(part, at)) != std::string::npos; at += part.size())
        ++count;
    return count;
}

std::vector<report::Piece> equal_pieces(int count, double height_pt) {
    report::Piece piece;
    piece.height_pt = height_pt;
    piece.draw = [](postprocess::Canvas&, double) {};
    return std::vector<report::Piece>(static_cast<std::size_t>(count), piece);
}

} // namespace

TEST_CASE("a figure becomes a little smaller rather than leave a page half empty", "[report]") {
    auto pieces = equal_pieces(3, 40); // a text, a figure, its caption
    pieces[1].with_next = true;
    const auto placed = [&](double figure_pt) {
        pieces[1].height_pt = figure_pt;
        return report::paginated(pieces, 0, 120);
    };
    const auto unchanged = placed(40);
    REQUIRE(unchanged.size() == 1);
    CHECK(unchanged[0][1].scale == 1);
    CHECK(placed(50).size() == 2); // not a figure
    pieces[1].may_shrink = true;
    const auto smaller = placed(50);
    REQUIRE(smaller.size() == 1);
    CHECK(smaller[0][1].scale == Approx(0.8));
    CHECK(smaller[0][2].top_pt == Approx(80));
    CHECK(smaller[0][2].scale == 1);
    const auto next = placed(56); // would have to shrink to 0.71
    REQUIRE(next.size() == 2);
    CHECK(next[1][0].scale == 1);
    CHECK(next[1][1].top_pt == Approx(56));
    pieces.push_back(pieces[0]); // what comes after is not touched
    CHECK(report::paginated(pieces, 0, 120).back().back().scale == 1);
}

TEST_CASE("pages have head, foot and number, and a long table its head on each", "[report]") {
    const auto pages = pages_of(report::pdf_pages(sample_document(150), day));
    REQUIRE(pages.size() > 4);
    int with_rows = 0;
    for (std::size_t page = 0; page < pages.size(); ++page) {
        INFO(pages[page]);
        CHECK_THAT(pages[page],
                   Contains("page " + std::to_string(page + 1) + " of " + std::to_string(pages.size())));
        CHECK_THAT(pages[page], Contains("Project <X>"));
        if (count_of(pages[page], "load ") == 0)
            continue;
        ++with_rows;
        for (const char* head : {"depth", "sigma", "volume", "[kPa]", "[m\u00b3]"})
            CHECK_THAT(pages[page], Contains(head));
        CHECK(count_of(pages[page], "Table 1, continued") == (with_rows == 1 ? 0 : 1));
    }
    CHECK(with_rows >= 3);
    std::string all;
    for (const auto& page : pages)
        all += page;
    CHECK(count_of(all, "load ") == 150); // none lost, none twice
    for (const char* part : {"Not for approval.", "Table 1. depths & loads", "Figure 2. a square",
                             "inside the square", "a note <small>", "Take care."})
        CHECK_THAT(all, Contains(part));
}

TEST_CASE("the contents name the page where a chapter stands", "[report]") {
    const auto pages = pages_of(report::pdf_pages(sample_document(150), day));
    const auto at = std::find_if(pages.begin(), pages.end(), [](const auto& page) {
        return page.find("Take care.") != std::string::npos;
    });
    REQUIRE(at != pages.end());
    const std::string& contents = pages[1];
    const auto line = contents.find("Second chapter");
    REQUIRE(line != std::string::npos);
    const std::string number = contents.substr(line + 14, contents.find('\n', line) - line - 14);
    CHECK(std::stoi(number) == at - pages.begin() + 1);
}

TEST_CASE("the PDF knows its title, date and size of paper", "[report]") {
    const std::string pdf = report::pdf_pages(sample_document(4), day);
    CHECK_THAT(told_of(pdf, ".pdf", "pdfinfo -isodates", ""),
               Contains("Piles \"A\" & B") && Contains("2026-11-25T00:00:00") && Contains("(A4)") &&
                   Contains("Pages:           4"));
    CHECK(pdf == report::pdf_pages(sample_document(4), day));
}

TEST_CASE("words too wide for a page are broken, not cut off", "[report]") {
    auto document = sample_document(2);
    std::get<report::Table>(document.chapters[0].blocks[2]).rows[0][1] = std::string(300, 'x');
    document.chapters[0].blocks.emplace_back(report::Paragraph{std::string(300, 'y')});
    std::string all;
    for (const auto& page : pages_of(report::pdf_pages(document, day)))
        all += page;
    CHECK(std::count(all.begin(), all.end(), 'y') >= 300);
    CHECK(count_of(all, "xx") * 2 > 280);
}

TEST_CASE("pieces go to the next page with what they are bound to", "[report]") {
    auto pieces = equal_pieces(7, 30);
    CHECK(report::paginated(pieces, 0, 100).size() == 3); // three to a page
    pieces[2].with_next = true;                           // a heading at the end of the first page
    const auto pages = report::paginated(pieces, 10, 100);
    REQUIRE(pages.size() == 3);
    CHECK(pages[0].size() == 2);
    CHECK(pages[1][0].piece == &pieces[2]);
    CHECK(pages[1][0].top_pt == 10);
    CHECK(pages[1][1].top_pt == 40);
}

TEST_CASE("space above is left out at the top of a page, a bound group longer than it is cut", "[report]") {
    auto pieces = equal_pieces(4, 50);
    for (auto& piece : pieces) {
        piece.space_above_pt = 8;
        piece.with_next = true;
    }
    const auto pages = report::paginated(pieces, 0, 120);
    REQUIRE(pages.size() == 2);
    CHECK(pages[0].size() == 2);
    CHECK(pages[0][1].top_pt == 58);
    CHECK(pages[1][0].top_pt == 0);
}
