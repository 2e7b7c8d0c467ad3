#include "postprocess/label.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace interpile::postprocess {

Label plain(std::string_view text) {
    return {{std::string(text), Run::Script::Upright}};
}

Label own_words(std::string_view text) {
    return {{std::string(text), Run::Script::Upright, true}};
}

Label symbol(std::string_view text) {
    const auto prime_at = text.find('\'');
    const auto letters = text.substr(0, prime_at);
    const auto underscore = letters.find('_');
    Label label;
    if (!letters.empty())
        label.push_back({std::string(letters.substr(0, underscore)), Run::Script::Italic});
    if (prime_at != std::string_view::npos)
        label.push_back({"\u2032", Run::Script::Prime});
    if (underscore != std::string_view::npos)
        label.push_back({std::string(letters.substr(underscore + 1)), Run::Script::Subscript});
    return label;
}

Label sentence(std::string_view text) {
    for (const std::string_view word :
         {"D_r", "F_L", "a_s", "r_u", "P_L", "F_c", "K_0", "e_max", "e_min", "σ_v'"}) {
        const auto inside_word = [&](std::size_t at) {
            return at < text.size() &&
                   (std::isalnum(static_cast<unsigned char>(text[at])) || text[at] == '_');
        };
        auto at = text.find(word);
        while (at != std::string_view::npos &&
               (inside_word(at + word.size()) || (at > 0 && (inside_word(at - 1) || text[at - 1] == '.'))))
            at = text.find(word, at + 1);
        if (at != std::string_view::npos)
            return sentence(text.substr(0, at)) + symbol(word) + sentence(text.substr(at + word.size()));
    }
    return text.empty() ? Label() : plain(text);
}

std::string text_of(const Label& label) {
    std::string text;
    bool prime = false; // stands last in the text
    for (const auto& run : label) {
        const bool subscript = run.script == Run::Script::Subscript;
        if (prime && !subscript)
            text += '\'';
        if (run.script == Run::Script::Prime) {
            prime = true;
            continue;
        }
        text += (subscript ? "_" : "") + run.text;
        if (prime && subscript)
            text += '\'';
        prime = false;
    }
    return prime ? text + '\'' : text;
}

Label operator+(Label left, const Label& right) {
    left.insert(left.end(), right.begin(), right.end());
    return left;
}

std::string number(double value, int decimals) {
    auto text = fmt::format("{:.{}f}", value, decimals);
    if (text.find_first_of("123456789") == std::string::npos && text.front() == '-')
        text.erase(0, 1); // no "-0.0"
    if (text.front() == '-')
        text.replace(0, 1, "\u2212");
    return text;
}

std::string rounded(double value) {
    const double size = std::abs(value);
    const int decimals = size < 1e-12 ? 0 : 2 - static_cast<int>(std::floor(std::log10(size)));
    return number(value, std::clamp(decimals, 0, 12));
}

} // namespace interpile::postprocess
