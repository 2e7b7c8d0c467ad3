#pragma once
// One TOML value to one typed value, checked for type, finiteness and range.

#include "io/case_syntax.h"
#include "io/case_values.h"

#include <optional>

namespace interpile::io {

/// Read `node` as the vocabulary wants it; a fault names `path`.
/// \return empty if there was a fault
std::optional<Value> read_value(const toml::node& node, const KeyInfo& info, const std::string& path,
                                FaultList& faults);

/// The default of a key from its text in the vocabulary.
Value default_value(const KeyInfo& info);

/// The text of a value as it would be written in a case file.
std::string value_text(const Value& value);

/// The characters of the case file at a place.
std::string written_at(const FaultList& faults, const Place& place);

} // namespace interpile::io
