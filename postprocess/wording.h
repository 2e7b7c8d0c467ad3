#pragma once
// Texts of figures in the language and with the decimal sign of the figure style.

#include "postprocess/label.h"

#include <set>
#include <string>

namespace interpile::postprocess {

/// The text of a label by which a table of labels finds it: without spaces at the ends, each number as "#", blanks that keep words together as blanks, symbols as
/// "D_r" or "σ_v'". A number that touches a letter ("N1") or has two points ("0.1.0") is part of a word.
std::string label_key(const Label& label);

/// The label in the words of figure_style(): its translation, else its own text; numbers with the decimal sign, and with
/// "; " between two of them that a decimal comma would run together. Runs `as_is` stay.
Label worded(const Label& label);

/// Keys of all labels that worded() was asked for since the start; numbers and symbols alone have none.
const std::set<std::string>& drawn_labels();

} // namespace interpile::postprocess
