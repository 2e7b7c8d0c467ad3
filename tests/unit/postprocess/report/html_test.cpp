// The report as HTML, read by the parsers of Python.

#include "postprocess/report/html.h"
#include "tests/support/places.h"
#include "tests/unit/postprocess/report/sample_document.h"

#include <catch2/catch.hpp>

using namespace interpile::tests;
using Catch::Matchers::Contains;

namespace {
std::string verdict_on(const std::string& html) {
    return told_of(html, ".html",
                   "python3 '" + interpile::testing::source_folder() + "/tests/support/html_check.py'", "");
}
} // namespace

TEST_CASE("the page is well-formed, needs nothing else, and its links lead somewhere", "[report]") {
    const std::string html = report::html_page(sample_document(4));
    CHECK(verdict_on(html) == "sound\n");
    // The judge must be able to find fault.
    CHECK_THAT(verdict_on(html + "<p>"), Contains("not well-formed"));
    std::string broken = html;
    broken.replace(broken.find("id=\"chapter-2\""), 14, "id=\"chapter-9\"");
    CHECK_THAT(verdict_on(broken), Contains("link without target: #chapter-2"));
    broken = html;
    broken.insert(broken.find("<p class=\"caution\">"), "<img src=\"//host/x.png\"/>");
    CHECK_THAT(verdict_on(broken), Contains("link leaves the page"));
}

TEST_CASE("the page holds all blocks, numbered and escaped", "[report]") {
    const std::string html = report::html_page(sample_document(4));
    for (const char* part :
         {"<title>Piles &quot;A&quot; &amp; B</title>", "Project &lt;X&gt;", "<i>D</i><sub>r</sub>",
          "Table 1. depths &amp; loads", "depth<br/><span>[m]</span>", "<span>[m\u00b3]</span>",
          "<td class=\"text\">load 4</td>", "a note &lt;small&gt;", "Figure 2. a square", "<li>one item</li>",
          "<a href=\"#heading-1.1\">"})
        CHECK_THAT(html, Contains(part));
    // The cautions come before the chapters.
    CHECK(html.find("Not for approval.") < html.find("<h2 id=\"chapter-1\""));
    CHECK(html.find("<dt>Client</dt>") == std::string::npos); // none is given
}

TEST_CASE("equal documents give equal pages", "[report]") {
    CHECK(report::html_page(sample_document(4)) == report::html_page(sample_document(4)));
}
