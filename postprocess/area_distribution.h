#pragma once
// Which share of an area has less than a value.

#include <Eigen/Core>

#include <utility>
#include <vector>

namespace interpile::postprocess {

class AreaDistribution {
public:
    /// Values that are not finite or have no area are left out.
    AreaDistribution(const Eigen::ArrayXd& values, const Eigen::ArrayXd& area_m2);

    bool empty() const { return steps_.empty(); }
    /// Smallest value that at least this share of the area does not exceed; share 0..1. Not if empty.
    double quantile(double share) const;
    /// Share of the area with less than the value [-]. Not if empty.
    double share_below(double value) const;

    /// A value and the share of the area [-] that does not exceed it.
    using Step = std::pair<double, double>;
    const std::vector<Step>& steps() const { return steps_; } ///< ascending

private:
    std::vector<Step> steps_;
};

} // namespace interpile::postprocess
