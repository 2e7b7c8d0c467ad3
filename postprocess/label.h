#pragma once
// A line of text with symbols: what to write, not where.

#include <string>
#include <string_view>
#include <vector>

namespace interpile::postprocess {

/// Part of a line. A prime stands above the subscript that follows it.
struct Run {
    enum class Script { Upright, Italic, Subscript, Prime };
    std::string text; ///< UTF-8
    Script script = Script::Upright;
    bool as_is = false; ///< not to be put into the words of the figure style
    bool operator==(const Run&) const = default;
};
using Label = std::vector<Run>;

/// Text as it is, underscores included (a user's title must not turn into subscripts).
Label plain(std::string_view text);

/// Words of the user, which no table of labels translates.
Label own_words(std::string_view text);

/// A symbol of mesh::field_table(): "D_r", "σ_h1'", "p'", "τ_xy". Letters before '_' italic, letters and
/// digits after it as subscript, an apostrophe as a true prime.
Label symbol(std::string_view text);

/// A sentence in which every word "D_r", "F_L", "a_s", "r_u", "P_L", "F_c", "K_0", "e_max", "e_min" or "σ_v'" is the symbol;
/// not in a key ("relations.e_max").
Label sentence(std::string_view text);

/// The text that symbol() and plain() make the label of.
std::string text_of(const Label& label);

Label operator+(Label left, const Label& right);

/// A number with three significant digits and no exponent.
std::string rounded(double value);

/// A number with exactly `decimals` decimals and a true minus sign.
std::string number(double value, int decimals);

} // namespace interpile::postprocess
