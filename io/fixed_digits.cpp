#include "io/fixed_digits.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::io {

std::string fixed(double value, int digits) {
    constexpr double noise = 1e-6; // of the last digit
    const double unit = std::pow(10, digits);
    const double rounded = std::copysign(std::floor(std::abs(value) * unit + 0.5 + noise) / unit, value);
    return fmt::format("{:.{}f}", rounded + 0.0, digits);
}

} // namespace interpile::io
