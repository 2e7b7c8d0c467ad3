#pragma once
// From the text of a case file to a TOML table, with the faults of writing.

// The library is linked: its header-only form aborts the program on some bad input.
#define TOML_HEADER_ONLY 0
#include "io/fault_list.h"

#include <toml++/toml.h>

namespace interpile::io {

/// Parse the text of `faults`. A line with a fault is left out and the rest is read on, so that several
/// faults show at once; where that is not safe (an open bracket or text over several lines) reading ends with
/// the first.
/// \return whether the remaining table is worth checking: true also if only repeated keys or
/// tables were left out
bool parse_toml(FaultList& faults, toml::table& table);

/// Region of a value or key as a place; the width is 1 where it spans lines.
Place place_of(const toml::source_region& region);

} // namespace interpile::io
