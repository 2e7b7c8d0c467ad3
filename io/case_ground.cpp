// [ground], [[layer]] and [soil] of a case.

#include "io/case_parts.h"
#include "io/soil_constants.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

namespace interpile::io {

namespace {

/// Overburden from the layers; NaN if something is missing or faulty.
double stress_from_layers(CaseValues& values) {
    constexpr double unknown = std::numeric_limits<double>::quiet_NaN();
    if (!values.given("ground.water_table_depth_m"))
        values.missing("ground.water_table_depth_m", "the layers need it");
    if (!values.has("ground.water_table_depth_m") || !values.has("ground.slice_depth_m"))
        return unknown;
    std::vector<solver::OverburdenLayer> layers;
    double bottom_m = 0;
    for (int i = 1; i <= values.repeated_count("layer"); ++i) {
        const std::string prefix = fmt::format("layer[{}].", i);
        values.derive(prefix + "name", fmt::format("layer {}", i));
        if (!values.has(prefix + "thickness_m") || !values.has(prefix + "unit_weight_kN_m3"))
            return unknown;
        layers.push_back(
            {values.number(prefix + "thickness_m"), values.number(prefix + "unit_weight_kN_m3")});
        bottom_m += layers.back().thickness_m;
    }
    const double depth = values.number("ground.slice_depth_m");
    if (bottom_m < depth) {
        values.fault("ground.slice_depth_m",
                     fmt::format("lies below the layers, which end at {:.6g} m", bottom_m),
                     "Add the layers down to the slice.");
        return unknown;
    }
    const double stress =
        solver::effective_overburden_kPa(layers, depth, values.number("ground.water_table_depth_m"));
    if (stress < 0) {
        values.fault("ground.slice_depth_m",
                     fmt::format("has a negative effective stress of {:.4g} kPa", stress),
                     "Unit weights are total weights: saturated below the water table.");
        return unknown;
    }
    return stress;
}

double vertical_stress(CaseValues& values) {
    const bool direct = values.given("ground.vertical_stress_kPa");
    if (direct && values.repeated_count("layer") > 0) {
        values.fault("ground.vertical_stress_kPa", "and [[layer]] exclude each other", "Keep one of them.");
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (!direct && values.repeated_count("layer") == 0) {
        values.missing("ground.vertical_stress_kPa", "neither it nor any [[layer]] is given");
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (!direct)
        return stress_from_layers(values);
    values.no_effect("ground.water_table_depth_m", "with ground.vertical_stress_kPa");
    return values.has("ground.vertical_stress_kPa") ? values.number("ground.vertical_stress_kPa")
                                                    : std::numeric_limits<double>::quiet_NaN();
}

/// Void ratios of the loosest and the densest state; not numbers where they have faults.
void read_range_of_density(CaseValues& values, solver::Slice& slice) {
    slice.e_max = slice.e_min = std::numeric_limits<double>::quiet_NaN();
    if (!values.has("ground.e_max") || !values.has("ground.e_min"))
        return;
    const double e_max = values.number("ground.e_max"), e_min = values.number("ground.e_min");
    if (e_min >= e_max) {
        values.fault(values.given("ground.e_min") ? "ground.e_min" : "ground.e_max",
                     fmt::format("leaves no range of density: e_min {} is not below e_max {}", e_min, e_max));
        return;
    }
    slice.e_max = e_max;
    slice.e_min = e_min;
}

} // namespace

double read_void_ratio(CaseValues& values, const std::string& table, const solver::Slice& slice) {
    const std::string ratio = table + ".void_ratio", density = table + ".relative_density_pct";
    if (values.given(ratio) && values.given(density))
        values.fault(density, "and void_ratio exclude each other", "Keep one of them.");
    if (!values.given(ratio) && !values.given(density))
        values.missing(density, "neither it nor void_ratio is given");
    if (values.has(ratio)) {
        const double e = values.number(ratio);
        if (e < slice.e_min || e > slice.e_max)
            values.fault(ratio, fmt::format("is outside e_min {} .. e_max {}", slice.e_min, slice.e_max),
                         "Give the void ratios of this sand, e_max and e_min too.");
        return e;
    }
    return values.has(density) ? slice.void_ratio_at(values.number(density)) : 0;
}

solver::Slice read_slice(CaseValues& values) {
    solver::Slice slice;
    if (values.has("ground.slice_depth_m"))
        slice.depth_m = values.number("ground.slice_depth_m");
    slice.vertical_stress_kPa = vertical_stress(values);
    if (values.has("ground.K0"))
        slice.K0 = values.number("ground.K0");
    read_range_of_density(values, slice);
    slice.void_ratio = read_void_ratio(values, "ground", slice);
    slice.regions = read_regions(values, slice);
    if (values.has("ground.vertical_condition"))
        slice.vertical = values.text("ground.vertical_condition") == "fixed"
                             ? solver::VerticalCondition::Fixed
                             : solver::VerticalCondition::Shared;
    return slice;
}

void read_heaving_region(CaseValues& values, const std::vector<PlacedPile>& piles, solver::Slice& slice) {
    if (slice.vertical == solver::VerticalCondition::Fixed)
        values.no_effect("ground.heaving_margin_m", "where ground.vertical_condition is \"fixed\"");
    if (is_pattern_cell(values))
        values.no_effect("ground.heaving_margin_m",
                         "where domain.shape is \"pattern-cell\": all of it heaves");
    if (piles.empty() || !values.has("ground.heaving_margin_m"))
        return;
    const double margin_m = values.number("ground.heaving_margin_m");
    const auto leaves_out = [&](const PlacedPile& pile) {
        return values.has("pile.diameter_m") &&
               margin_m < pile.diameter_m.value_or(values.number("pile.diameter_m")) / 2;
    };
    if (std::any_of(piles.begin(), piles.end(), leaves_out))
        values.fault("ground.heaving_margin_m", "leaves out parts of the piles",
                     "It must be at least half of pile.diameter_m, and of every diameter_m of a table.");
    const mesh::Vec2 margin = mesh::Vec2::Constant(margin_m);
    const auto [low, high] = outermost(piles);
    slice.heaving_low_m = low - margin;
    slice.heaving_high_m = high + margin;
}

solver::SoilModelChoice read_soil(CaseValues& values, const solver::Slice& slice) {
    const auto choice = read_soil_constants(values, slice.e_max, slice.e_min);
    const auto soil = make_soil(values, choice);
    if (soil == nullptr || !std::isfinite(slice.vertical_stress_kPa))
        return choice;
    if (slice.vertical_stress_kPa == 0 && choice.name != "elastic") {
        values.fault(values.given("ground.vertical_stress_kPa") ? "ground.vertical_stress_kPa"
                                                                : "ground.slice_depth_m",
                     fmt::format("leaves model \"{}\" without stress", choice.name),
                     "Only the elastic model may begin without stress.");
    } else if (values.has("ground.K0")) {
        const std::string allowed = soil->refuse_at_rest(slice.vertical_stress_kPa, slice.K0);
        if (!allowed.empty())
            values.fault("ground.K0", fmt::format("is not admissible for model \"{}\"", choice.name),
                         allowed);
    }
    return choice;
}

} // namespace interpile::io
