#include "io/critical_state_report.h"

#include "solver/soil_models/critical_line.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::io {

namespace {

/// Laboratories find e_max and e_min of one sand this far apart: 0.988 and 0.616 are known of Toyoura sand too.
constexpr double usual_scatter = 0.02;

std::optional<solver::CriticalLine> line_of(const solver::SoilModelChoice& soil) {
    const auto e0 = parameter_value(soil, "critical_line_void_ratio");
    const auto slope = parameter_value(soil, "critical_line_slope");
    const auto exponent = parameter_value(soil, "critical_line_exponent");
    if (!e0 || !slope || !exponent)
        return std::nullopt;
    return solver::CriticalLine{*e0, *slope, *exponent};
}

double relative_density_pct(const solver::SoilModelChoice& soil, double void_ratio) {
    return 100 * (soil.e_max - void_ratio) / (soil.e_max - soil.e_min);
}

} // namespace

std::string critical_line_text(const solver::SoilModelChoice& soil) {
    const auto line = line_of(soil);
    return line ? fmt::format("e_c = {:.4g} - {:.4g} (p'/p_a)^{:.4g}", line->e0, line->lambda_c, line->xi)
                : std::string();
}

std::string critical_state_text(const solver::SoilModelChoice& soil, double mean_stress_kPa) {
    const auto e = make_soil_model(soil)->void_ratio_at_critical_state(mean_stress_kPa);
    return e ? fmt::format("void ratio {:.4g}, relative density {:.3g} %", *e, relative_density_pct(soil, *e))
             : std::string();
}

std::string critical_line_remark(const solver::SoilModelChoice& soil, double mean_stress_kPa) {
    const auto line = line_of(soil);
    const auto& toyoura = solver::toyoura_line;
    if (!line || line->e0 != toyoura.e0 || line->lambda_c != toyoura.lambda_c || line->xi != toyoura.xi)
        return {};
    if (std::abs(soil.e_max - solver::toyoura_e_max) < usual_scatter &&
        std::abs(soil.e_min - solver::toyoura_e_min) < usual_scatter)
        return {};
    return fmt::format("The critical state line is that of Toyoura sand (e_max {:g}, e_min {:g}); with e_max "
                       "{:g} and e_min {:g} of this "
                       "ground it lies at a relative density of {:.3g} % at a mean stress of {:.3g} kPa. "
                       "soil.critical_line derives a "
                       "line from e_max and e_min.",
                       solver::toyoura_e_max, solver::toyoura_e_min, soil.e_max, soil.e_min,
                       relative_density_pct(soil, line->void_ratio(mean_stress_kPa)), mean_stress_kPa);
}

} // namespace interpile::io
