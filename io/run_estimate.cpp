#include "io/run_estimate.h"

#include <algorithm>
#include <cmath>

namespace interpile::io {

RunEstimate estimate_run(const Case& run_case, const mesh::Grid& grid) {
    constexpr double iteration_s = 0.4e-6;   // per unknown
    constexpr double factorization_s = 5e-6; // per unknown
    constexpr double swing = 0.015;          // change of radius that a half stroke takes back
    // Small increments are met from the last one in a few iterations.
    const double iterations_per_increment = run_case.plan.steps.radius_step < 0.005 ? 4 : 15;

    constexpr double program_bytes = 5e7;

    const auto& strokes = run_case.plan.strokes;
    const auto& steps = run_case.plan.steps;
    const long half_strokes = 2L * strokes.strokes + (strokes.final_pressure_ratio > 0 ? 1 : 0);
    const auto groups = static_cast<long>(run_case.plan.order.size());

    RunEstimate estimate;
    estimate.cells = grid.cell_count();
    estimate.unknowns = 2L * grid.node_count() + 1;
    const double per_pile = std::max<double>(steps.increments_per_pile, std::log(2) / steps.radius_step);
    const double per_half_stroke =
        std::max<double>(steps.increments_per_half_stroke, swing / steps.radius_step);
    estimate.increments =
        groups * std::lround(per_pile + static_cast<double>(half_strokes) * per_half_stroke);
    const auto unknowns = static_cast<double>(estimate.unknowns);
    estimate.time_s =
        unknowns * (static_cast<double>(estimate.increments) * iterations_per_increment * iteration_s +
                    static_cast<double>(groups * (1 + half_strokes)) * factorization_s);
    estimate.memory_bytes =
        program_bytes + 8 * 5.7 * unknowns * std::log2(unknowns) + 2000.0 * estimate.cells;
    return estimate;
}

} // namespace interpile::io
