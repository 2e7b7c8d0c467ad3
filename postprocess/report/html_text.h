#pragma once
// Text in HTML.

#include <string>
#include <string_view>

namespace interpile::postprocess::report {

/// Marks of HTML as entities; control characters, which no page may hold, left out.
std::string escaped(std::string_view text);

/// The same with symbols in italics and subscripts.
std::string set_sentence(std::string_view text);

} // namespace interpile::postprocess::report
