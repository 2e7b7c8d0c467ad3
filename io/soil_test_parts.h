#pragma once
// Parts of reading a file of laboratory tests.

#include "io/fault_list.h"
#include "io/soil_test_file.h"

namespace interpile::io {

/// Measured points from a CSV file whose heads are names of curve_columns(); a fault names row and column.
/// \throws FileTrouble if it cannot be read
std::vector<solver::LaboratoryPoint> read_measured(const std::filesystem::path& file, FaultList& faults);

} // namespace interpile::io
