#include "solver/design_methods/spacing.h"

#include "solver/number_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace interpile::solver {
namespace {

/// Cell area over spacing squared [-].
double area_factor(const CellShape& shape) {
    switch (shape.pattern) {
    case mesh::Pattern::Square:
        return 1;
    case mesh::Pattern::Triangular:
        return std::numbers::sqrt3 / 2;
    case mesh::Pattern::Rectangular:
        require_positive("row_spacing_ratio", shape.row_spacing_ratio);
        return shape.row_spacing_ratio;
    case mesh::Pattern::Listed:
        break;
    }
    throw std::invalid_argument("listed piles have no cell and no replacement ratio");
}

void require_apart(const CellShape& shape, double spacing_m, double diameter_m) {
    const double ratio = shape.pattern == mesh::Pattern::Rectangular ? shape.row_spacing_ratio : 1;
    const double nearest_m = spacing_m * std::min(1.0, ratio);
    if (nearest_m < diameter_m)
        throw std::invalid_argument(fmt::format(
            "piles of diameter {:.3f} m would overlap at a distance of {:.3f} m", diameter_m, nearest_m));
}

double pile_area_m2(double diameter_m) {
    require_positive("diameter_m", diameter_m);
    return std::numbers::pi / 4 * diameter_m * diameter_m;
}

} // namespace

double replacement_ratio(const CellShape& shape, double spacing_m, double diameter_m) {
    require_positive("spacing_m", spacing_m);
    const double ratio = pile_area_m2(diameter_m) / (area_factor(shape) * spacing_m * spacing_m);
    require_apart(shape, spacing_m, diameter_m);
    return ratio;
}

double spacing_m(const CellShape& shape, double replacement_ratio, double diameter_m) {
    require_positive("replacement_ratio", replacement_ratio);
    require_positive("1 - replacement_ratio", 1 - replacement_ratio);
    const double spacing = std::sqrt(pile_area_m2(diameter_m) / (area_factor(shape) * replacement_ratio));
    require_apart(shape, spacing, diameter_m);
    return spacing;
}

double practical_spacing_m(double spacing_m, double step_m) {
    require_positive("spacing_m", spacing_m);
    require_positive("step_m", step_m);
    const double steps = std::floor(spacing_m / step_m * (1 + 1e-12)); // 1.70/0.05 must stay 34
    require_positive("whole steps in spacing_m", steps);
    return steps * step_m;
}

} // namespace interpile::solver
