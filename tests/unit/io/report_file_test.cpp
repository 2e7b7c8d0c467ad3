// Report files and the digest of what a report was made from.

#include "io/diagnostics.h"
#include "io/file_digest.h"
#include "io/report_file.h"
#include "tests/support/case_text.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

using namespace interpile;
using namespace interpile::testing;

namespace {

const std::string sound_report = R"(# invented
[report]
title = "Piles"
author = "N. N."
site = "sites/a.toml"
results = ["r1.h5", "r2.h5"]
after = true

[[text]]
chapter = "need"
body = """
One line,
and another.

A second paragraph."""
)";

std::string faults_of(const std::string& text) {
    try {
        io::parse_report(text, "job/report.toml");
    } catch (const io::CaseFaults& faults) {
        return faults.what();
    }
    return {};
}

} // namespace

TEST_CASE("a sound report file names its parts beside it", "[report]") {
    const auto report = io::parse_report(sound_report, "job/report.toml");
    CHECK(report.title == "Piles");
    CHECK(report.author == "N. N.");
    CHECK(report.client.empty());
    CHECK(report.site.value() == "job/sites/a.toml");
    CHECK_FALSE(report.works);
    CHECK(report.results == std::vector<std::filesystem::path>{"job/r1.h5", "job/r2.h5"});
    CHECK(report.after);
    CHECK_FALSE(report.date);
    REQUIRE(report.texts.size() == 1);
    CHECK(report.texts[0].chapter == "need");
    CHECK(report.texts[0].body == "One line,\nand another.\n\nA second paragraph.");
}

TEST_CASE("slips in a report file are told with place and mend", "[report]") {
    const auto [from, to, expected] = GENERATE(table<std::string, std::string, std::string>({
        {"title = \"Piles\"", "", "key \"title\" is missing in [report]"},
        {"title = \"Piles\"", "title = \" \"", "report.toml:3:9: report.title = \" \" is empty"},
        {"title = \"Piles\"", "title = \"Piles\"\nclinet = \"x\"", "nearest: \"client\""},
        {"chapter = \"need\"", "chapter = \"needs\"", "is not one of"},
        {"chapter = \"need\"", "", "key \"chapter\" is missing in [text[1]]"},
        {"and another.", "and\tanother.", "has control characters"},
        {"\"r2.h5\"", "\"r1.h5\"", "report.results: \"r1.h5\" stands here twice"},
        {"site = \"sites/a.toml\"", "", "after needs it"},
        {"after = true", "after = 1", "true or false is needed"},
        {"[[text]]", "[text]", "text"},
    }));
    INFO(from << " -> " << to);
    CHECK_THAT(faults_of(changed(sound_report, from, to)), Catch::Contains(expected));
}

TEST_CASE("a report of nothing is refused", "[report]") {
    CHECK_THAT(faults_of("[report]\ntitle = \"x\"\n"),
               Catch::Contains("neither it nor results nor works nor study is given"));
}

// Values of the test vectors that Fowler, Noll and Vo publish with their algorithm, from memory of them.
TEST_CASE("the digest is FNV-1a of 64 bit", "[report]") {
    const auto digest = [](std::string_view text) {
        io::FileDigest made;
        made.add(text);
        return made.value();
    };
    CHECK(digest("") == 0xcbf29ce484222325);
    CHECK(digest("a") == 0xaf63dc4c8601ec8c);
    CHECK(digest("foobar") == 0x85944171f73967e8);
}

TEST_CASE("a file has the digest of its bytes, however long", "[report]") {
    const auto file = std::filesystem::temp_directory_path() / "interpile-digest-test";
    const std::string text(200000, 'q');
    std::ofstream(file, std::ios::binary) << text;
    io::FileDigest whole;
    whole.add(text);
    CHECK(std::stoull(io::digest_of_file(file), nullptr, 16) == whole.value());
    std::filesystem::remove(file);
    CHECK_THROWS_AS(io::digest_of_file(file), io::FileTrouble);
}
