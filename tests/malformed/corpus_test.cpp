// Every bad file of the folders beside this one is refused with the message its first line asks for:
// "# expect: FRAGMENT && FRAGMENT ...".

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "io/report_file.h"
#include "io/site_file.h"
#include "io/study_file.h"
#include "io/style_file.h"
#include "io/works_file.h"
#include "tests/support/places.h"
#include "tests/support/site_text.h"
#include "tests/support/study_text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <sstream>

using namespace interpile;
namespace fs = std::filesystem;

namespace {

std::string content(const fs::path& file) {
    std::ostringstream text;
    text << std::ifstream(file, std::ios::binary).rdbuf();
    return text.str();
}

std::vector<std::string> expected_fragments(const std::string& text) {
    const std::string mark = "# expect: ";
    if (!text.starts_with(mark))
        throw std::logic_error("a corpus file begins with " + mark);
    std::string rest = text.substr(mark.size(), text.find('\n') - mark.size());
    std::vector<std::string> fragments;
    for (std::size_t at; (at = rest.find(" && ")) != std::string::npos; rest.erase(0, at + 4))
        fragments.push_back(rest.substr(0, at));
    fragments.push_back(rest);
    return fragments;
}

/// What all messages must be, whatever the fault.
void require_good_form(const io::CaseFaults& faults, const std::string& text) {
    const auto lines = static_cast<int>(std::count(text.begin(), text.end(), '\n')) + 1;
    REQUIRE_FALSE(faults.faults().empty());
    for (const auto& fault : faults.faults()) {
        CHECK_FALSE(fault.what.empty());
        CHECK(fault.line >= 0);
        CHECK(fault.line <= lines);
    }
    const std::string message = faults.what();
    CHECK_THAT(message, Catch::Contains("nothing was computed, earlier results are untouched"));
    CHECK(std::none_of(message.begin(), message.end(), [](char c) { return c != '\n' && c >= 0 && c < 32; }));
}

} // namespace

TEST_CASE("the corpus of bad files") {
    struct Kind {
        std::string folder;
        std::function<void(const std::string&, const fs::path&)> parse;
        int least; ///< files, so that a folder that is not found is no success
    };
    const interpile::testing::SiteFolder beside; // tables of the site; the case of the study
    beside.folder.write("case.toml", interpile::testing::cell_case);
    const auto kind = GENERATE(values<Kind>(
        {{"case", [](const auto& text, const auto& file) { io::parse_case(text, file); }, 80},
         {"site", [](const auto& text, const auto& file) { io::parse_site(text, file); }, 28},
         {"works", [](const auto& text, const auto& file) { io::parse_works(text, file); }, 27},
         {"study", [](const auto& text, const auto& file) { io::parse_study(text, file); }, 40},
         {"report", [](const auto& text, const auto& file) { io::parse_report(text, file); }, 23},
         {"style", [](const auto& text, const auto& file) { io::parse_style(text, file); }, 25}}));
    int files = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(interpile::testing::source_folder()) /
                                                    "tests/malformed" / kind.folder)) {
        INFO(kind.folder << "/" << entry.path().filename().string());
        const std::string text = content(entry.path());
        ++files;
        try {
            kind.parse(text, beside.folder.path() / (kind.folder + ".toml"));
            FAIL_CHECK("accepted");
        } catch (const io::CaseFaults& faults) {
            require_good_form(faults, text);
            for (const auto& fragment : expected_fragments(text))
                CHECK_THAT(faults.what(), Catch::Contains(fragment));
        }
    }
    CHECK(files >= kind.least);
}
