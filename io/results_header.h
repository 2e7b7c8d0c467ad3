#pragma once
// The part of a results file that is written before the first stage: what is computed, and empty datasets for
// all that will come.

#include "io/case_file.h"
#include "io/hdf5.h"
#include "mesh/grid.h"

#include <map>
#include <string>

namespace interpile::io {

/// Datasets that grow during the run, by path.
using GrowingDatasets = std::map<std::string, hdf5::Dataset>;

/// Bytes of one row of /warnings; a longer text is cut.
constexpr std::size_t warning_bytes = 480;

/// Write everything known before the run into a new file and declare the rest.
/// \param densifies_by_cycles  of the soil model
/// \param started  ISO 8601, UTC
/// \throws FileTrouble
GrowingDatasets write_results_header(const hdf5::File& file, const Case& run_case, const mesh::Grid& grid,
                                     bool densifies_by_cycles, const std::string& started);

} // namespace interpile::io
