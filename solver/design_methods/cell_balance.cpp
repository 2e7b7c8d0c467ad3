#include "solver/design_methods/cell_balance.h"

#include "solver/number_check.h"

#include <limits>

namespace interpile::solver {
namespace {

constexpr double any = std::numeric_limits<double>::max();

void check(const CellChange& change) {
    require_positive("void_ratio_before", change.void_ratio_before);
    require_positive("void_ratio_after", change.void_ratio_after);
    require_between("replacement_ratio", change.replacement_ratio, 0, 1);
    require_positive("1 - replacement_ratio", 1 - change.replacement_ratio);
    require_positive("1 + lateral_expansion", 1 + change.lateral_expansion);
}

double subsidence_strain(double subsidence_m, double depth_m) {
    require_positive("depth_m", depth_m);
    require_between("subsidence_m", subsidence_m, 0, depth_m);
    return subsidence_m / depth_m;
}

} // namespace

double replacement_without_heave(double void_ratio_before, double void_ratio_after) {
    require_positive("void_ratio_before", void_ratio_before);
    require_positive("void_ratio_after", void_ratio_after);
    return (void_ratio_before - void_ratio_after) / (1 + void_ratio_before);
}

double void_ratio_after(double void_ratio_before, double replacement_ratio, double efficiency) {
    require_positive("void_ratio_before", void_ratio_before);
    require_between("replacement_ratio", replacement_ratio, 0, 1);
    require_positive("efficiency", efficiency);
    return void_ratio_before - efficiency * replacement_ratio * (1 + void_ratio_before);
}

double efficiency(const CellChange& change) {
    check(change);
    require_positive("replacement_ratio", change.replacement_ratio);
    return replacement_without_heave(change.void_ratio_before, change.void_ratio_after) /
           change.replacement_ratio;
}

double heave_strain(const CellChange& change) {
    check(change);
    return (1 + change.void_ratio_after) / ((1 + change.void_ratio_before) * (1 - change.replacement_ratio) *
                                            (1 + change.lateral_expansion)) -
           1;
}

double heave_by_efficiency_m(double layer_m, double replacement_ratio, double efficiency) {
    require_between("layer_m", layer_m, 0, any);
    require_between("replacement_ratio", replacement_ratio, 0, 1);
    require_positive("efficiency", efficiency);
    return (1 - efficiency) * layer_m * replacement_ratio;
}

double replacement_with_subsidence(double void_ratio_before, double void_ratio_after, double subsidence_m,
                                   double depth_m) {
    return replacement_without_heave(void_ratio_before, void_ratio_after) -
           subsidence_strain(subsidence_m, depth_m);
}

double replacement_with_subsidence_exact(double void_ratio_before, double void_ratio_after,
                                         double subsidence_m, double depth_m) {
    const double kept = 1 - subsidence_strain(subsidence_m, depth_m);
    require_positive("1 - subsidence_m/depth_m", kept);
    return 1 - (1 - replacement_without_heave(void_ratio_before, void_ratio_after)) / kept;
}

} // namespace interpile::solver
