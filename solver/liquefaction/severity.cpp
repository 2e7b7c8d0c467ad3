#include "solver/liquefaction/severity.h"

#include "solver/number_check.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace interpile::solver {
namespace {

constexpr double any = std::numeric_limits<double>::max();
constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double index_depth_m = 20;

void check_order(std::span<const JudgedSlab> slabs) {
    for (std::size_t i = 1; i < slabs.size(); ++i)
        if (slabs[i].top_m < slabs[i - 1].bottom_m)
            throw std::invalid_argument("slabs overlap or are not in order of depth");
}

void check_slab(double top_m, double bottom_m) {
    require_between("top_m", top_m, 0, any);
    require_between("bottom_m", bottom_m, 0, any);
    require_positive("bottom_m - top_m", bottom_m - top_m);
}

} // namespace

double index_weight_m(double top_m, double bottom_m) {
    check_slab(top_m, bottom_m);
    const double a = std::min(top_m, index_depth_m);
    const double b = std::min(bottom_m, index_depth_m);
    return 10 * (b - a) - (b * b - a * a) / 4;
}

double liquefaction_potential_index(std::span<const JudgedSlab> slabs) {
    check_order(slabs);
    double index = 0;
    for (const JudgedSlab& slab : slabs) {
        require_between("safety_factor", slab.safety_factor, 0, infinite);
        index += std::max(0.0, 1 - slab.safety_factor) * index_weight_m(slab.top_m, slab.bottom_m);
    }
    return index;
}

Severity severity_class(double liquefaction_potential_index) {
    const double rounding = 1e-9; // a sum over slabs that comes to 100
    require_between("liquefaction_potential_index", liquefaction_potential_index, 0, 100 + rounding);
    if (liquefaction_potential_index <= 0)
        return Severity::VeryLow;
    if (liquefaction_potential_index <= 5)
        return Severity::Low;
    return liquefaction_potential_index <= 15 ? Severity::High : Severity::VeryHigh;
}

const char* severity_name(Severity severity) {
    switch (severity) {
    case Severity::VeryLow:
        return "very low";
    case Severity::Low:
        return "low";
    case Severity::High:
        return "high";
    case Severity::VeryHigh:
        return "very high";
    }
    throw std::invalid_argument("unknown class of severity");
}

LiquefactionStrain liquefaction_strain(double clean_sand_blow_count, double safety_factor) {
    require_between("clean_sand_blow_count", clean_sand_blow_count, 0, any);
    require_between("safety_factor", safety_factor, 0, infinite);
    const double n = clean_sand_blow_count;
    const double fs = safety_factor;
    const double curved = std::max(7.0, n);

    LiquefactionStrain strain;
    strain.limiting_shear = 1.859 * std::pow(std::max(0.0, 1.1 - std::sqrt(n / 46)), 3);
    strain.f_alpha = 0.032 + 0.69 * std::sqrt(curved) - 0.13 * curved;
    if (fs >= 2)
        strain.largest_shear = 0;
    else if (fs > strain.f_alpha)
        strain.largest_shear =
            std::min(strain.limiting_shear, 0.035 * (2 - fs) * (1 - strain.f_alpha) / (fs - strain.f_alpha));
    else
        strain.largest_shear = strain.limiting_shear;
    strain.volumetric = 1.5 * std::exp(-0.369 * std::sqrt(n)) * std::min(0.08, strain.largest_shear);
    return strain;
}

double liquefaction_settlement_m(std::span<const JudgedSlab> slabs) {
    check_order(slabs);
    double settlement_m = 0;
    for (const JudgedSlab& slab : slabs) {
        check_slab(slab.top_m, slab.bottom_m);
        settlement_m += (slab.bottom_m - slab.top_m) *
                        liquefaction_strain(slab.clean_sand_blow_count, slab.safety_factor).volumetric;
    }
    return settlement_m;
}

} // namespace interpile::solver
