#include "solver/slice.h"

#include <algorithm>
#include <stdexcept>

namespace interpile::solver {

double effective_overburden_kPa(const std::vector<OverburdenLayer>& layers, double depth_m,
                                double water_table_depth_m) {
    double top = 0;
    double total = gamma_w * std::max(0.0, -water_table_depth_m); // water above the ground
    for (const auto& layer : layers) {
        const double thickness = std::min(layer.thickness_m, depth_m - top);
        if (thickness <= 0)
            break;
        total += layer.unit_weight_kN_m3 * thickness;
        top += layer.thickness_m;
    }
    if (top < depth_m * (1 - 1e-12))
        throw std::invalid_argument("the layers end above the slice");
    const double pore_pressure = gamma_w * std::max(0.0, depth_m - water_table_depth_m);
    return total - pore_pressure;
}

} // namespace interpile::solver
