#pragma once
// The horizontal slice before treatment: overburden, stress at rest, density.

#include "mesh/domain.h"
#include "mesh/plan_region.h"

#include <limits>
#include <string>
#include <vector>

namespace interpile::solver {

/// Shared: one vertical strain for the heaving region, such that its mean sigma_v' stays at overburden (the
/// ground heaves as a body). Fixed: no vertical strain; an upper bound of stress, right for single piles in
/// open ground.
enum class VerticalCondition { Shared, Fixed };

constexpr double gamma_w = 9.81; // unit weight of water, kN/m3

/// One layer above (or around) the slice, top down.
struct OverburdenLayer {
    double thickness_m = 0;
    double unit_weight_kN_m3 = 0; ///< total: moist above the water table, saturated below
};

/// Ground that is looser or denser than the rest before treatment.
struct DensityRegion {
    std::string name;
    mesh::PlanRegion place;
    double void_ratio = 0; ///< e
};

/// Ground state of the slice. Compression positive.
struct Slice {
    double depth_m = 0;
    double vertical_stress_kPa = 0; ///< sigma_v', effective
    double K0 = 0.5;                ///< sigma_h'/sigma_v', both horizontal directions
    double void_ratio = 0;          ///< e, outside the regions
    double e_max = 0.977;
    double e_min = 0.597;
    VerticalCondition vertical = VerticalCondition::Shared;
    /// Shared: the rectangle that heaves; cells outside keep their thickness. Default: the whole slice.
    mesh::Vec2 heaving_low_m = mesh::Vec2::Constant(-std::numeric_limits<double>::infinity());
    mesh::Vec2 heaving_high_m = mesh::Vec2::Constant(std::numeric_limits<double>::infinity());

    std::vector<DensityRegion> regions; ///< where they overlap the later one holds (solver/density_regions.h)

    /// D_r = (e_max - e)/(e_max - e_min) x 100 [%]
    double relative_density_pct(double e) const { return 100 * (e_max - e) / (e_max - e_min); }
    double void_ratio_at(double relative_density_pct) const {
        return e_max - relative_density_pct / 100 * (e_max - e_min);
    }
};

/// Effective vertical stress at a depth: total stress of the layers less hydrostatic water pressure below the
/// water table. A negative water table depth is water above the ground, which loads and buoys alike.
/// \param depth_m    below ground surface; must not be deeper than the layers together
/// \return sigma_v' [kPa]
/// \throws std::invalid_argument if the layers end above the depth
double effective_overburden_kPa(const std::vector<OverburdenLayer>& layers, double depth_m,
                                double water_table_depth_m);

} // namespace interpile::solver
