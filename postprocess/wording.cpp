#include "postprocess/wording.h"

#include "postprocess/figure_style.h"
#include "postprocess/label_parts.h"

#include <algorithm>
#include <cctype>
#include <string_view>
#include <utility>

namespace interpile::postprocess {

namespace {

using Part = LabelPart;

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

const std::set<std::string>& drawn_labels() {
    return drawn();
}

} // namespace interpile::postprocess
