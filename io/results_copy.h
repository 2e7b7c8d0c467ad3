#pragma once
// The first rows of a results file, copied into a new one.

#include "io/results_header.h"
#include "io/results_writer.h"

#include <filesystem>

namespace interpile::io {

/// Append the first rows of every growing dataset of a results file to those of a new file of the same case.
/// \throws FileTrouble if the file is missing, of another run, or holds less
void copy_rows(const std::filesystem::path& from, const ResultsRows& rows, const GrowingDatasets& to);

} // namespace interpile::io
