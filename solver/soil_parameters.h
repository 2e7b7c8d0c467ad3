#pragma once
// Constants of the soil models, each with unit, default, range and source: the one place where they stand.
// The case reader, the help text and the reports use this table.

#include "solver/installation_plan.h"
#include "solver/soil_model.h"

#include <limits>
#include <memory>
#include <optional>
#include <string_view>
#include <vector>

namespace interpile::solver {

/// One numeric parameter of the table. `standard` is NaN where the user must give the value.
struct ParameterInfo {
    std::string_view key;    ///< in the case file; carries the unit
    std::string_view symbol; ///< UTF-8
    double standard;         ///< default
    double low, high;        ///< allowed range, both ends included
    std::string_view meaning;
    std::string_view source; ///< of default and range
};

/// A soil model as the case file names it.
struct SoilModelInfo {
    std::string_view name;    ///< as in the case file
    std::string_view meaning; ///< one line
    std::vector<ParameterInfo> parameters;
    StepSettings steps = {}; ///< how finely a slice of it is followed, unless the case says otherwise
};

/// All models the program knows.
const std::vector<SoilModelInfo>& soil_model_table();

/// \return the model of that name, or null
const SoilModelInfo* find_soil_model(std::string_view name);

/// Values for one model, in the order of its parameters in the table.
struct SoilModelChoice {
    std::string name = "mohr-coulomb";
    std::vector<double> values;
    double e_max = 0.977, e_min = 0.597; ///< of the ground, for laws that follow its relative density
};

/// A value of the choice by its key; empty if its model has no such parameter.
std::optional<double> parameter_value(const SoilModelChoice& choice, std::string_view key);

/// \throws InvalidParameter naming every value out of its range, or an unknown model
std::unique_ptr<SoilModel> make_soil_model(const SoilModelChoice& choice);

} // namespace interpile::solver
