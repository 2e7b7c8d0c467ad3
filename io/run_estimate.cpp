#include "io/run_estimate.h"

#include <cmath>

namespace interpile::io {

RunEstimate estimate_run(const Case& run_case, const mesh::Grid& grid) {
    constexpr double iterations_per_increment = 15;
    constexpr double iteration_s = 0.35e-6;  // per unknown
    constexpr double factorization_s = 5e-6; // per unknown

    constexpr double program_bytes = 5e7;

    const auto& strokes = run_case.plan.strokes;
    const auto& steps = run_case.plan.steps;
    const long half_strokes = 2L * strokes.strokes + (strokes.final_pressure_ratio > 0 ? 1 : 0);
    const auto groups = static_cast<long>(run_case.plan.order.size());

    RunEstimate estimate;
    estimate.cells = grid.cell_count();
    estimate.unknowns = 2L * grid.node_count() + 1;
    estimate.increments =
        groups * (steps.increments_per_pile + half_strokes * steps.increments_per_half_stroke);
    const auto unknowns = static_cast<double>(estimate.unknowns);
    estimate.time_s =
        unknowns * (static_cast<double>(estimate.increments) * iterations_per_increment * iteration_s +
                    static_cast<double>(groups * (1 + half_strokes)) * factorization_s);
    estimate.memory_bytes =
        program_bytes + 8 * 5.7 * unknowns * std::log2(unknowns) + 2000.0 * estimate.cells;
    return estimate;
}

} // namespace interpile::io
