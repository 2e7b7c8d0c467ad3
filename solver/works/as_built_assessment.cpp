#include "solver/works/as_built_assessment.h"

#include "solver/number_check.h"

#include <limits>
#include <numbers>
#include <stdexcept>

namespace interpile::solver {
namespace {

constexpr double rounding = 1e-9; // a limit met exactly is kept

void check(const AsBuiltLimits& limits) {
    constexpr double no_end = std::numeric_limits<double>::max();
    require_between("position_m", limits.position_m, 0, no_end);
    require_between("verticality", limits.verticality, 0, no_end);
    require_between("length_shortfall_m", limits.length_shortfall_m, 0, no_end);
    require_between("least_volume_ratio", limits.least_volume_ratio, 0, no_end);
}

} // namespace

const char* description(AsBuiltCheck check) {
    switch (check) {
    case AsBuiltCheck::Position:
        return "deviation of position [m]";
    case AsBuiltCheck::Verticality:
        return "slope of the casing [-]";
    case AsBuiltCheck::ShortAtBottom:
        return "length missing at the bottom [m]";
    case AsBuiltCheck::ShortAtTop:
        return "length missing at the top [m]";
    case AsBuiltCheck::SandVolume:
        return "sand volume over ordered volume [-]";
    }
    throw std::invalid_argument("unknown check");
}

AsBuiltAssessment assess(const AsBuiltPile& pile, const PileDesign& design, const AsBuiltLimits& limits) {
    check(limits);
    if (pile.slices.empty() || pile.slices.front().top_depth_m != design.top_depth_m ||
        pile.slices.back().bottom_depth_m != design.bottom_depth_m)
        throw std::invalid_argument("the slices of pile " + pile.pile + " do not fit this design");
    AsBuiltAssessment result;
    const auto find = [&](AsBuiltCheck what, double from_m, double to_m, double value, double limit) {
        result.findings.push_back({pile.pile, from_m, to_m, what, value, limit});
    };
    const auto find_above = [&](AsBuiltCheck what, double from_m, double to_m, double value, double limit) {
        if (value > limit + rounding)
            find(what, from_m, to_m, value, limit);
    };

    if (pile.position_deviation_m)
        result.findings = assess_position(pile.pile, *pile.position_deviation_m, design, limits);
    else
        result.not_recorded.push_back(AsBuiltCheck::Position);
    if (pile.tilt)
        find_above(AsBuiltCheck::Verticality, pile.tilt->depth_m, pile.tilt->depth_m, pile.tilt->slope,
                   limits.verticality);
    else
        result.not_recorded.push_back(AsBuiltCheck::Verticality);
    find_above(AsBuiltCheck::ShortAtTop, design.top_depth_m, pile.top_depth_m,
               pile.top_depth_m - design.top_depth_m, limits.length_shortfall_m);
    find_above(AsBuiltCheck::ShortAtBottom, pile.bottom_depth_m, design.bottom_depth_m,
               design.bottom_depth_m - pile.bottom_depth_m, limits.length_shortfall_m);

    const double area_m2 = std::numbers::pi / 4 * design.diameter_m * design.diameter_m;
    for (const AsBuiltSlice& slice : pile.slices) {
        const double ordered_m3 = area_m2 * (slice.bottom_depth_m - slice.top_depth_m);
        const double ratio = slice.sand_volume_m3 / ordered_m3;
        if (ratio < limits.least_volume_ratio - rounding)
            find(AsBuiltCheck::SandVolume, slice.top_depth_m, slice.bottom_depth_m, ratio,
                 limits.least_volume_ratio);
    }
    return result;
}

std::vector<AsBuiltFinding> assess_position(const std::string& pile, double deviation_m,
                                            const PileDesign& design, const AsBuiltLimits& limits) {
    check(limits);
    require_between("position_deviation_m", deviation_m, 0, std::numeric_limits<double>::max());
    if (deviation_m <= limits.position_m + rounding)
        return {};
    return {{pile, design.top_depth_m, design.bottom_depth_m, AsBuiltCheck::Position, deviation_m,
             limits.position_m}};
}

double severity(const AsBuiltFinding& finding, const PileDesign& design) {
    const double beyond = finding.value - finding.limit;
    switch (finding.what) {
    case AsBuiltCheck::Position:
        return beyond / design.diameter_m;
    case AsBuiltCheck::Verticality:
        return beyond * (design.bottom_depth_m - design.top_depth_m) / design.diameter_m;
    case AsBuiltCheck::ShortAtBottom:
    case AsBuiltCheck::ShortAtTop:
        return beyond; // over 1 m
    case AsBuiltCheck::SandVolume:
        return -beyond;
    }
    throw std::invalid_argument("unknown check");
}

} // namespace interpile::solver
