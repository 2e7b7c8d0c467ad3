#pragma once
// Read a results file, finished or still being written.

#include "io/diagnostics.h"
#include "mesh/fields.h"
#include "mesh/grid.h"
#include "mesh/observation_points.h"
#include "mesh/treated_area.h"

#include <Eigen/Core>

#include <array>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::io {

/// What was known before the first increment.
struct ResultsHeader {
    std::string case_name;
    std::string title;
    std::string case_text;
    std::string program_version;
    std::string started;            ///< ISO 8601, UTC
    std::string work_begins;        ///< the first pile: ISO 8601, clock of the site; empty: not known
    bool finished = false;          ///< closed cleanly after the last stage
    bool monotonic_density = false; ///< the soil model cannot densify by strokes: D_r is not a prediction
    std::vector<std::pair<std::string, std::string>> settings; ///< key, value (defaults marked " (default)")
    mesh::Grid grid;                                           ///< initial node positions
    std::array<std::string, 4> side; ///< boundary kind west, east, south, north, as in the case file
    Eigen::Matrix2Xd pile_center_m;  ///< 2 x piles, as planned
    Eigen::ArrayXd pile_diameter_m;  ///< planned
    double seed_radius_m = 0;
    std::vector<int> order; ///< pile index by place in the order of work
    double initial_vertical_stress_kPa = 0;
    double initial_relative_density_pct = 0;
    double initial_lateral_stress_ratio = 0; ///< K0
    double depth_m = 0;
    mesh::TreatedArea treated;                  ///< ground between the piles; empty if there is none
    std::vector<mesh::ObservationPoint> points; ///< fixed places that are watched
    double sampling_radius_m = 0; ///< of the circle about each point that its values are means of
    std::optional<double> target_relative_density_pct;
    std::vector<std::string> setting_sources; ///< by setting: source of a default, empty for a user's value
};

/// Date and time of a time of the result, "Mon 2026-03-02 07:30"; empty where the case gives no date.
std::string site_clock(const ResultsHeader& header, double time_s);

/// One recorded stage (before the first pile: number 0; then after each pile).
struct ResultsStage {
    int stage = 0;
    int pile = -1;         ///< index of the pile just finished; -1 at stage 0
    bool converged = true; ///< false: saved for inspection, not a result
    double residual = 0;
    double heave_strain = 0;
    Eigen::Matrix2Xd node_m;
    Eigen::ArrayXd disc_radius_m;                 ///< per pile, current
    Eigen::Matrix2Xd disc_center_m;               ///< 2 x piles, current
    mesh::Fields fields;                          ///< per cell
    double injected_m3_m = 0, densified_m3_m = 0; ///< since the stage before
    double heaved_m3_m = 0, pushed_out_m3_m = 0;  ///< since the stage before
    double mean_relative_density_pct = 0;
    double mean_void_ratio = 0;
    double time_s =
        0; ///< since the first pile was begun; this and the next are 0 in a result without flow of water
    double mean_excess_pressure_kPa = 0;
    int nearly_liquefied_cells = 0;                                                ///< r_u 0.9 or more
    double water_squeezed_m3_m = 0, water_stored_m3_m = 0, water_drained_m3_m = 0; ///< since the start
    double water_error_m3_m = 0;
    bool after_rest =
        false; ///< recorded at the end of a rest in which water flowed, not of the work on a pile
};

/// History over the increments; each array has one value per recorded increment.
struct ResultsHistory {
    Eigen::ArrayXi pile, place_in_order, stroke, phase, iterations, halvings;
    Eigen::ArrayXd disc_area_m2, wall_pressure_kPa, disc_pressure_kPa, heave_strain,
        mean_relative_density_pct, vertical_stress_kPa, residual;
    Eigen::ArrayXd time_s, mean_excess_pressure_kPa, largest_excess_pressure_ratio; ///< empty up to version 2
};

/// Record of the half strokes; each array has one value per half stroke and pile driven in it,
/// or per time step of a rest. Means and points are of
/// the ground only, not numbers where there is none. Empty for a result of a version that did not record them.
struct ResultsHalfStrokes {
    Eigen::ArrayXi pile, place_in_order, stroke, phase;
    Eigen::ArrayXd injected_area_m2; ///< of the pile since its seed, full disc
    Eigen::ArrayXd disc_pressure_kPa, wall_pressure_kPa, heave_strain;
    Eigen::ArrayXd relative_density_pct, lateral_stress_ratio; ///< of the treated ground
    Eigen::ArrayXd total_injected_m2, densified_m3_m;          ///< since the start
    Eigen::ArrayXd efficiency;                                 ///< densified over total injected
    Eigen::ArrayXd time_s, excess_pressure_kPa;            ///< empty up to version 2, as point_pressure_kPa
    Eigen::ArrayXXd point_density_pct, point_stress_ratio; ///< points x half strokes: D_r, K
    Eigen::ArrayXXd point_pressure_kPa;                    ///< points x half strokes
};

/// Number in the file of the phase in which nothing is driven and water flows.
constexpr int rest_phase = 5;

/// What a pile does in a phase by the number in the file: "withdrawal".
std::string_view phase_in_words(int phase);

class ResultsReader {
public:
    /// Opens for reading while a run may still write (SWMR) or after it was killed.
    /// \throws io::FileTrouble if the file is missing or not a results file of this program
    explicit ResultsReader(const std::filesystem::path& file);
    ~ResultsReader();
    ResultsReader(ResultsReader&&) noexcept;

    const ResultsHeader& header() const;
    /// Number of complete stages: the minimum over all datasets written per stage.
    int stage_count() const;
    ResultsStage stage(int index) const;
    ResultsHistory history() const;
    ResultsHalfStrokes half_strokes() const;
    std::vector<std::string> warnings() const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace interpile::io
