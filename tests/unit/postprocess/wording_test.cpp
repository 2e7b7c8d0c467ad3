#include "postprocess/figure_style.h"
#include "postprocess/line_breaks.h"
#include "postprocess/wording.h"
#include "style_for_test.h"

#include <catch2/catch.hpp>

using namespace interpile::postprocess;
using interpile::tests::StyleForTest;

namespace {

FigureStyle with_labels(std::map<std::string, std::string> labels, bool decimal_comma = false) {
    FigureStyle style;
    style.labels = std::move(labels);
    style.decimal_comma = decimal_comma;
    return style;
}

std::string worded_text(const Label& label) {
    return text_of(worded(label));
}

} // namespace

TEST_CASE("a label is found by its text with numbers as #") {
    CHECK(label_key(plain("after pile 3 of 4, 5.25 m below ground ")) ==
          "after pile # of #, # m below ground");
    CHECK(label_key(plain("relative density ") + symbol("D_r") + plain(" (%)")) ==
          "relative density D_r (%)");
    CHECK(label_key(symbol("\u03c3_h1'") + plain(" (kPa)")) == "\u03c3_h1' (kPa)");
    CHECK(label_key(plain("\u221212.5 and -3, (0.6, 1.2) m")) == "# and #, (#, #) m");
    CHECK(label_key(plain("41.8\u00a0% \u2013 7 m\u00b2")) == "# % \u2013 # m\u00b2");
    // parts of words
    CHECK(label_key(plain("N1 of 0.1.0, 2D, guide-2001")) == "N1 of 0.1.0, 2D, guide-2001");
    CHECK(label_key(plain("at 4-5 m")) == "at #-# m");
}

TEST_CASE("without a table and with a decimal point a label keeps its text") {
    for (const char* text : {"after pile 3 of 4, 5.25 m below ground", "(0.6, 1.2) m", "D_r of 0.9 or more",
                             " \u2013 ends with a blank "})
        CHECK(worded_text(sentence(text)) == text);
}

TEST_CASE("a table of labels gives the text, the original its numbers and symbols") {
    const StyleForTest style(
        with_labels({{"relative density D_r (%)", "Lagerungsdichte D_r (%)"},
                     {"after pile # of #, # m below ground", "in # m Tiefe?"}, // fewer places than numbers
                     {"target D_r # %", "# % Ziel (D_r)"},
                     {"not yet", ""}}));
    const auto density = worded(plain("relative density ") + symbol("D_r") + plain(" (%)"));
    CHECK(text_of(density) == "Lagerungsdichte D_r (%)");
    CHECK(density[1].script == Run::Script::Italic);
    CHECK(density[2].script == Run::Script::Subscript);
    CHECK(worded_text(sentence("target D_r 62.5 %")) == "62.5 % Ziel (D_r)");
    CHECK(worded_text(plain(" not yet")) == " not yet");
    CHECK(worded_text(plain("target D_r 62.5 %")) == "62.5 % Ziel (D_r)");
    CHECK(worded_text(own_words("not to be touched 1.5")) == "not to be touched 1.5");
}

TEST_CASE("a decimal comma parts numbers by semicolons where two would run together") {
    const StyleForTest style(with_labels({}, true));
    CHECK(worded_text(plain("(0.60, 1.20) m")) == "(0,60; 1,20) m");
    CHECK(worded_text(plain("5, 25, 50 % of \u22120.5")) == "5, 25, 50 % of \u22120,5");
    CHECK(worded_text(plain("5, 25.5")) == "5; 25,5");
    CHECK(worded_text(plain("interpile 0.1.0")) == "interpile 0.1.0");
    CHECK(worded_text(worded(plain("2.5, 3.5"))) == "2,5; 3,5"); // twice is once
}

TEST_CASE("labels are broken at blanks, symbols kept whole") {
    const auto lines = worded_lines(plain("mean of ") + symbol("D_r") + plain(" over the treated area"), 12);
    REQUIRE(lines.size() == 3);
    CHECK(text_of(lines[0]) == "mean of D_r");
    CHECK(text_of(lines[1]) == "over the");
    CHECK(text_of(lines[2]) == "treated area");
    CHECK(worded_lines(plain("  "), 5).empty());
    const auto units = worded_lines(plain("at (0.6, 1.2) m. After 2 d 1 h"), 16);
    REQUIRE(units.size() == 2);
    CHECK(text_of(units[0]) == "at (0.6, 1.2) m.");
    CHECK(text_of(units[1]) == "After 2 d 1 h");
    CHECK(worded_lines(plain("41.8\u00a0%"), 2).size() == 1);
}

TEST_CASE("labels asked for are known afterwards, numbers alone are not") {
    worded(plain("seldom drawn words, 3 times"));
    worded(plain("77.7"));
    worded(symbol("x") + plain(" (kPa)"));
    CHECK(drawn_labels().count("seldom drawn words, # times") == 1);
    CHECK(drawn_labels().count("#") == 0);
    CHECK(drawn_labels().count("x (kPa)") == 0);
}
