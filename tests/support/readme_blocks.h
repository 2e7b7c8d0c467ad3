#pragma once
// The commands of a README and the excerpts of what they print.

#include <cmath>
#include <cstdlib>
#include <sstream>
#include <string>
#include <vector>

namespace interpile::testing {

struct ReadmeBlock {
    std::vector<std::string> commands; ///< of a block marked sh
    std::vector<std::string> excerpt;  ///< lines of the blocks without a mark that follow it
};

inline std::vector<ReadmeBlock> readme_blocks(const std::string& text) {
    std::vector<ReadmeBlock> blocks;
    std::istringstream lines(text);
    bool inside = false, commands = false;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("```")) {
            inside = !inside;
            commands = inside && line == "```sh";
            if (commands)
                blocks.emplace_back();
        } else if (inside && !line.empty() && !blocks.empty()) {
            (commands ? blocks.back().commands : blocks.back().excerpt).push_back(line);
        }
    }
    return blocks;
}

inline std::vector<std::string> words_of(const std::string& line) {
    std::istringstream words(line);
    std::vector<std::string> all;
    for (std::string word; words >> word;)
        all.push_back(word);
    return all;
}

/// Equal, or both numbers (with the same marks after them) that differ by at most 2 %: the last digits of a simulation
/// change with the optimization and the processor. Numbers without a decimal point are equal or not.
inline bool same_word(const std::string& expected, const std::string& printed) {
    if (expected == printed)
        return true;
    if (expected.find('.') == std::string::npos)
        return false;
    char *end = nullptr, *printed_end = nullptr;
    const double a = std::strtod(expected.c_str(), &end), b = std::strtod(printed.c_str(), &printed_end);
    return end != expected.c_str() && std::string(end) == printed_end &&
           std::abs(a - b) <= 0.02 * std::abs(a);
}

/// Some line printed has these words; "..." stands for any further ones.
inline bool has_line(const std::string& printed, const std::string& expected) {
    const auto wanted = words_of(expected);
    std::istringstream lines(printed);
    for (std::string line; std::getline(lines, line);) {
        const auto words = words_of(line);
        std::size_t k = 0;
        while (k < wanted.size() && k < words.size() && wanted[k] != "..." && same_word(wanted[k], words[k]))
            ++k;
        if (k == wanted.size() ? k == words.size() : wanted[k] == "...")
            return true;
    }
    return false;
}

} // namespace interpile::testing
