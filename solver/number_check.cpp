#include "solver/number_check.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace interpile::solver {

void require_between(const char* name, double value, double low, double high) {
    if (!(value >= low && value <= high))
        throw std::invalid_argument(fmt::format("{} = {} is outside {} .. {}", name, value, low, high));
}

void require_positive(const char* name, double value) {
    if (!(value > 0 && std::isfinite(value)))
        throw std::invalid_argument(fmt::format("{} = {} must be larger than 0", name, value));
}

void require_finite(const char* name, double value) {
    if (!std::isfinite(value))
        throw std::invalid_argument(fmt::format("{} = {} must be a finite number", name, value));
}

} // namespace interpile::solver
