#pragma once
// Input and answer common to the simple design methods.

#include <limits>
#include <string>
#include <vector>

namespace interpile::solver {

/// A  chart of N after against N before    B  void ratios, clean sand
/// C  B with the gain of N reduced for fines    D  B with the effective share of the pile's volume
enum class DesignMethod { A, B, C, D };

/// One layer before treatment.
struct LayerState {
    double effective_stress_kPa = 0; ///< vertical, >= 0
    double fines_pct = 0;            ///< 0 .. 100
    double blow_count = 0;           ///< N0 as measured, >= 0
};

/// What a method says of one layer. Method A knows no density: its densities and void ratios are NaN.
struct DesignResult {
    static constexpr double none = std::numeric_limits<double>::quiet_NaN();

    DesignMethod method = DesignMethod::B;
    double blow_count_before = none;           ///< N0
    double blow_count_after = none;            ///< N1 between piles
    double clean_blow_count_after = none;      ///< N1 without the reduction beta (C), else N1
    double relative_density_before_pct = none; ///< not limited to 100
    double relative_density_after_pct = none;  ///< not limited to 100; of C that of the clean N1
    double void_ratio_before = none;           ///< e0
    double void_ratio_after = none;            ///< e1
    double fines_factor = 1;                   ///< beta of C, R_c of D, else 1
    double replacement_ratio = none;           ///< a_s [-]
    std::string outside; ///< why the method does not hold here; empty: it holds. Numbers are not clipped
    std::vector<std::string> remarks; ///< outside the range of fines or of practice, caps in force
};

} // namespace interpile::solver
