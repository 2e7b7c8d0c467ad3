#include "postprocess/label_parts.h"

#include <cctype>
#include <utility>

namespace interpile::postprocess {

namespace {

using Part = LabelPart;

constexpr std::string_view true_minus = "\u2212";

bool is_digit(std::string_view text, std::size_t at) {
    return at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0;
}

/// What stands before a number: not a letter, so that "N1", "m²" and "guide-2001" are words.
bool may_begin_number(std::string_view before) {
    if (before.empty())
        return true;
    if (before.back() == '-' && before.size() > 1 && is_letter(before, before.size() - 2))
        return false;
    for (const std::string_view separator : {"\u00a0", "\u2013", "\u2026"})
        if (before.ends_with(separator))
            return true;
    const auto last = static_cast<unsigned char>(before.back());
    return last < 0x80 && std::isalnum(last) == 0 && last != '_' && last != '.';
}

/// \returns where the number that begins at `at` ends; `at` if none does
std::size_t end_of_number(std::string_view text, std::size_t at) {
    const std::size_t begin = at;
    if (!may_begin_number(text.substr(0, at)))
        return begin;
    const auto rest = text.substr(at);
    if (rest.starts_with(true_minus))
        at += true_minus.size();
    else if (rest.starts_with('-'))
        ++at;
    if (!is_digit(text, at))
        return begin;
    while (is_digit(text, at))
        ++at;
    if (at < text.size() && text[at] == '.' && is_digit(text, at + 1))
        do
            ++at;
        while (is_digit(text, at));
    const bool goes_on =
        is_letter(text, at) || (at < text.size() && text[at] == '.' && is_digit(text, at + 1));
    return goes_on ? begin : at;
}

void add_words(std::vector<Part>& parts, std::string_view text) {
    std::size_t from = 0, at = 0;
    while (at < text.size()) {
        const std::size_t end = end_of_number(text, at);
        if (end == at) {
            ++at;
            continue;
        }
        if (at > from)
            parts.push_back({Part::Kind::Words, std::string(text.substr(from, at - from))});
        parts.push_back({Part::Kind::Number, std::string(text.substr(at, end - at))});
        from = at = end;
    }
    if (at > from)
        parts.push_back({Part::Kind::Words, std::string(text.substr(from))});
}

} // namespace

bool is_letter(std::string_view text, std::size_t at) {
    return at < text.size() && (std::isalpha(static_cast<unsigned char>(text[at])) != 0 || text[at] == '_');
}

std::vector<Part> parts_of(const Label& label) {
    std::vector<Part> parts;
    std::string words; // of runs side by side, which are one text
    const auto flush = [&] {
        add_words(parts, words);
        words.clear();
    };
    for (std::size_t k = 0; k < label.size(); ++k) {
        if (label[k].script == Run::Script::Upright) {
            words += label[k].text;
            continue;
        }
        flush();
        Part part{Part::Kind::Symbol, {}, {label[k]}};
        while (k + 1 < label.size() &&
               (label[k + 1].script == Run::Script::Prime || label[k + 1].script == Run::Script::Subscript))
            part.symbol.push_back(label[++k]);
        part.text = text_of(part.symbol);
        parts.push_back(std::move(part));
    }
    flush();
    return parts;
}

} // namespace interpile::postprocess
