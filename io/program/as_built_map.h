#pragma once
// From what was built on a site to its map.

#include "io/as_built_site.h"
#include "postprocess/figures/weak_spots_map.h"

namespace interpile::program {

/// \param works  with [as_built]
postprocess::WeakSpotsMap as_built_map(const io::WorksFile& works, const io::AsBuiltSite& site);

} // namespace interpile::program
