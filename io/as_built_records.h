#pragma once
// Logs of casings as CSV, one row per sample.

#include "io/fault_list.h"
#include "solver/works/as_built.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::io {

/// Records by pile, in the order of first appearance; rows of several piles may alternate.
/// Head: pile, time_s, tip_depth_m, sand_volume_m3 and, if recorded, driving_resistance_kN, inclination_deg, in any
/// order; cells of the last two may be empty. Decimal points, commas between cells, UTF-8 with or without a byte order
/// mark; blank lines are skipped.
/// Within a pile time and sand volume (cumulative) never fall; tip depth 0 .. 100 m; at least two samples.
/// \param text  content of the file
/// \param file  as named in messages
/// \throws CaseFaults  the first 50 faults with line and column, and how many follow
std::vector<solver::AsBuiltRecord> parse_as_built_records(std::string text,
                                                          const std::filesystem::path& file);

/// The same from a file.
/// \throws CaseFaults  as above
/// \throws FileTrouble  if it cannot be read
std::vector<solver::AsBuiltRecord> read_as_built_records(const std::filesystem::path& file);

/// For a table named in a works file: adds its faults to those of that file; then the records must not be used. A pile
/// that is not among the ordered ones is a fault.
/// \throws FileTrouble  if it cannot be read
std::vector<solver::AsBuiltRecord> read_as_built_records(const std::filesystem::path& file,
                                                         const std::vector<std::string>& ordered,
                                                         FaultList& faults);

} // namespace interpile::io
