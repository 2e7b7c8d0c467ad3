#pragma once
// What is done to the ground: the piles, their strokes, how finely the computation follows them, what is recorded.

#include "mesh/domain.h"
#include "mesh/observation_points.h"
#include "mesh/treated_area.h"
#include "solver/calendar_date.h"
#include "solver/water.h"

#include <optional>
#include <vector>

namespace interpile::solver {

/// One pile as seen by the slice. All piles of a run share the stroke plan; each stroke injects its share of the area of
/// the pile it belongs to.
struct PilePlan {
    mesh::Vec2 center_m = {0, 0};
    double diameter_m = 0; ///< finished pile; injected area pi d^2/4
};

/// How one depth experiences the making of a pile. The disc grows from its seed: injected area 0 -> casing
/// area in the casing pass, then in equal areas per stroke to the pile area; before every stroke the casing
/// is withdrawn until the disc pressure, total over hydrostatic, has fallen to withdrawal_pressure_ratio x sigma_v0'.
struct StrokePlan {
    double casing_diameter_m = 0;           ///< 0: no separate casing pass
    int strokes = 0;                        ///< 0: the pile grows in one monotonic expansion
    double seed_radius_m = 0;               ///< a0, radius of the soil disc that is replaced by the pile
    double withdrawal_pressure_ratio = 0.3; ///< p_low / sigma_v0' [-]
    double final_pressure_ratio =
        0; ///< after the last stroke the disc relaxes to this x sigma_v0'; 0: it does not
};

struct StepSettings {
    int increments_per_pile = 20; ///< of one full growth, in equal steps of ln(radius)
    int increments_per_half_stroke = 6;
    double radius_step =
        0.05; ///< largest change of ln(radius) in an increment; makes increments smaller than above
    double tolerance = 3e-3; ///< worst nodal out-of-balance force over the force sum at that node [-]
    int max_iterations = 120;
    int max_halvings = 6;
    double hourglass = 0.1; ///< c of the viscous hourglass resistance c (a/h)/(d ln a) x shear modulus [-]
    int carry_over_iterations = 15; ///< from here on a residual below carry_over_tolerance is carried on
    double carry_over_tolerance = 1e-2;
};

/// What is recorded at the end of every half stroke besides the piles themselves.
struct RecordPlan {
    mesh::TreatedArea treated; ///< ground of the means; empty: they are not numbers
    std::vector<mesh::ObservationPoint> points;
    double sampling_radius_m = 0; ///< of the circle about each point over which values are averaged
};

/// How long the work takes at the depth of the slice and beside it [s]. Without pore pressure nothing but the times of
/// records depends on it.
struct Schedule {
    double casing_pass_s = 0; ///< casing pass, or growth without strokes
    double withdrawal_s = 0;  ///< of one stroke
    double redrive_s = 0;     ///< of one stroke
    double pile_s = 0;        ///< whole pile; what its half strokes here leave of it is rest
    double between_s = 0;     ///< from the end of a pile to the next: move and rest
    double day_s = 0;         ///< work per day: a pile that does not fit waits for the next day; 0: no breaks
    double final_rest_s = 0;  ///< after the last pile
    double largest_step_s = 0; ///< of a rest; 0: no limit
    int rigs = 1;
    double rig_offset_s = 0;              ///< each rig begins so much after the one before it
    int days_per_week = 7;                ///< of work, from Monday on; with day_s only
    std::optional<LocalTime> begins = {}; ///< the first pile; without it the first day is a Monday
};

struct InstallationPlan {
    std::vector<PilePlan> piles;         ///< by number
    std::vector<std::vector<int>> order; ///< groups of indices; the piles of a group are driven together
    std::vector<int> rig = {};           ///< of each group, 0 .. schedule.rigs - 1; empty: there is one
    StrokePlan strokes;
    StepSettings steps;
    RecordPlan record = {};
    Schedule schedule = {};
    Water water = {};
    int threads = 1; ///< that share the work on the cells; no number depends on it
};

} // namespace interpile::solver
