// Every bad case file of the corpus is refused with the message its first line asks for:
// "# expect: FRAGMENT && FRAGMENT ...".

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "tests/support/places.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
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

TEST_CASE("the corpus of bad case files") {
    int files = 0;
    for (const auto& entry :
         fs::directory_iterator(fs::path(interpile::testing::source_folder()) / "tests/malformed/corpus")) {
        INFO(entry.path().filename().string());
        const std::string text = content(entry.path());
        ++files;
        try {
            io::parse_case(text, entry.path());
            FAIL("accepted");
        } catch (const io::CaseFaults& faults) {
            require_good_form(faults, text);
            for (const auto& fragment : expected_fragments(text))
                CHECK_THAT(faults.what(), Catch::Contains(fragment));
        }
    }
    CHECK(files >= 80);
}
