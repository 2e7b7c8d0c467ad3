#include "solver/remarks.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::solver {
namespace {

// What a drive can give a casing is 1 to 3 MPa: common practice, no source.
constexpr double casing_limit_kPa = 3000;
// Times overburden; above it the vertical condition is not credible (own choice).
constexpr double vertical_limit = 4;
// Mean relative density beyond which the ground is denser than its densest state.
constexpr double density_limit_pct = 100;
// Largest over smallest coefficient of the pore water; leaves about four digits.
constexpr double contrast_limit = 1e12;

} // namespace

void Remarks::look_at(const IncrementRecord& r, double water_contrast) {
    if (water_contrast > contrast_limit && !made_.contrast) {
        made_.contrast = true;
        observer_.on_warning(fmt::format(
            "pile {}: coefficients of the pore water differ by a factor of {:.1g}; pressures hold "
            "about {:.0f} digits. Lessen the contrast of permeability or the durations",
            r.pile + 1, water_contrast, 16 - std::log10(water_contrast)));
    }
    if (r.wall_pressure_kPa > casing_limit_kPa && !made_.pressure) {
        made_.pressure = true;
        observer_.on_warning(
            fmt::format("pile {}: wall pressure {:.1f} MPa; a drive gives a casing 1 to 3 MPa (common "
                        "practice), the pile could not be built like this",
                        r.pile + 1, r.wall_pressure_kPa / 1000));
    }
    if (overburden_ > 0 && r.vertical_stress_kPa > vertical_limit * overburden_ && !made_.vertical_stress) {
        made_.vertical_stress = true;
        observer_.on_warning(
            fmt::format("pile {}: mean vertical stress {:.0f} kPa is {:.1f} x overburden; without heave "
                        "the slice is held too stiffly (vertical_condition = \"fixed\")",
                        r.pile + 1, r.vertical_stress_kPa, r.vertical_stress_kPa / overburden_));
    }
    if (r.mean_relative_density_pct > density_limit_pct && !made_.density) {
        made_.density = true;
        observer_.on_warning(
            fmt::format("pile {}: mean relative density {:.0f} %, denser than e_min; more area is "
                        "injected than the ground can take without heave",
                        r.pile + 1, r.mean_relative_density_pct));
    }
}

} // namespace interpile::solver
