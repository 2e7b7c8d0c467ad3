#include "io/style_file.h"
#include "io/value_reader.h"
#include "tests/support/places.h"

#include <catch2/catch.hpp>

#include <set>

using namespace interpile;

namespace {

io::StyleFile parsed(const std::string& text) {
    return io::parse_style(text, "style.toml");
}

} // namespace

TEST_CASE("an empty style file is the usual style") {
    const auto style = parsed("");
    CHECK(style.width_mm == 160);
    CHECK(style.letter_size_pt == 7);
    CHECK(style.most_bands == 0);
    CHECK_FALSE(style.decimal_comma);
    CHECK(style.formats == std::vector<std::string>{"pdf", "svg", "png"});
    CHECK(style.png_dots_per_inch == 300);
    CHECK(style.labels.empty());
}

TEST_CASE("every key of a style file is read") {
    CHECK(parsed("[page]\ncolumn = \"single\"\n").width_mm == 85);
    CHECK(parsed("[page]\ncolumn = \"double\"\n").width_mm == 175);
    const auto style = parsed("[page]\nwidth_mm = 120.5\nletter_size_pt = 9\n[contours]\nmost_bands = 5\n"
                              "[text]\ndecimal_sign = \",\"\n[text.labels]\n"
                              "\"depth below ground (m)\" = \"Tiefe unter Gel\u00e4nde (m)\"\n"
                              "\" after pile # of # \" = \" nach Pfahl # von #\"\n\"mean\" = \"\"\n"
                              "[files]\nformats = [\"svg\"]\npng_dots_per_inch = 600\n");
    CHECK(style.width_mm == 120.5);
    CHECK(style.letter_size_pt == 9);
    CHECK(style.most_bands == 5);
    CHECK(style.decimal_comma);
    CHECK(style.formats == std::vector<std::string>{"svg"});
    CHECK(style.png_dots_per_inch == 600);
    CHECK(style.labels ==
          std::map<std::string, std::string>{{"depth below ground (m)", "Tiefe unter Gel\u00e4nde (m)"},
                                             {"after pile # of #", "nach Pfahl # von #"},
                                             {"mean", ""}});
}

TEST_CASE("the shipped style is sound and translates most of its labels") {
    const auto style = io::read_style(testing::source_folder() + "/cases/figure-style/style.toml");
    CHECK(style.width_mm == 85);
    CHECK(style.labels.size() > 40);
}

TEST_CASE("every key of a style file is unique and explained, and its default is sound") {
    std::set<std::string> seen;
    for (const auto& info : io::style_dictionary().keys) {
        const std::string path = std::string(info.table) + "." + std::string(info.key);
        INFO(path);
        CHECK(seen.insert(path).second);
        CHECK_FALSE(info.meaning.empty());
        CHECK_FALSE(info.source.empty());
        CHECK((info.type == io::ValueType::Word) == !info.choices.empty());
        if (info.presence == io::Presence::Default)
            CHECK_NOTHROW(io::default_value(info));
    }
    CHECK(seen.size() == 8);
    CHECK(io::unit_of("width_mm") == "mm");
    CHECK(io::unit_of("letter_size_pt") == "pt");
}
