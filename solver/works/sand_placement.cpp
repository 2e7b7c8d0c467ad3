#include "solver/works/sand_placement.h"

#include <algorithm>
#include <utility>

namespace interpile::solver {
namespace {

constexpr double thin_m = 1e-6; // sand discharged at rest lies just above the tip

class Placement {
public:
    explicit Placement(const std::vector<AsBuiltSample>& samples) : samples_(samples) {}

    /// What left the casing between two samples, evenly over a depth range.
    void spread(std::size_t first, std::size_t last, double from_m, double to_m) {
        const double volume_m3 = samples_[last].sand_volume_m3 - samples_[first].sand_volume_m3;
        if (volume_m3 > 0)
            sand_.push_back({std::min(from_m, to_m - thin_m), to_m, volume_m3});
    }

    void along(std::size_t first, std::size_t last) {
        for (std::size_t i = first; i < last; ++i) {
            const auto [from_m, to_m] = std::minmax(samples_[i].tip_depth_m, samples_[i + 1].tip_depth_m);
            spread(i, i + 1, from_m, to_m);
        }
    }

    std::vector<PlacedSand> take() { return std::move(sand_); }

private:
    const std::vector<AsBuiltSample>& samples_;
    std::vector<PlacedSand> sand_;
};

} // namespace

std::vector<PlacedSand> placed_sand(const std::vector<AsBuiltSample>& samples, const std::vector<Leg>& legs,
                                    SandPlace rule) {
    Placement placement(samples);
    for (std::size_t i = 0; i < legs.size(); ++i) {
        const auto [first, last, going_down] = legs[i];
        const bool stroke = !going_down && i + 1 < legs.size();
        if (rule == SandPlace::WithinNetRise && stroke) {
            const std::size_t end = legs[i + 1].last;
            if (samples[end].tip_depth_m < samples[first].tip_depth_m) {
                placement.spread(first, end, samples[end].tip_depth_m, samples[first].tip_depth_m);
                ++i; // the re-drive is part of the stroke
                continue;
            }
        }
        placement.along(first, last);
    }
    return placement.take();
}

double sand_between(const std::vector<PlacedSand>& sand, double top_depth_m, double bottom_depth_m) {
    double sum_m3 = 0;
    for (const auto& [from_m, to_m, volume_m3] : sand) {
        const double common_m = std::min(to_m, bottom_depth_m) - std::max(from_m, top_depth_m);
        sum_m3 += volume_m3 * std::max(0.0, common_m) / (to_m - from_m);
    }
    return sum_m3;
}

} // namespace interpile::solver
