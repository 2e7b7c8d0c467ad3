#pragma once
// What one member of a study has given, and the file that keeps it.

#include "io/case_file.h"

#include <filesystem>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace interpile::io {

/// NotRun: no result yet. Failed: an error ended it, or the process was ended; tried again by the next call.
enum class MemberState { NotRun, Converged, NotConverged, Failed };

/// "not run", "converged", "not converged", "failed".
std::string_view in_words(MemberState state);

/// Numbers are not numbers where they are not known.
struct MemberResult {
    static constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

    MemberState state = MemberState::NotRun;
    std::string reason;    ///< of NotConverged and Failed
    bool densifies = true; ///< false: the soil model cannot densify by strokes, D_r is no prediction
    double depth_m = unknown;
    double vertical_stress_kPa = unknown; ///< sigma_v', effective
    double e_max = unknown, e_min = unknown;
    double spacing_m = unknown;           ///< of a pattern
    double replacement_ratio = unknown;   ///< a_s [-]
    double density_before_pct = unknown;  ///< D_r
    double stress_ratio_before = unknown; ///< K0
    double density_pct = unknown;         ///< D_r after, mean of the ground between the piles
    double weakest_density_pct = unknown;
    double centroid_density_pct = unknown;
    double mid_span_density_pct = unknown;
    double stress_ratio = unknown;            ///< K after, mean of the ground between the piles
    double heave_pct = unknown;               ///< of the thickness, upward positive
    double efficiency = unknown;              ///< densified over injected
    double mid_span_pressure_ratio = unknown; ///< largest r_u there
    double time_to_10_pct_min = unknown;      ///< of the mean excess pressure, after the last pile
    double increments = unknown, iterations = unknown;
    double wall_time_s = unknown;

    bool finished() const { return state == MemberState::Converged || state == MemberState::NotConverged; }
};

/// One number of a result with what a reader of a table must know.
struct MemberColumn {
    const char* name; ///< carries the unit
    double MemberResult::*value;
    const char *symbol, *unit, *meaning;
};
/// In the order of the table; time and counts of iterations are not among them.
std::span<const MemberColumn> member_columns();

/// What the case alone says, before it is run.
MemberResult planned(const Case& member);

/// The text of the file that keeps a result (TOML); every digit is kept.
std::string result_text(const MemberResult& result);

/// Empty if there is no such file or it is not whole.
std::optional<MemberResult> read_result(const std::filesystem::path& file);

} // namespace interpile::io
