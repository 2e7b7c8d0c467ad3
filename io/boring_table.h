#pragma once
// The samples of a boring as CSV, one row per blow count.

#include "io/fault_list.h"
#include "solver/site/boring.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::io {

/// Two blow counts farther apart than this may have missed a layer between them [m]; own choice.
inline constexpr double largest_depth_step_m = 5;

/// Head, in any order: depth_m (0.05 .. 100), blow_count (0 .. 100), fines_pct (0 .. 100), unit_weight_kN_m3 (total,
/// 9.81 .. 26); and, if known: d50_mm, d20_mm, d10_mm (1e-4 .. 100), soil (text), kind (sand, clay, silt), e_max, e_min,
/// void_ratio (0.2 .. 3), overconsolidation_ratio (1 .. 50), friction_angle_deg (20 .. 55), permeability_m_s
/// (1e-10 .. 1), lateral_stress_ratio (0.2 .. 3); their cells may be empty. Form of the table: io/csv_table.h.
/// A sample is not sand where kind says clay or silt, or fines_pct is above 50.
/// Depth rises by at most largest_depth_step_m; e_min < e_max; d10 <= d20 <= d50; some row is sand.
/// \param text  content of the file
/// \param file  as named in messages
/// \throws CaseFaults  all faults of the table
std::vector<solver::BoringSample> parse_boring_table(std::string text, const std::filesystem::path& file);

/// The same from a file.
/// \throws CaseFaults  as above
/// \throws FileTrouble  if it cannot be read
std::vector<solver::BoringSample> read_boring_table(const std::filesystem::path& file);

/// For a table named in another file: adds its faults to those of that file; then the samples must not be used.
/// \throws FileTrouble  if it cannot be read
std::vector<solver::BoringSample> read_boring_table(const std::filesystem::path& file, FaultList& faults);

} // namespace interpile::io
