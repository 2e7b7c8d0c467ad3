#pragma once
// The strokes that make one pile: how far to withdraw and re-drive, how much sand to discharge, step by step.
//
// Source: cycle from the trade, all sources agree; volume balance of one stroke derived:
//   A_D w = rho A_d Delta,  rho = loose volume / volume in place,  hence  w/Delta = rho (d/D)^2,  r = w - Delta.
// All sand of a stroke ends up within its net rise: the re-drive presses it below the tip.

#include <vector>

namespace interpile::solver {

/// One pile as ordered, made from the bottom up. Depths below the surface.
struct OrderedPile {
    double casing_diameter_m = 0; ///< D > 0, outer; the open cross section is taken equal
    double pile_diameter_m = 0;   ///< d >= D
    double top_depth_m = 0;       ///< >= 0; at least the re-drive of a step, or the casing leaves the ground
    double bottom_depth_m = 0;    ///< > top
    double net_rise_m = 0;        ///< Delta of a full step, 0 < Delta <= length of the pile
    double bulking = 1;           ///< rho, 1 .. 2; 1.0 .. 1.3 usual, common practice, no source
};

/// Lengths of a stroke over its net rise [-].
struct StrokeProportion {
    double withdrawal = 1; ///< w/Delta; also the mean number of passes, the first driving included
    double redrive = 0;    ///< r/Delta
};

/// \throws std::invalid_argument  a number out of range
StrokeProportion stroke_proportion(double casing_diameter_m, double pile_diameter_m, double bulking = 1);

/// One step: withdraw, re-drive.
struct StrokeStep {
    int number = 1; ///< from 1 at the bottom
    double tip_before_m = 0;
    double withdrawal_m = 0;
    double redrive_m = 0;
    double net_rise_m = 0; ///< the last step is shortened so that the pile ends at its top
    double tip_after_m = 0;
    double loose_m3 = 0;    ///< to discharge while withdrawing: A_D w
    double in_place_m3 = 0; ///< A_d Delta
    double total_loose_m3 = 0;
    double total_in_place_m3 = 0;
    /// Down-goings of the casing through the middle of the step when the pile is complete, first driving included.
    /// Less than w/Delta in the lowest steps: no stroke starts below them.
    int passes = 1;
    double target_diameter_m = 0; ///< d
};

/// The steps from the bottom to the top.
/// \throws std::invalid_argument  a number out of range; more than 100000 steps; a step that withdraws the casing out
///         of the ground (the text says which top depth is possible)
std::vector<StrokeStep> stroke_instruction(const OrderedPile& plan);

/// Down-goings of the casing through a depth when these steps are done, first driving included; counted as in the
/// records of a pile (solver/works/as_built.h).
int ordered_passes(double depth_m, const std::vector<StrokeStep>& steps);

} // namespace interpile::solver
