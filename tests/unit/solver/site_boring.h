#pragma once
// Borings of an invented site.

#include "solver/site/boring.h"

#include <utility>

namespace interpile::solver {

inline BoringSample sand_at(double depth_m, double blow_count, double fines_pct = 5,
                            double unit_weight_kN_m3 = 18) {
    BoringSample sample;
    sample.depth_m = depth_m;
    sample.blow_count = blow_count;
    sample.fines_pct = fines_pct;
    sample.unit_weight_kN_m3 = unit_weight_kN_m3;
    return sample;
}

inline BoringSample clay_at(double depth_m) {
    BoringSample sample = sand_at(depth_m, 3, 85, 16.5);
    sample.sand = false;
    return sample;
}

inline Boring boring_of(std::vector<BoringSample> samples, double water_depth_m, double quake_water_depth_m) {
    Boring boring;
    boring.name = "X-1";
    boring.water_depth_m = water_depth_m;
    boring.quake_water_depth_m = quake_water_depth_m;
    boring.samples = std::move(samples);
    return boring;
}

/// Loose sand with fines and a clay below water; the first blow count above the water of the earthquake.
inline Boring loose_boring() {
    return boring_of({sand_at(0.5, 8), sand_at(2, 6, 12), sand_at(4, 7, 20, 18.5), clay_at(6),
                      sand_at(8, 10, 5, 19), sand_at(10, 30, 3, 19.5)},
                     2, 1);
}

} // namespace interpile::solver
