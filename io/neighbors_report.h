#pragma once
// The screening of neighbors in words and columns for the terminal.

#include "io/works_file.h"

#include <string>

namespace interpile::io {

/// \param works  with a plan of neighbors
/// \throws std::invalid_argument  as screen_neighbors
std::string neighbors_report(const WorksFile& works);

} // namespace interpile::io
