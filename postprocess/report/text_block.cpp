#include "postprocess/report/text_block.h"

#include <algorithm>
#include <sstream>

namespace interpile::postprocess::report {

namespace {

std::vector<std::string> words_of(const std::string& line) {
    std::vector<std::string> words;
    std::istringstream text(line);
    for (std::string word; text >> word;)
        words.push_back(word);
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
    if (canvas.text_width(sentence(word), style) <= width_pt)
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
        for (const auto& word : words_of(paragraph))
            for (const auto& part : parts_of(canvas, word, style, width_pt)) {
                const double width = canvas.text_width(sentence(part), style);
                if (!line.empty() && used + blank + width > width_pt) {
                    lines.push_back(sentence(line));
                    line.clear();
                    used = 0;
                }
                used += (line.empty() ? 0 : blank) + width;
                line += (line.empty() ? "" : " ") + part;
            }
        lines.push_back(sentence(line));
    }
    if (lines.empty())
        lines.emplace_back();
    return lines;
}

double widest_word_pt(Canvas& canvas, const std::string& text, const TextStyle& style) {
    double widest = 0;
    for (const auto& word : words_of(text))
        widest = std::max(widest, canvas.text_width(sentence(word), style));
    return widest;
}

double text_width_pt(Canvas& canvas, const std::string& text, const TextStyle& style) {
    return canvas.text_width(sentence(text), style);
}

} // namespace interpile::postprocess::report
