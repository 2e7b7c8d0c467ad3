#pragma once
// What a label is made of: words, the numbers among them, symbols.

#include "postprocess/label.h"

#include <string>
#include <string_view>
#include <vector>

namespace interpile::postprocess {

struct LabelPart {
    enum class Kind { Words, Number, Symbol } kind = Kind::Words;
    std::string text;
    Label symbol = {};
};

/// A number that touches a letter ("N1") or has two points ("0.1.0") is part of a word.
std::vector<LabelPart> parts_of(const Label& label);

/// An ASCII letter or an underscore stands there.
bool is_letter(std::string_view text, std::size_t at);

} // namespace interpile::postprocess
