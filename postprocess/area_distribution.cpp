#include "postprocess/area_distribution.h"

#include <algorithm>
#include <cmath>

namespace interpile::postprocess {

AreaDistribution::AreaDistribution(const Eigen::ArrayXd& values, const Eigen::ArrayXd& area_m2) {
    for (Eigen::Index i = 0; i < values.size(); ++i)
        if (std::isfinite(values[i]) && area_m2[i] > 0)
            steps_.emplace_back(values[i], area_m2[i]);
    std::sort(steps_.begin(), steps_.end());
    double total = 0, sum = 0;
    for (const auto& [value, area] : steps_)
        total += area;
    for (auto& [value, share] : steps_)
        share = (sum += share) / total;
}

double AreaDistribution::quantile(double share) const {
    for (const auto& [value, reached] : steps_)
        if (reached >= share)
            return value;
    return steps_.back().first;
}

double AreaDistribution::share_below(double value) const {
    const auto first_above =
        std::lower_bound(steps_.begin(), steps_.end(), value,
                         [](const Step& step, double limit) { return step.first < limit; });
    return first_above == steps_.begin() ? 0 : std::prev(first_above)->second;
}

} // namespace interpile::postprocess
