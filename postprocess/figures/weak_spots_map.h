#pragma once
// Plan of built piles: where they stand as ordered, where they deviate, where records are missing.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

enum class SpotGrade { AsOrdered, Deviates, NotRecorded };

struct MapPile {
    std::string name;
    Vec2 ordered_m = {0, 0};
    Vec2 built_m = {0, 0}; ///< of a pile not recorded it may be NaN: drawn where it was ordered
    double diameter_m = 0;
    SpotGrade grade = SpotGrade::AsOrdered;
    std::string remark; ///< short ("short 0.6 m"), beside piles that are not as ordered
};

struct WeakSpotsMap {
    std::string title;
    std::string subtitle;
    std::string source; ///< program and file, at the foot
    std::vector<std::string> warnings, notes;
    std::vector<MapPile> piles;
};

/// \throws std::invalid_argument without piles, or if a pile has no place or no diameter
Drawing weak_spots_map(const WeakSpotsMap& map);

} // namespace interpile::postprocess
