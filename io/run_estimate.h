#pragma once
// How large a run will be, before it begins.

#include "io/case_file.h"
#include "mesh/grid.h"

namespace interpile::io {

/// Sizes are exact but for the increments, which may be halved on the way; time and memory are rough (a
/// factor of 3).
struct RunEstimate {
    int cells = 0;
    long unknowns = 0;   ///< two displacements per node and the vertical strain
    long increments = 0; ///< planned, without halving
    double time_s = 0;
    double memory_bytes = 0;
};

/// Time: 15 iterations per increment, 0.35 us per unknown and iteration; one factorization per half stroke
/// and growth, 5 us per unknown. Memory: the factor has about 5.7 n log2(n) numbers for n unknowns; 2 kB per
/// cell for the rest. Source: own measurements on grids of 15 000 to 92 000 unknowns, one core of a two-core
/// machine of 2026.
RunEstimate estimate_run(const Case& run_case, const mesh::Grid& grid);

} // namespace interpile::io
