#include "postprocess/wording.h"

#include "postprocess/figure_style.h"
#include "postprocess/page.h"

#include <algorithm>
#include <cctype>
#include <string_view>
#include <utility>

namespace interpile::postprocess {

namespace {

constexpr std::string_view true_minus = "\u2212";

/// Part of a label: words, a number among them, or a symbol.
struct Part {
    enum class Kind { Words, Number, Symbol } kind = Kind::Words;
    std::string text;
    Label symbol = {};
};

bool is_digit(std::string_view text, std::size_t at) {
    return at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0;
}

bool is_letter(std::string_view text, std::size_t at) {
    return at < text.size() && (std::isalpha(static_cast<unsigned char>(text[at])) != 0 || text[at] == '_');
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

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(' ');
    return first == std::string_view::npos ? "" : text.substr(first, text.find_last_not_of(' ') + 1 - first);
}

/// Nobody types a blank that keeps words together.
std::string with_plain_blanks(std::string_view text) {
    constexpr std::string_view unbroken = "\u00a0";
    std::string plain;
    for (std::size_t at = 0; at < text.size();)
        if (text.substr(at).starts_with(unbroken)) {
            plain += ' ';
            at += unbroken.size();
        } else {
            plain += text[at++];
        }
    return plain;
}

std::string key_of(const std::vector<Part>& parts) {
    std::string key;
    for (const auto& part : parts)
        key += part.kind == Part::Kind::Number ? "#" : with_plain_blanks(part.text);
    return std::string(trimmed(key));
}

/// Three letters in a row besides a unit; axes have none for the numbers at their ticks.
bool has_words(const std::vector<Part>& parts) {
    return std::any_of(parts.begin(), parts.end(), [](const Part& part) {
        if (part.kind != Part::Kind::Words)
            return false;
        std::string text = part.text;
        if (const auto unit = text.find("kPa"); unit != std::string::npos)
            text.erase(unit, 3);
        int letters = 0;
        return std::any_of(text.begin(), text.end(), [&](unsigned char c) {
            letters = std::isalpha(c) != 0 || c >= 0x80 ? letters + 1 : 0;
            return letters >= 3;
        });
    });
}

/// The translation with the numbers and symbols of the original in their places.
std::vector<Part> translated(const std::vector<Part>& original, std::string_view text) {
    std::vector<Part> parts;
    auto number = original.begin();
    const auto next_number = [&] {
        number = std::find_if(number, original.end(),
                              [](const Part& part) { return part.kind == Part::Kind::Number; });
        return number == original.end() ? Part{Part::Kind::Words, "#"} : *number++;
    };
    std::string words;
    const auto flush = [&] {
        if (!words.empty())
            parts.push_back({Part::Kind::Words, std::exchange(words, {})});
    };
    for (std::size_t at = 0; at < text.size();) {
        const auto symbol = std::find_if(original.begin(), original.end(), [&](const Part& part) {
            return part.kind == Part::Kind::Symbol && text.substr(at).starts_with(part.text) &&
                   (at == 0 || !is_letter(text, at - 1)) && !is_letter(text, at + part.text.size());
        });
        if (symbol != original.end()) {
            flush();
            parts.push_back(*symbol);
            at += symbol->text.size();
        } else if (text[at] == '#') {
            flush();
            parts.push_back(next_number());
            ++at;
        } else {
            words += text[at++];
        }
    }
    flush();
    return parts;
}

/// Decimal commas, and semicolons where a comma would stand between two numbers of which one has decimals.
void set_decimal_comma(std::vector<Part>& parts) {
    const auto decimals = [](const Part& part) {
        return part.kind == Part::Kind::Number && part.text.find('.') != std::string::npos;
    };
    for (std::size_t k = 1; k + 1 < parts.size(); ++k)
        if (parts[k].text == ", " && parts[k - 1].kind == Part::Kind::Number &&
            parts[k + 1].kind == Part::Kind::Number && (decimals(parts[k - 1]) || decimals(parts[k + 1])))
            parts[k].text = "; ";
    for (auto& part : parts)
        if (part.kind == Part::Kind::Number)
            std::replace(part.text.begin(), part.text.end(), '.', ',');
}

std::set<std::string>& drawn() {
    static std::set<std::string> keys;
    return keys;
}

bool is_as_is(const Label& label) {
    return std::any_of(label.begin(), label.end(), [](const Run& run) { return run.as_is; });
}

std::size_t length_of(const Label& label) {
    std::size_t count = 0;
    for (const auto& run : label)
        count += characters(run.text);
    return count;
}

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

std::string label_key(const Label& label) {
    return key_of(parts_of(label));
}

Label worded(const Label& label) {
    if (is_as_is(label))
        return label;
    auto parts = parts_of(label);
    const auto key = key_of(parts);
    if (has_words(parts))
        drawn().insert(key);
    const auto& style = figure_style();
    if (const auto found = style.labels.find(key); found != style.labels.end() && !found->second.empty())
        parts = translated(parts, found->second);
    if (style.decimal_comma)
        set_decimal_comma(parts);
    Label words;
    for (const auto& part : parts) {
        if (part.kind == Part::Kind::Symbol)
            words.insert(words.end(), part.symbol.begin(), part.symbol.end());
        else if (!words.empty() && words.back().script == Run::Script::Upright)
            words.back().text += part.text;
        else
            words.push_back({part.text});
    }
    for (auto& run : words)
        run.as_is = true;
    return words;
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

const std::set<std::string>& drawn_labels() {
    return drawn();
}

} // namespace interpile::postprocess
