#pragma once
// The chart of design method A as CSV, one row per point read off it.

#include "io/fault_list.h"
#include "solver/design_methods/blow_count_chart.h"

#include <filesystem>
#include <optional>
#include <string>

namespace interpile::io {

/// Head, in any order: blow_count_before (0 .. 100), replacement_ratio (0 .. 1, a fraction; equal values make one
/// curve), blow_count_after (0 .. 100). Rows in any order. Form of the table: io/csv_table.h.
/// \param text  content of the file
/// \param file  as named in messages
/// \throws CaseFaults  all faults of the table; if there are none, what solver::BlowCountChart refuses first
solver::BlowCountChart parse_chart_table(std::string text, const std::filesystem::path& file);

/// The same from a file.
/// \throws CaseFaults  as above
/// \throws FileTrouble  if it cannot be read
solver::BlowCountChart read_chart_table(const std::filesystem::path& file);

/// For a table named in another file: adds its faults to those of that file; empty if there are any in the table.
/// \throws FileTrouble  if it cannot be read
std::optional<solver::BlowCountChart> read_chart_table(const std::filesystem::path& file, FaultList& faults);

} // namespace interpile::io
