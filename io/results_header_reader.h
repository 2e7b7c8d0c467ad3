#pragma once
// The part of a results file that was written before the first stage, read back.

#include "io/hdf5.h"
#include "io/results_reader.h"

namespace interpile::io {

/// \throws FileTrouble if something is missing or does not fit
ResultsHeader read_results_header(const hdf5::File& file);

} // namespace interpile::io
