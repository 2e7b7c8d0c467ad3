// Constants of the soil model, the critical state line of the site's sand among them.

#include "io/soil_constants.h"

#include "solver/soil_models/critical_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace interpile::io {

namespace {

/// Put the line of the site's sand in place of defaults; values that the user gave stay.
void derive_critical_line(CaseValues& values, double e_max, double e_min) {
    if (!values.has("soil.critical_line"))
        return;
    const std::string rule = values.text("soil.critical_line");
    if (rule != "bolton")
        for (const char* key : {"soil.crushing_constant", "soil.dilatancy_offset"})
            values.no_effect(key, fmt::format("with critical_line \"{}\"", rule));
    const std::array paths = {"soil.critical_line_void_ratio", "soil.critical_line_slope",
                              "soil.critical_line_exponent"};
    if (std::all_of(paths.begin(), paths.end(), [&](const char* path) { return values.given(path); })) {
        values.no_effect("soil.critical_line", "where all three constants of the line are given");
        return;
    }
    if (rule == "toyoura" || !(e_min < e_max))
        return;
    solver::CriticalLine line;
    std::string how;
    std::string_view source;
    if (rule == "toyoura-density") {
        line = solver::line_of_toyoura_density(e_max, e_min);
        how = "relative density of Toyoura sand in the critical state";
        source = "own choice";
    } else if (values.has("soil.crushing_constant") && values.has("soil.dilatancy_offset")) {
        const double Q = values.number("soil.crushing_constant"), R = values.number("soil.dilatancy_offset");
        line = solver::line_after_bolton(e_max, e_min, Q, R);
        how = fmt::format("e_max, e_min and I_D = {:g}/({:g} - ln p')", R, Q);
        source = "from memory of Bolton (1986); own choice";
    } else {
        return;
    }
    const std::array numbers = {line.e0, line.lambda_c, line.xi};
    for (std::size_t k = 0; k < paths.size(); ++k)
        values.derive_instead(paths[k], numbers[k], how, source);
}

} // namespace

solver::SoilModelChoice read_soil_constants(CaseValues& values, double e_max, double e_min) {
    solver::SoilModelChoice choice;
    if (!values.has("soil.model"))
        return choice;
    choice.name = values.text("soil.model");
    if (e_min < e_max) { // else a fault of its own
        choice.e_max = e_max;
        choice.e_min = e_min;
    }
    derive_critical_line(values, e_max, e_min);
    for (const KeyInfo& info : soil_keys(choice.name)) {
        const std::string path = fmt::format("soil.{}", info.key);
        if (!values.has(path)) {
            choice.values.clear();
            return choice;
        }
        choice.values.push_back(values.number(path));
    }
    return choice;
}

std::unique_ptr<solver::SoilModel> make_soil(const CaseValues& values,
                                             const solver::SoilModelChoice& choice) {
    if (choice.values.empty())
        return nullptr;
    try {
        return solver::make_soil_model(choice);
    } catch (const solver::InvalidParameter& invalid) {
        values.fault("soil.model", "has parameters that do not fit together", invalid.what());
        return nullptr;
    }
}

} // namespace interpile::io
