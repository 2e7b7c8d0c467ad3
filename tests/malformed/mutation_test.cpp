// A sound case, site, works, study, report and style file changed in every line: the readers never crash, and never
// take a garbled key for a good one; a site that is accepted can be designed.

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "io/report_file.h"
#include "io/study_file.h"
#include "io/style_file.h"
#include "io/vocabulary.h"
#include "io/works_file.h"
#include "tests/support/case_text.h"
#include "tests/support/designed_site.h"
#include "tests/support/study_text.h"
#include "tests/support/works_text.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <random>
#include <sstream>
#include <vector>

using namespace interpile;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const auto& line : lines)
        text += line + "\n";
    return text;
}

const std::string sound_report = "[report]\ntitle = \"Piles\"\nauthor = \"N. N.\"\nsite = \"a.toml\"\n"
                                 "results = [\"r1.h5\", \"r2.h5\"]\nafter = true\n"
                                 "[[text]]\nchapter = \"need\"\nbody = \"One line.\"\n";

const std::string sound_style = "[page]\nwidth_mm = 90\nletter_size_pt = 8\n[contours]\nmost_bands = 7\n"
                                "[text]\ndecimal_sign = \",\"\n[files]\nformats = [\"pdf\", \"png\"]\n"
                                "png_dots_per_inch = 150\n";

/// A sound text and its reader.
struct Specimen {
    std::string name, text;
    std::function<void(const std::string&)> parse;
};

const std::vector<Specimen>& specimens() {
    static const testing::SiteFolder folder;
    folder.folder.write("case.toml", testing::cell_case); // of the study
    static const std::vector<Specimen> all = {
        {"case", testing::sound_case, [](const std::string& text) { io::parse_case(text, "mutated.toml"); }},
        {"site", testing::sound_site, [](const std::string& text) { testing::designed(text, folder); }},
        {"works", testing::sound_works,
         [](const std::string& text) { io::parse_works(text, "mutated.toml"); }},
        {"study", testing::cell_study,
         [](const std::string& text) { io::parse_study(text, folder.folder.path() / "mutated.toml"); }},
        {"report", sound_report, [](const std::string& text) { io::parse_report(text, "mutated.toml"); }},
        {"style", sound_style, [](const std::string& text) { io::parse_style(text, "mutated.toml"); }}};
    return all;
}

enum class Verdict { Accepted, Refused };

/// Anything but a result or a list of faults (or a file that is not there) is a crash of the reader.
Verdict read(const Specimen& specimen, const std::string& text) {
    try {
        specimen.parse(text);
        return Verdict::Accepted;
    } catch (const io::CaseFaults& faults) {
        CHECK_FALSE(faults.faults().empty());
        return Verdict::Refused;
    } catch (const io::FileTrouble&) {
        return Verdict::Refused;
    }
}

bool is_key_line(const std::string& line) {
    return line.find('=') != std::string::npos && !line.starts_with('#');
}

bool is_statement(const std::string& line) {
    return is_key_line(line) || line.starts_with('[');
}

} // namespace

TEST_CASE("the sound texts are accepted") {
    for (const Specimen& specimen : specimens()) {
        INFO(specimen.name);
        REQUIRE(read(specimen, specimen.text) == Verdict::Accepted);
    }
}

TEST_CASE("a garbled key or table is never accepted") {
    for (const Specimen& specimen : specimens()) {
        INFO(specimen.name);
        const auto lines = lines_of(specimen.text);
        int garbled = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (!is_statement(lines[i]))
                continue;
            const std::size_t first = lines[i].find_first_not_of('[');
            const std::size_t end = std::min(lines[i].find_first_of(" =]", first), lines[i].size());
            for (std::size_t at = first; at < end; ++at) {
                auto changed = lines;
                const std::string before = lines[i].substr(0, at), here = lines[i].substr(at, 1);
                const std::string after = lines[i].substr(at + 1);
                for (const auto& key : {before + "Z" + after, before + after, before + "_" + here + after}) {
                    changed[i] = key;
                    INFO(key);
                    CHECK(read(specimen, joined(changed)) == Verdict::Refused);
                    ++garbled;
                }
            }
        }
        CHECK(garbled > 100); // of the shortest
    }
}

TEST_CASE("a doubled line is never accepted") {
    for (const Specimen& specimen : specimens()) {
        INFO(specimen.name);
        const auto lines = lines_of(specimen.text);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (!is_statement(lines[i]))
                continue;
            auto changed = lines;
            changed.insert(changed.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
            INFO(lines[i]);
            CHECK(read(specimen, joined(changed)) == Verdict::Refused);
        }
    }
}

TEST_CASE("deleted, exchanged and cut lines are answered in good order") {
    for (const Specimen& specimen : specimens()) {
        INFO(specimen.name);
        const auto lines = lines_of(specimen.text);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            auto deleted = lines;
            deleted.erase(deleted.begin() + static_cast<std::ptrdiff_t>(i));
            read(specimen, joined(deleted));
            if (i > 0) {
                auto exchanged = lines;
                std::swap(exchanged[i], exchanged[i - 1]);
                read(specimen, joined(exchanged));
            }
        }
        for (std::size_t end = 0; end < specimen.text.size(); end += 3)
            read(specimen, specimen.text.substr(0, end));
    }
    SUCCEED();
}

TEST_CASE("values of every kind in every place are answered in good order") {
    for (const Specimen& specimen : specimens()) {
        INFO(specimen.name);
        const auto lines = lines_of(specimen.text);
        int refused = 0, tried = 0;
        for (const char* value :
             {"nan", "inf", "-1e308", "0x7fffffffffffffff", "9223372036854775807", "\"\"", "[]", "[[]]",
              "[1, \"a\"]", "{}", "{a = 1}", "1979-05-27", "true", "'''", "[[1, 2], [3]]", "\"\\u0000\""})
            for (std::size_t i = 0; i < lines.size(); ++i) {
                if (!is_key_line(lines[i]))
                    continue;
                auto changed = lines;
                changed[i] = lines[i].substr(0, lines[i].find('=') + 1) + " " + value;
                refused += read(specimen, joined(changed)) == Verdict::Refused;
                ++tried;
            }
        CHECK(tried > 90);           // of the shortest
        CHECK(refused >= tried - 5); // only an empty text and `true` can be right somewhere
    }
}

TEST_CASE("random bytes in a sound text are answered in good order") {
    for (const Specimen& specimen : specimens()) {
        INFO(specimen.name);
        std::mt19937 random(20260125); // fixed, so that a failure can be repeated
        std::uniform_int_distribution<std::size_t> place(0, specimen.text.size() - 1);
        std::uniform_int_distribution<int> byte(0, 255), edits(1, 6);
        for (int round = 0; round < 3000; ++round) {
            std::string text = specimen.text;
            for (int edit = edits(random); edit > 0; --edit)
                text[place(random)] = static_cast<char>(byte(random));
            read(specimen, text);
        }
    }
    SUCCEED();
}

// Where a key may stand and how far: each end of each range alone, and the next number beyond it.
TEST_CASE("the ends of every range of a site are designed or refused") {
    const Specimen& site = specimens()[1];
    int accepted = 0, refused = 0;
    for (const io::KeyInfo& key : io::site_dictionary().keys) {
        if (key.type != io::ValueType::Number || key.table == "after") // the sound site has no tests
            continue;
        for (const double value : {key.low, key.high}) {
            auto lines = lines_of(testing::sound_site);
            const auto header = fmt::format("[{}]", key.table), name = fmt::format("{} =", key.key);
            const auto at_header = std::ranges::find_if(lines, [&](const std::string& line) {
                return line == header || line == fmt::format("[{}]", header);
            });
            REQUIRE(at_header != lines.end());
            auto at = at_header + 1;
            while (at != lines.end() && !at->starts_with('[') && !at->starts_with(name))
                ++at;
            const auto written = fmt::format("{} {}", name, value);
            if (at != lines.end() && at->starts_with(name))
                *at = written;
            else
                lines.insert(at_header + 1, written);
            INFO(written);
            (read(site, joined(lines)) == Verdict::Accepted ? accepted : refused) += 1;
        }
    }
    CHECK(accepted > 20);
    CHECK(refused > 5); // that contradict the rest of the site
}
