#include "solver/works/as_built.h"

#include "solver/number_check.h"
#include "solver/works/sand_placement.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace interpile::solver {
namespace {

constexpr double no_end = std::numeric_limits<double>::max();
constexpr double touch_m = 1e-6; // a tip that stops at a depth has passed it, whatever the rounding

void check(const PileDesign& design) {
    require_between("bottom_depth_m", design.bottom_depth_m, 0, no_end);
    require_between("top_depth_m", design.top_depth_m, 0, design.bottom_depth_m);
    require_positive("bottom_depth_m - top_depth_m", design.bottom_depth_m - design.top_depth_m);
    require_positive("diameter_m", design.diameter_m);
    require_positive("cell_area_m2", design.cell_area_m2);
    require_finite("position_m", design.position_m.x());
    require_finite("position_m", design.position_m.y());
}

void check(const AsBuiltRecord& record) {
    const auto refuse = [&](std::size_t sample, const std::string& what) {
        throw std::invalid_argument(fmt::format("pile {}, sample {}: {}", record.pile, sample + 1, what));
    };
    const auto& samples = record.samples;
    if (samples.size() < 2)
        throw std::invalid_argument(
            fmt::format("pile {}: {} samples, at least 2 are needed", record.pile, samples.size()));
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const auto& [time_s, depth_m, volume_m3, resistance_kN, inclination_deg] = samples[i];
        if (!std::isfinite(time_s) || !std::isfinite(volume_m3))
            refuse(i, "time or sand volume is not a finite number");
        if (!(depth_m >= 0 && std::isfinite(depth_m)))
            refuse(i, fmt::format("tip depth {} m must be 0 or more", depth_m));
        if (resistance_kN && !std::isfinite(*resistance_kN))
            refuse(i, "driving resistance is not a finite number");
        if (inclination_deg && !(std::abs(*inclination_deg) < 90))
            refuse(i, fmt::format("inclination {} deg is not between -90 and 90", *inclination_deg));
        if (i > 0 && time_s < samples[i - 1].time_s)
            refuse(i, fmt::format("time {} s runs backward from {} s", time_s, samples[i - 1].time_s));
        if (i > 0 && volume_m3 < samples[i - 1].sand_volume_m3)
            refuse(i, fmt::format("cumulative sand volume falls from {} to {} m3",
                                  samples[i - 1].sand_volume_m3, volume_m3));
    }
    if (record.position_m && !record.position_m->allFinite())
        throw std::invalid_argument(fmt::format("pile {}: position is not finite", record.pile));
}

/// Ends of the slices, from top to bottom.
std::vector<double> slice_ends(double top_m, double bottom_m) {
    constexpr double least_m = 0.5;
    std::vector<double> ends = {top_m};
    for (double meter = std::floor(top_m) + 1; meter < bottom_m; ++meter)
        ends.push_back(meter);
    ends.push_back(bottom_m);
    if (ends.size() > 2 && ends[1] - ends[0] < least_m)
        ends.erase(ends.begin() + 1);
    if (ends.size() > 2 && ends.back() - ends[ends.size() - 2] < least_m)
        ends.erase(ends.end() - 2);
    return ends;
}

int passes_through(double depth_m, const std::vector<AsBuiltSample>& samples, const std::vector<Leg>& legs) {
    return static_cast<int>(std::count_if(legs.begin(), legs.end(), [&](const Leg& leg) {
        return leg.rising && samples[leg.first].tip_depth_m < depth_m - touch_m &&
               samples[leg.last].tip_depth_m > depth_m - touch_m;
    }));
}

std::optional<double> largest_resistance(const AsBuiltSlice& slice, const std::vector<AsBuiltSample>& samples,
                                         const std::vector<Leg>& legs) {
    std::optional<double> largest;
    for (const Leg& leg : legs)
        for (std::size_t i = leg.first + 1; leg.rising && i <= leg.last;
             ++i) { // the turn itself was read going up
            const auto& sample = samples[i];
            const bool inside =
                sample.tip_depth_m >= slice.top_depth_m && sample.tip_depth_m <= slice.bottom_depth_m;
            if (inside && sample.driving_resistance_kN)
                largest =
                    std::max(largest.value_or(*sample.driving_resistance_kN), *sample.driving_resistance_kN);
        }
    return largest;
}

std::optional<Tilt> largest_tilt(const std::vector<AsBuiltSample>& samples) {
    std::optional<Tilt> tilt;
    for (const auto& sample : samples) {
        if (!sample.inclination_deg)
            continue;
        const double slope = std::tan(std::abs(*sample.inclination_deg) * std::numbers::pi / 180);
        if (!tilt || slope > tilt->slope)
            tilt = {slope, sample.tip_depth_m};
    }
    return tilt;
}

std::vector<double> depths_of(const std::vector<AsBuiltSample>& samples) {
    std::vector<double> depths;
    for (const auto& sample : samples)
        depths.push_back(sample.tip_depth_m);
    return depths;
}

} // namespace

AsBuiltPile as_built_pile(const AsBuiltRecord& record, const PileDesign& design,
                          const AsBuiltReading& reading) {
    check(design);
    check(record);
    require_between("bulking", reading.bulking, 1, 2);
    require_positive("least_turn_m", reading.least_turn_m);
    const auto& samples = record.samples;
    const auto depths = depths_of(samples);
    const auto legs = legs_between_turns(depths, reading.least_turn_m);
    const auto sand = placed_sand(samples, legs, reading.sand_place);

    AsBuiltPile pile;
    pile.pile = record.pile;
    pile.bottom_depth_m = *std::max_element(depths.begin(), depths.end());
    pile.top_depth_m = pile.bottom_depth_m;
    for (const auto& placed : sand)
        pile.top_depth_m = std::min(pile.top_depth_m, std::max(0.0, placed.from_depth_m));
    pile.length_m = pile.bottom_depth_m - pile.top_depth_m;
    pile.sand_volume_m3 = (samples.back().sand_volume_m3 - samples.front().sand_volume_m3) / reading.bulking;
    pile.volume_outside_m3 =
        pile.sand_volume_m3 - sand_between(sand, design.top_depth_m, design.bottom_depth_m) / reading.bulking;
    pile.tilt = largest_tilt(samples);
    if (record.position_m)
        pile.position_deviation_m = (*record.position_m - design.position_m).norm();
    pile.duration_s = samples.back().time_s - samples.front().time_s;

    const auto ends = slice_ends(design.top_depth_m, design.bottom_depth_m);
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        AsBuiltSlice slice;
        slice.top_depth_m = ends[i];
        slice.bottom_depth_m = ends[i + 1];
        slice.sand_volume_m3 = sand_between(sand, ends[i], ends[i + 1]) / reading.bulking;
        const double area_m2 = slice.sand_volume_m3 / (ends[i + 1] - ends[i]);
        slice.equivalent_diameter_m = std::sqrt(4 / std::numbers::pi * area_m2);
        slice.replacement_ratio = area_m2 / design.cell_area_m2;
        slice.passes = passes_through((ends[i] + ends[i + 1]) / 2, samples, legs);
        slice.largest_resistance_kN = largest_resistance(slice, samples, legs);
        pile.slices.push_back(slice);
    }
    return pile;
}

std::vector<double> discharged_volume_m3(const std::vector<double>& levels_m, double casing_diameter_m,
                                         double least_charge_m) {
    require_positive("casing_diameter_m", casing_diameter_m);
    require_positive("least_charge_m", least_charge_m);
    const double area_m2 = std::numbers::pi / 4 * casing_diameter_m * casing_diameter_m;
    for (const double level_m : levels_m)
        require_between("level_m", level_m, 0, no_end);
    std::vector<double> volumes_m3(levels_m.size(), 0.0);
    for (const Leg& leg : legs_between_turns(levels_m, least_charge_m))
        for (std::size_t i = leg.first + 1; i <= leg.last; ++i) {
            const double fallen_m = leg.rising ? 0 : levels_m[leg.first] - levels_m[i];
            volumes_m3[i] = std::max(volumes_m3[i - 1], volumes_m3[leg.first] + area_m2 * fallen_m);
        }
    return volumes_m3;
}

} // namespace interpile::solver
