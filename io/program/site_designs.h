#pragma once
// The designs of all borings of a site.

#include "io/site_file.h"

#include <vector>

namespace interpile::program {

/// By boring, and the mean boring last where the cases are made for it.
std::vector<solver::BoringDesign> designs_of(const io::SiteFile& site);

} // namespace interpile::program
