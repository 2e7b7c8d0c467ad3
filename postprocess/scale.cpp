#include "postprocess/scale.h"

#include "postprocess/area_distribution.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace interpile::postprocess {

namespace {

/// Step of the form factor x 10^n, not smaller than `least`.
struct Step {
    double size = 1;
    int decimals = 0;
};

Step round_step(double least, const std::vector<double>& factors) {
    const int power = static_cast<int>(std::floor(std::log10(least) + 1e-9));
    for (double factor : factors)
        if (const double size = factor * std::pow(10.0, power); size >= least * (1 - 1e-9)) {
            const bool half = factor != std::round(factor); // 2.5 needs one decimal more
            return {size, std::max(0, (half ? 1 : 0) - power)};
        }
    return {std::pow(10.0, power + 1), std::max(0, -power - 1)};
}

const std::vector<double> wanted_steps = {1, 1.5, 2, 2.5, 3, 4, 5, 6, 8};

std::vector<double> multiples(double step, double first, double last) {
    std::vector<double> value;
    for (double k = first; k <= last; ++k)
        value.push_back(k * step + 0.0); // + 0.0: no negative zero
    return value;
}

} // namespace

Ticks round_ticks(double low, double high, int most) {
    const auto step = round_step((high - low) / most, {1, 2, 5});
    const double slack = 1e-9 * (high - low) / step.size;
    return {multiples(step.size, std::ceil(low / step.size - slack), std::floor(high / step.size + slack)),
            step.decimals};
}

int BandScale::band(double value) const {
    const auto above = std::upper_bound(level.begin(), level.end(), value) - level.begin();
    const int band = static_cast<int>(above) - (open_low ? 0 : 1);
    return std::clamp(band, 0, band_count() - 1);
}

BandScale band_scale(const Eigen::ArrayXd& values, const Eigen::ArrayXd& weight, double least_range,
                     int most_bands) {
    const AreaDistribution distribution(values, weight);
    if (distribution.empty())
        throw std::invalid_argument("no ground with finite values to draw");
    double low = distribution.quantile(0.01), high = distribution.quantile(0.99);
    // A uniform field (the slice before the first pile) still gets a scale, on which it is one color.
    const double size = std::max(std::abs(low), std::abs(high));
    least_range = std::max(least_range, size > 1e-12 ? 1e-3 * size : 1e-3);
    if (high - low < least_range) {
        const double middle = 0.5 * (low + high);
        low = low < 0 ? middle - 3 * least_range : std::max(0.0, middle - 3 * least_range);
        high = middle + 3 * least_range;
    }
    // n steps that need not begin at a multiple of their size reach into n + 1 bands.
    const auto step = most_bands > 0 ? round_step((high - low) / (most_bands - 1), wanted_steps)
                                     : round_step((high - low) / 9, {1, 2, 2.5, 5});
    return fixed_scale(
        multiples(step.size, std::floor(low / step.size + 1e-6), std::ceil(high / step.size - 1e-6)),
        step.decimals, values);
}

BandScale difference_scale(const Eigen::ArrayXd& values, const Eigen::ArrayXd& weight, double least_half_step,
                           int most_bands) {
    const AreaDistribution distribution(values.abs(), weight);
    if (distribution.empty())
        throw std::invalid_argument("no ground with finite values to draw");
    const int bands = most_bands > 0 ? most_bands - 1 + most_bands % 2 : 7;
    const auto half =
        round_step(std::max({distribution.quantile(0.99) / bands, least_half_step, 1e-12}), wanted_steps);
    std::vector<double> level;
    for (int k = -bands; k <= bands; k += 2)
        level.push_back(k * half.size);
    auto scale = fixed_scale(std::move(level), half.decimals, values);
    scale.about_zero = true;
    return scale;
}

BandScale fixed_scale(std::vector<double> level, int decimals, const Eigen::ArrayXd& values) {
    BandScale scale;
    scale.level = std::move(level);
    scale.decimals = decimals;
    scale.least = *std::min_element(values.begin(), values.end());
    scale.most = *std::max_element(values.begin(), values.end());
    const double rounding = 1e-9 * (scale.level.back() - scale.level.front());
    scale.open_low = scale.least < scale.level.front() - rounding;
    scale.open_high = scale.most > scale.level.back() + rounding;
    return scale;
}

} // namespace interpile::postprocess
