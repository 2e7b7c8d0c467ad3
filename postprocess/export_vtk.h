#pragma once
// Results for any open visualizer: one .vtu per stage and a .pvd that lists them.

#include "io/results_reader.h"

#include <filesystem>
#include <vector>

namespace interpile::postprocess {

/// Write FOLDER/CASE.pvd and FOLDER/CASE_000.vtu ... (cells at their current place, every cell field, nodal
/// displacement as a vector). The time value of the .pvd is the time of the stage [s], without flow of water the number of
/// piles finished.
/// \return the files written
/// \throws io::FileTrouble if the folder cannot be written
std::vector<std::filesystem::path> export_vtk(const io::ResultsReader& results,
                                              const std::filesystem::path& folder);

} // namespace interpile::postprocess
