#include "solver/works/stroke_instruction.h"

#include "solver/number_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

namespace interpile::solver {
namespace {

constexpr double no_end = std::numeric_limits<double>::max();
constexpr double rounding = 1e-9; // of a step: 9 m in steps of 0.3 m are 30, not 31
constexpr double most_steps = 1e5;

double area_m2(double diameter_m) {
    return std::numbers::pi / 4 * diameter_m * diameter_m;
}

void check(const OrderedPile& plan) {
    require_between("bottom_depth_m", plan.bottom_depth_m, 0, no_end);
    require_between("top_depth_m", plan.top_depth_m, 0, plan.bottom_depth_m);
    const double length_m = plan.bottom_depth_m - plan.top_depth_m;
    require_positive("bottom_depth_m - top_depth_m", length_m);
    require_positive("net_rise_m", plan.net_rise_m);
    require_between("net_rise_m", plan.net_rise_m, 0, length_m * (1 + rounding));
    require_between("number of steps", length_m / plan.net_rise_m, 0, most_steps);
}

/// Earlier withdrawals that rose above the middle of the coming step; each is followed by a down-going through it.
int redrives_through(double middle_m, const std::vector<StrokeStep>& steps) {
    int count = 0;
    for (auto step = steps.rbegin(); step != steps.rend(); ++step, ++count)
        if (step->tip_before_m - step->withdrawal_m > middle_m - rounding * step->net_rise_m)
            break; // still earlier ones start deeper and end deeper
    return count;
}

void require_in_ground(const StrokeStep& step, double redrive_of_full_step_m) {
    if (step.withdrawal_m > step.tip_before_m * (1 + rounding))
        throw std::invalid_argument(
            fmt::format("step {} withdraws {:.3f} m from a depth of {:.3f} m: the casing would leave the "
                        "ground. Lower the "
                        "top to {:.3f} m, the re-drive of a full step, or lessen the net rise",
                        step.number, step.withdrawal_m, step.tip_before_m, redrive_of_full_step_m));
}

} // namespace

StrokeProportion stroke_proportion(double casing_diameter_m, double pile_diameter_m, double bulking) {
    require_positive("casing_diameter_m", casing_diameter_m);
    require_positive("pile_diameter_m", pile_diameter_m);
    if (pile_diameter_m < casing_diameter_m)
        throw std::invalid_argument(
            fmt::format("pile_diameter_m = {} is below casing_diameter_m = {}: re-driving widens "
                        "a pile, it cannot narrow it",
                        pile_diameter_m, casing_diameter_m));
    require_between("bulking", bulking, 1, 2);
    const double ratio = pile_diameter_m / casing_diameter_m;
    const double withdrawal = bulking * ratio * ratio;
    return {withdrawal, withdrawal - 1};
}

std::vector<StrokeStep> stroke_instruction(const OrderedPile& plan) {
    const auto proportion = stroke_proportion(plan.casing_diameter_m, plan.pile_diameter_m, plan.bulking);
    check(plan);
    const double area = area_m2(plan.pile_diameter_m);
    const double length_m = plan.bottom_depth_m - plan.top_depth_m;
    const int count = static_cast<int>(std::ceil(length_m / plan.net_rise_m - rounding));

    std::vector<StrokeStep> steps;
    for (int n = 1; n <= count; ++n) {
        StrokeStep step;
        step.number = n;
        step.tip_before_m = n == 1 ? plan.bottom_depth_m : steps.back().tip_after_m;
        step.tip_after_m = n == count ? plan.top_depth_m : plan.bottom_depth_m - n * plan.net_rise_m;
        step.net_rise_m = step.tip_before_m - step.tip_after_m;
        step.withdrawal_m = proportion.withdrawal * step.net_rise_m;
        step.redrive_m = proportion.redrive * step.net_rise_m;
        step.in_place_m3 = area * step.net_rise_m;
        step.loose_m3 = plan.bulking * step.in_place_m3;
        step.total_in_place_m3 = area * (plan.bottom_depth_m - step.tip_after_m);
        step.total_loose_m3 = plan.bulking * step.total_in_place_m3;
        step.passes = 1 + redrives_through((step.tip_before_m + step.tip_after_m) / 2, steps);
        step.target_diameter_m = plan.pile_diameter_m;
        require_in_ground(step, proportion.redrive * plan.net_rise_m);
        steps.push_back(step);
    }
    return steps;
}

int ordered_passes(double depth_m, const std::vector<StrokeStep>& steps) {
    constexpr double touch_m = 1e-6; // a tip that stops at a depth has passed it, whatever the rounding
    const bool driven = !steps.empty() && steps.front().tip_before_m > depth_m - touch_m;
    return (driven ? 1 : 0) +
           static_cast<int>(std::count_if(steps.begin(), steps.end(), [&](const StrokeStep& step) {
               return step.tip_before_m - step.withdrawal_m < depth_m - touch_m &&
                      step.tip_after_m > depth_m - touch_m;
           }));
}

} // namespace interpile::solver
