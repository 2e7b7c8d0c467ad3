#pragma once
// The only way out of the solver: what happens while piles are driven, told to whoever watches (a results
// file, a progress line, a test). The solver never sees a file or a terminal.

#include "mesh/fields.h"

#include <Eigen/Core>

#include <string>
#include <string_view>
#include <vector>

namespace interpile::solver {

/// What a pile is doing. Rest: nothing, while water flows.
enum class Phase { CasingPass, Withdrawal, Redrive, Relaxation, Growth, Rest };

/// For progress and messages; Growth is that of a pile without strokes.
std::string_view in_words(Phase phase);

/// One converged increment of one pile.
struct IncrementRecord {
    int pile = 0;           ///< index 0..n-1 (the first of a group driven together)
    int place_in_order = 0; ///< 1..n, place of this pile in the order of work
    int stroke = 0;         ///< 0 casing pass, 1.. strokes
    Phase phase = Phase::CasingPass;
    double disc_area_m2 = 0;      ///< actual area of the disc now, full disc also on a symmetry line
    double wall_pressure_kPa = 0; ///< radial effective stress at the wall, from the soil outside
    double disc_pressure_kPa = 0; ///< mean in-plane effective stress inside the disc
    double heave_strain = 0; ///< vertical strain of the slice since the start, logarithmic, heave positive
    double mean_relative_density_pct = 0; ///< of the soil in the whole domain, weighted by solids
    double vertical_stress_kPa = 0;       ///< mean sigma_v' of the slice
    double residual = 0;                  ///< worst out-of-balance force over the force sum at that node
    int iterations = 0;
    int halvings = 0;                    ///< how often this increment was halved before it converged
    double time_s = 0;                   ///< since the first pile was begun
    double mean_excess_pressure_kPa = 0; ///< of the whole domain, by area
    double largest_excess_pressure_ratio =
        0;                 ///< r_u of any cell of ground: excess pressure over initial sigma_v'
    double share_done = 0; ///< 0..1 of the whole run, by injected area and strokes
};

/// One pile at the end of one casing pass, withdrawal, re-drive, relaxation or growth; piles driven together have a
/// record each. Means and points are of the ground only and not numbers where there is none.
struct HalfStrokeRecord {
    int pile = 0;           ///< index 0..n-1
    int place_in_order = 0; ///< 1..n
    int stroke = 0;         ///< 0 casing pass, 1.. strokes
    Phase phase = Phase::CasingPass;
    double injected_area_m2 = 0; ///< of this pile since its seed, full disc also on a symmetry line
    double disc_pressure_kPa = 0;
    double wall_pressure_kPa = 0;
    double heave_strain = 0;          ///< of the slice since the start, logarithmic, heave positive
    double relative_density_pct = 0;  ///< mean of the treated ground, by area
    double lateral_stress_ratio = 0;  ///< K of the treated ground: mean horizontal over mean vertical stress
    double total_injected_m2 = 0;     ///< all piles since the start, their part inside the domain
    double densified_m3_m = 0;        ///< loss of soil volume since the start, per meter of initial thickness
    double efficiency = 0;            ///< densified over total injected: 1, all of it became density
    Eigen::ArrayXd point_density_pct; ///< D_r per observation point
    Eigen::ArrayXd point_stress_ratio; ///< K per observation point
    double time_s = 0;                 ///< since the first pile was begun
    double excess_pressure_kPa = 0;    ///< mean of the treated ground
    Eigen::ArrayXd point_pressure_kPa; ///< excess pore pressure per observation point
};

/// Volumes per meter of initial slice thickness [m3/m], since the record before.
/// injected = densified + heaved + pushed_out up to the closing error.
struct VolumeBalance {
    double injected = 0;  ///< growth of the pile discs
    double densified = 0; ///< loss of soil volume, from the void ratio
    double heaved = 0;    ///< rise of the slice over its initial area
    /// Change of plan area at the present thickness: movement of the sides, and of ground across the edge of the
    /// heaving region.
    double pushed_out = 0;
    double closing_error() const { return injected - densified - heaved - pushed_out; } ///< [m3/m]
};

/// The whole slice at rest: before the first pile, after each pile, or where a run had to stop.
struct StageRecord {
    int stage = 0;         ///< 0 before the first pile
    int pile = -1;         ///< index of the pile just finished, -1 at stage 0
    bool converged = true; ///< false only for a last stage saved for inspection
    double residual = 0;
    double heave_strain = 0;              ///< logarithmic, heave positive
    Eigen::Matrix2Xd node_m;              ///< 2 x nodes, current positions
    Eigen::ArrayXd disc_radius_m;         ///< per pile, current, of a circle of the same area
    Eigen::Matrix2Xd disc_center_m;       ///< 2 x piles, current
    mesh::Fields fields;                  ///< per cell, every name of mesh::field_table()
    VolumeBalance balance;                ///< since the stage before
    double mean_relative_density_pct = 0; ///< soil only, weighted by solids
    double mean_void_ratio = 0;           ///< soil only, weighted by solids
    double time_s = 0;                    ///< since the first pile was begun
    double mean_excess_pressure_kPa = 0;  ///< of the whole domain, by area
    int nearly_liquefied_cells = 0;       ///< of ground, r_u of nearly_liquefied_ratio or more
    double water_squeezed_m3_m = 0;       ///< out of the pores since the start
    double water_stored_m3_m = 0;         ///< of it, by compression of the water
    double water_drained_m3_m = 0;        ///< of it, through sides and by leaks
    double water_error_m3_m = 0;          ///< of it, unaccounted for
};

/// r_u from which a cell counts as nearly liquefied; common practice, no source.
inline constexpr double nearly_liquefied_ratio = 0.9;

struct RunState;

class RunObserver {
public:
    virtual ~RunObserver() = default;
    virtual void on_increment(const IncrementRecord&) {}
    virtual void on_half_stroke(const HalfStrokeRecord&) {}
    virtual void on_stage(const StageRecord&) {}
    /// A remark that belongs to the result, e.g. "casing pressure above 3 MPa".
    virtual void on_warning(const std::string&) {}
    /// Asked where a run could go on later from its state: before every half stroke and after every step of a rest, when
    /// everything until then has been told. The state is put together for an observer that wants it only.
    virtual bool wants_restart_point() { return false; }
    /// \param state  valid during the call only
    virtual void on_restart_point(const RunState& /*state*/) {}
    /// Asked after every increment; true ends the run cleanly after that increment.
    virtual bool stop_requested() { return false; }
};

} // namespace interpile::solver
