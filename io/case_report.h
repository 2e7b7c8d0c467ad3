#pragma once
// What a case says, before anything is computed: configuration, derived numbers, layout, remarks.

#include "io/case_file.h"

#include <string>
#include <vector>

namespace interpile::io {

/// Every value in force, one per line; a default is marked and followed by its source.
std::string configuration_text(const Case& run_case);

/// Numbers that follow from the case: ground state, replacement ratio, strokes, injected area, grid, expected
/// cost.
std::string derived_numbers_text(const Case& run_case);

/// What the reader of a result must know: limits of the soil model and of the plan of strokes. One sentence
/// each.
std::vector<std::string> remarks(const Case& run_case);

/// All of it and the layout, as `check` prints it.
std::string case_report(const Case& run_case);

/// The sentence that stands under every result.
std::string caution();

} // namespace interpile::io
