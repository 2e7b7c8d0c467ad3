#pragma once
// Labels broken into lines.

#include "postprocess/label.h"

#include <cstddef>
#include <string>
#include <vector>

namespace interpile::postprocess {

/// Letters of a text, not its bytes.
std::size_t characters(const std::string& utf8);
std::size_t length_of(const Label& label);

/// worded(), broken at spaces into lines of at most so many characters, not between a number and its unit; a longer word
/// keeps its own line. The lines are `as_is`.
std::vector<Label> worded_lines(const Label& label, std::size_t characters);

} // namespace interpile::postprocess
