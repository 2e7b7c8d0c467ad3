// The keys of [soil] besides the model.

#include "io/vocabulary.h"
#include "solver/soil_parameters.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::io {

namespace {

using enum Presence;
using enum ValueType;

KeyInfo soil_key(const solver::ParameterInfo& parameter) {
    const bool needed = std::isnan(parameter.standard);
    return {"soil",
            parameter.key,
            Number,
            needed ? Required : Default,
            needed ? std::string() : fmt::format("{}", parameter.standard),
            parameter.low,
            parameter.high,
            {},
            parameter.meaning,
            parameter.source};
}

} // namespace

std::vector<std::string> soil_model_names() {
    std::vector<std::string> names;
    for (const auto& model : solver::soil_model_table())
        names.emplace_back(model.name);
    return names;
}

std::vector<KeyInfo> soil_keys(std::string_view model) {
    std::vector<KeyInfo> keys;
    for (const auto& info : solver::soil_model_table()) {
        if (info.name != model)
            continue;
        for (const auto& parameter : info.parameters)
            keys.push_back(soil_key(parameter));
    }
    return keys;
}

std::vector<KeyInfo> soil_rule_keys(std::string_view model) {
    if (model != "two-surface-sand")
        return {};
    constexpr std::string_view bolton =
        "quartz sand, from memory of Bolton (1986), Geotechnique 36(1), 65-78; the range "
        "keeps out grains that crush below 1 MPa (own choice)";
    return {
        {"soil",
         "critical_line",
         Word,
         Default,
         "toyoura",
         0,
         0,
         {"toyoura", "toyoura-density", "bolton"},
         "where critical_line_void_ratio, _slope and _exponent come from unless they are given: Toyoura "
         "sand; the "
         "relative density of Toyoura sand in the critical state with e_max and e_min of the site; e_max and "
         "e_min with "
         "I_D = R/(Q - ln p'), where Bolton's relative dilatancy vanishes, fitted over 10 .. 1000 kPa; all "
         "other constants stay",
         "toyoura: the default constants belong together; both rules for other sands are own choices"},
        {"soil",
         "crushing_constant",
         Number,
         Default,
         "10",
         9,
         12,
         {},
         "Q of critical_line \"bolton\", without effect else",
         bolton},
        {"soil",
         "dilatancy_offset",
         Number,
         Default,
         "1",
         0.25,
         2,
         {},
         "R of critical_line \"bolton\", without effect else",
         bolton},
    };
}

} // namespace interpile::io
