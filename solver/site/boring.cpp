#include "solver/site/boring.h"

#include "solver/number_check.h"
#include "solver/slice.h"

#include <algorithm>
#include <stdexcept>

namespace interpile::solver {

std::vector<DepthInterval> sample_intervals(const Boring& boring) {
    const auto& samples = boring.samples;
    if (samples.empty())
        throw std::invalid_argument("the boring has no samples");
    std::vector<DepthInterval> intervals(samples.size());
    require_between("depth_m", samples.front().depth_m, 0, std::numeric_limits<double>::max());
    for (std::size_t i = 0; i + 1 < samples.size(); ++i) {
        if (!(samples[i + 1].depth_m > samples[i].depth_m))
            throw std::invalid_argument("the depths of the samples must rise");
        intervals[i].bottom_m = intervals[i + 1].top_m = (samples[i].depth_m + samples[i + 1].depth_m) / 2;
    }
    intervals.back().bottom_m = 2 * samples.back().depth_m - intervals.back().top_m;
    return intervals;
}

std::vector<VerticalStress> vertical_stresses(const Boring& boring, double water_depth_m) {
    require_finite("water_depth_m", water_depth_m);
    const auto intervals = sample_intervals(boring);
    std::vector<VerticalStress> stresses;
    double above = std::max(0.0, -water_depth_m) * gamma_w; // total stress at the top of the interval
    for (std::size_t i = 0; i < intervals.size(); ++i) {
        const BoringSample& sample = boring.samples[i];
        require_positive("unit_weight_kN_m3", sample.unit_weight_kN_m3);
        const double total = above + sample.unit_weight_kN_m3 * (sample.depth_m - intervals[i].top_m);
        const double water = std::max(0.0, sample.depth_m - water_depth_m) * gamma_w;
        require_positive("effective_stress_kPa", total - water);
        stresses.push_back({total, total - water});
        above += sample.unit_weight_kN_m3 * (intervals[i].bottom_m - intervals[i].top_m);
    }
    return stresses;
}

} // namespace interpile::solver
