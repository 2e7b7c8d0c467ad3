// Sound tables changed in every place: the readers never crash, and never take a garbled head for a good one.

#include "io/after_table.h"
#include "io/as_built_records.h"
#include "io/boring_table.h"
#include "io/chart_table.h"
#include "io/pile_survey.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <cctype>
#include <functional>
#include <random>
#include <string>
#include <vector>

using namespace interpile;

namespace {

/// A sound table with all its columns needed, and its reader.
struct Specimen {
    std::string name;
    std::string text;
    std::function<void(const std::string&)> parse;
};

std::vector<Specimen> specimens() {
    return {
        {"boring",
         "depth_m,blow_count,fines_pct,unit_weight_kN_m3\n1.3,8,5,18\n2.3,10.5,8,18.5\n3.3,4,60,16\n",
         [](const std::string& text) { io::parse_boring_table(text, "boring.csv"); }},
        {"chart",
         "blow_count_before,replacement_ratio,blow_count_after\n0,0.1,6\n20,0.1,22\n0,0.2,12\n20,0.2,32\n",
         [](const std::string& text) { io::parse_chart_table(text, "chart.csv"); }},
        {"survey", "pile,x_m,y_m\nA1,0,0\nA2,1.72,-0.04\nA3,3.4,0.01\n",
         [](const std::string& text) { io::parse_pile_survey(text, "survey.csv"); }},
        {"after", "place,depth_m,blow_count\nP1,1.3,16\nP1,2.3,18.5\nP2,1.3,20\n",
         [](const std::string& text) { io::parse_after_table(text, "after.csv"); }},
        {"after of a site",
         "place,boring,depth_m,blow_count,replacement_ratio\nP1,B-1,1.3,16,0.1\nP1,B-2,2.3,18.5,0.12\n",
         [](const std::string& text) {
             testing::WorkingFolder folder;
             io::FaultList faults("site.toml", "");
             const auto file = folder.write("after.csv", text);
             for (const auto& test : io::read_after_table(file, {{"B-1", "B-2"}, 0.1}, faults))
                 if (faults.empty()) { // else the tests must not be used
                     CHECK((test.boring == "B-1" || test.boring == "B-2"));
                     CHECK(test.replacement_ratio);
                 }
             faults.throw_if_any();
         }},
        {"log", "pile,time_s,tip_depth_m,sand_volume_m3\nA1,0,0,0\nA1,60,8.5,0\nA1,90.5,7.5,0.13\n",
         [](const std::string& text) { io::parse_as_built_records(text, "log.csv"); }},
    };
}

/// Anything but rows or a list of faults is a crash of the reader.
bool refused(const Specimen& table, const std::string& text) {
    try {
        table.parse(text);
        return false;
    } catch (const io::CaseFaults& faults) {
        CHECK_FALSE(faults.faults().empty());
        return true;
    }
}

} // namespace

TEST_CASE("sound tables are accepted") {
    for (const Specimen& table : specimens()) {
        INFO(table.name);
        CHECK_FALSE(refused(table, table.text));
    }
}

TEST_CASE("a garbled head of a column is never accepted") {
    for (const Specimen& table : specimens())
        for (std::size_t at = 0; at < table.text.find('\n'); ++at)
            for (const char* put : {"Z", "", ";"}) {
                const std::string text = table.text.substr(0, at) + put + table.text.substr(at + 1);
                INFO(text);
                CHECK(refused(table, text));
            }
}

TEST_CASE("a decimal comma is never accepted") {
    for (const Specimen& table : specimens())
        for (auto at = table.text.find('.'); at != std::string::npos; at = table.text.find('.', at + 1)) {
            auto text = table.text;
            text[at] = ',';
            INFO(text);
            CHECK(refused(table, text));
        }
}

TEST_CASE("a letter, a quotation mark or a foreign byte in a number is never accepted") {
    for (const Specimen& table : specimens())
        for (std::size_t at = table.text.find('\n') + 1; at < table.text.size(); ++at) {
            const bool in_number = table.text.find_first_of(",\n", at) != at &&
                                   std::isalpha(static_cast<unsigned char>(
                                       table.text[table.text.find_last_of(",\n", at) + 1])) == 0;
            for (const char* put : {"o", "\"", "\xB7", "\xC2\xA0", " 1 "}) {
                const std::string text = table.text.substr(0, at) + put + table.text.substr(at + 1);
                INFO(text);
                if (in_number && put != std::string(" 1 "))
                    CHECK(refused(table, text));
                else
                    refused(table, text);
            }
        }
}

TEST_CASE("cut tables and those without a row are answered in good order") {
    for (const Specimen& table : specimens()) {
        for (std::size_t end = 0; end < table.text.size(); ++end)
            refused(table, table.text.substr(0, end));
        CHECK(refused(table, table.text.substr(0, table.text.find('\n') + 1)));
    }
}

TEST_CASE("random bytes in a sound table are answered in good order") {
    std::mt19937 random(20310501); // fixed, so that a failure can be repeated
    std::uniform_int_distribution<int> byte(0, 255), edits(1, 6);
    int faulty = 0;
    constexpr int rounds = 2000;
    for (const Specimen& table : specimens()) {
        std::uniform_int_distribution<std::size_t> place(0, table.text.size() - 1);
        for (int round = 0; round < rounds; ++round) {
            std::string text = table.text;
            for (int edit = edits(random); edit > 0; --edit)
                text[place(random)] = static_cast<char>(byte(random));
            faulty += refused(table, text);
        }
    }
    CHECK(faulty > 5 * rounds); // of six times that
}
