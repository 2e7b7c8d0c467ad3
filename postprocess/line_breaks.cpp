#include "postprocess/line_breaks.h"

#include "postprocess/wording.h"

#include <cctype>

namespace interpile::postprocess {

namespace {

/// A piece after a blank, which is part of an upright run, so that it is as wide as in the unbroken text.
void append(Label& line, const Label& piece) {
    const auto add = [&](const Run& run) {
        if (line.back().script == Run::Script::Upright && run.script == Run::Script::Upright)
            line.back().text += run.text;
        else
            line.push_back(run);
    };
    add({" ", Run::Script::Upright, true});
    for (const auto& run : piece)
        add(run);
}

/// "2" and "h", "(0.5, 1.2)" and "m."
bool are_number_and_unit(const Label& number, const Label& unit) {
    constexpr std::size_t longest_unit = 4;
    const char last = number.back().text.back(), first = unit.front().text.front();
    return (std::isdigit(static_cast<unsigned char>(last)) != 0 || last == ')') &&
           (std::isalpha(static_cast<unsigned char>(first)) != 0 || first == '%') &&
           length_of(unit) <= longest_unit;
}

/// What blanks part, numbers together with their units.
std::vector<Label> pieces_of(const Label& label) {
    std::vector<Label> words(1);
    for (const auto& run : label) {
        if (run.script != Run::Script::Upright) {
            words.back().push_back(run);
            continue;
        }
        std::size_t from = 0;
        for (auto space = run.text.find(' '); from <= run.text.size();
             from = space + 1, space = run.text.find(' ', from)) {
            const auto word = run.text.substr(from, space - from);
            if (!word.empty())
                words.back().push_back({word, run.script, true});
            if (space == std::string::npos)
                break;
            words.emplace_back();
        }
    }
    std::vector<Label> pieces;
    for (auto& word : words) {
        if (word.empty())
            continue;
        if (!pieces.empty() && are_number_and_unit(pieces.back(), word))
            append(pieces.back(), word);
        else
            pieces.push_back(std::move(word));
    }
    return pieces;
}

} // namespace

std::size_t characters(const std::string& utf8) {
    std::size_t count = 0;
    for (unsigned char byte : utf8)
        count += (byte & 0xC0) != 0x80; // continuation bytes are not counted
    return count;
}

std::size_t length_of(const Label& label) {
    std::size_t count = 0;
    for (const auto& run : label)
        count += characters(run.text);
    return count;
}

std::vector<Label> worded_lines(const Label& label, std::size_t most) {
    std::vector<Label> lines;
    for (auto& piece : pieces_of(worded(label)))
        if (!lines.empty() && (length_of(lines.back()) + 1 + length_of(piece) <= most))
            append(lines.back(), piece);
        else
            lines.push_back(std::move(piece));
    return lines;
}

} // namespace interpile::postprocess
