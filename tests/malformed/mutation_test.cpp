// A sound case changed in every line: the reader never crashes, and never takes a garbled key for a good one.

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "tests/support/case_text.h"

#include <catch2/catch.hpp>

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

enum class Verdict { Accepted, Refused };

/// Anything but a case or a list of faults (or a file that is not there) is a crash of the reader.
Verdict read(const std::string& text) {
    try {
        io::parse_case(text, "mutated.toml");
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

TEST_CASE("the sound case is accepted") {
    REQUIRE(read(testing::sound_case) == Verdict::Accepted);
}

TEST_CASE("a garbled key or table is never accepted") {
    const auto lines = lines_of(testing::sound_case);
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
                CHECK(read(joined(changed)) == Verdict::Refused);
                ++garbled;
            }
        }
    }
    CHECK(garbled > 500);
}

TEST_CASE("a doubled line is never accepted") {
    const auto lines = lines_of(testing::sound_case);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!is_statement(lines[i]))
            continue;
        auto changed = lines;
        changed.insert(changed.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
        INFO(lines[i]);
        CHECK(read(joined(changed)) == Verdict::Refused);
    }
}

TEST_CASE("deleted, exchanged and cut lines are answered in good order") {
    const auto lines = lines_of(testing::sound_case);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        auto deleted = lines;
        deleted.erase(deleted.begin() + static_cast<std::ptrdiff_t>(i));
        read(joined(deleted));
        if (i > 0) {
            auto exchanged = lines;
            std::swap(exchanged[i], exchanged[i - 1]);
            read(joined(exchanged));
        }
    }
    for (std::size_t end = 0; end < testing::sound_case.size(); end += 3)
        read(testing::sound_case.substr(0, end));
    SUCCEED();
}

TEST_CASE("values of every kind in every place are answered in good order") {
    const auto lines = lines_of(testing::sound_case);
    int refused = 0, tried = 0;
    for (const char* value :
         {"nan", "inf", "-1e308", "0x7fffffffffffffff", "9223372036854775807", "\"\"", "[]", "[[]]",
          "[1, \"a\"]", "{}", "{a = 1}", "1979-05-27", "true", "'''", "[[1, 2], [3]]", "\"\\u0000\""})
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (!is_key_line(lines[i]))
                continue;
            auto changed = lines;
            changed[i] = lines[i].substr(0, lines[i].find('=') + 1) + " " + value;
            refused += read(joined(changed)) == Verdict::Refused;
            ++tried;
        }
    CHECK(tried > 300);
    CHECK(refused >= tried - 5); // only an empty text and `true` can be right somewhere
}

TEST_CASE("random bytes in a sound case are answered in good order") {
    std::mt19937 random(20260125); // fixed, so that a failure can be repeated
    std::uniform_int_distribution<std::size_t> place(0, testing::sound_case.size() - 1);
    std::uniform_int_distribution<int> byte(0, 255), edits(1, 6);
    for (int round = 0; round < 3000; ++round) {
        std::string text = testing::sound_case;
        for (int edit = edits(random); edit > 0; --edit)
            text[place(random)] = static_cast<char>(byte(random));
        read(text);
    }
    SUCCEED();
}
