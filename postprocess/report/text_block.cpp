#include "postprocess/report/text_block.h"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace interpile::postprocess::report {

namespace {

constexpr double slack_pt = 1e-6; // of sums of widths

/// A piece of a line that is not broken, unless it alone is wider than the line.
struct Word {
    std::string text;
    bool glued = false; ///< no blank before it: it follows a hyphen
};

/// Parted at blanks and behind hyphens between letters or between a letter and a digit: "idriss-2014", not "1e-5".
std::vector<Word> words_of(const std::string& line) {
    const auto is = [](int (*kind)(int), char c) { return kind(static_cast<unsigned char>(c)) != 0; };
    std::vector<Word> words;
    std::istringstream text(line);
    for (std::string word; text >> word;) {
        bool glued = false;
        std::size_t from = 0;
        for (std::size_t at = 2; at + 1 < word.size(); ++at)
            if (word[at] == '-' && is(std::isalpha, word[at - 1]) && is(std::isalpha, word[at - 2]) &&
                is(std::isalnum, word[at + 1])) {
                words.push_back({word.substr(from, at + 1 - from), glued});
                from = at + 1;
                glued = true;
            }
        words.push_back({word.substr(from), glued});
    }
    return words;
}

/// Ends of the letters of a word, so that none is cut in two.
std::size_t next_letter(const std::string& word, std::size_t at) {
    do
        ++at;
    while (at < word.size() && (static_cast<unsigned char>(word[at]) & 0xC0) == 0x80);
    return at;
}

/// Parts of a word that each fit into the width; one letter at least.
std::vector<std::string> parts_of(Canvas& canvas, const std::string& word, const TextStyle& style,
                                  double width_pt) {
    if (canvas.text_width(sentence(word), style) <= width_pt + slack_pt)
        return {word};
    std::vector<std::string> parts;
    std::size_t from = 0;
    while (from < word.size()) {
        std::size_t end = next_letter(word, from);
        for (std::size_t next = end; next < word.size(); end = next) {
            next = next_letter(word, next);
            if (canvas.text_width(plain(word.substr(from, next - from)), style) > width_pt)
                break;
            if (next == word.size()) {
                end = next;
                break;
            }
        }
        parts.push_back(word.substr(from, end - from));
        from = end;
    }
    return parts;
}

} // namespace

std::vector<Label> lines_of(Canvas& canvas, const std::string& text, const TextStyle& style,
                            double width_pt) {
    const double blank = canvas.text_width(plain("n n"), style) - canvas.text_width(plain("nn"), style);
    std::vector<Label> lines;
    std::istringstream paragraphs(text);
    for (std::string paragraph; std::getline(paragraphs, paragraph);) {
        std::string line;
        double used = 0;
        for (const Word& word : words_of(paragraph)) {
            bool glued = word.glued;
            for (const auto& part : parts_of(canvas, word.text, style, width_pt)) {
                const double width = canvas.text_width(sentence(part), style);
                const double gap = line.empty() || glued ? 0 : blank;
                if (!line.empty() && used + gap + width > width_pt + slack_pt) {
                    lines.push_back(sentence(line));
                    line.clear();
                    used = 0;
                }
                used += (line.empty() ? 0 : gap) + width;
                line += (line.empty() || glued ? "" : " ") + part;
                glued = true; // the parts of a word that is broken
            }
        }
        lines.push_back(sentence(line));
    }
    if (lines.empty())
        lines.emplace_back();
    return lines;
}

double widest_word_pt(Canvas& canvas, const std::string& text, const TextStyle& style) {
    double widest = 0;
    for (const Word& word : words_of(text))
        widest = std::max(widest, canvas.text_width(sentence(word.text), style));
    return widest;
}

double text_width_pt(Canvas& canvas, const std::string& text, const TextStyle& style) {
    return canvas.text_width(sentence(text), style);
}

} // namespace interpile::postprocess::report
