#pragma once
// One stage as an unstructured grid file.

#include "io/results_reader.h"

#include <filesystem>
#include <functional>
#include <vector>

namespace interpile::postprocess {

/// Write one .vtu: quadrilaterals at their current place, every cell field under its name of
/// mesh::field_table(), point vector "displacement_m" (current less initial position), field data
/// "piles_finished" and "converged". Appended raw data, zlib; equal input gives equal bytes.
/// \throws io::FileTrouble
void write_vtk_stage(const io::ResultsHeader& header, const io::ResultsStage& stage,
                     const std::filesystem::path& file);

/// export_vtk for stages from anywhere; they are asked for one by one.
std::vector<std::filesystem::path> export_vtk(const io::ResultsHeader& header, int stage_count,
                                              const std::function<io::ResultsStage(int)>& stage_at,
                                              const std::filesystem::path& folder);

} // namespace interpile::postprocess
