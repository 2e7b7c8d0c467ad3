#include "solver/soil_parameters.h"

#include "solver/soil_models/elastic.h"
#include "solver/soil_models/mohr_coulomb.h"

#include <cmath>
#include <numbers>

namespace interpile::solver {
namespace {

constexpr double required = std::numeric_limits<double>::quiet_NaN();

// The same two constants open every table.
constexpr ParameterInfo shear_modulus = {"shear_modulus_kPa",
                                         "G",
                                         required,
                                         10,
                                         1e6,
                                         "shear modulus",
                                         "site test; secant at about 0.1 % shear strain for loose to medium "
                                         "sand: 3000 .. 30000 (common practice, no source)"};
constexpr ParameterInfo poisson_ratio = {"poisson_ratio",
                                         "ν",
                                         0.3,
                                         0,
                                         0.4995,
                                         "Poisson's ratio",
                                         "drained sand 0.2 .. 0.35 (common practice, no source); near 0.5 "
                                         "only for undrained checks, which are slow"};

const SoilModelInfo* find(std::string_view name) {
    for (const auto& model : soil_model_table())
        if (model.name == name)
            return &model;
    return nullptr;
}

std::string faults(const SoilModelInfo& model, const std::vector<double>& values) {
    std::string text;
    for (std::size_t k = 0; k < values.size(); ++k) {
        const auto& p = model.parameters[k];
        if (!(values[k] >= p.low && values[k] <= p.high))
            text += std::string(p.key) + " = " + std::to_string(values[k]) + " is outside " +
                    std::to_string(p.low) + " .. " + std::to_string(p.high) + "; ";
    }
    return text;
}

MohrCoulombParameters mohr_coulomb_parameters(const std::vector<double>& v) {
    MohrCoulombParameters p;
    p.shear_modulus_kPa = v[0];
    p.poisson_ratio = v[1];
    p.friction_angle_deg = v[2];
    p.dilation_angle_deg = v[3];
    p.cohesion_kPa = v[4];
    p.tension_strength_kPa = v[5];
    if (p.dilation_angle_deg > p.friction_angle_deg)
        throw InvalidParameter(
            "dilation_angle_deg is larger than friction_angle_deg; shearing would create energy");
    const double apex = p.cohesion_kPa / std::tan(p.friction_angle_deg * std::numbers::pi / 180);
    if (p.tension_strength_kPa > apex)
        throw InvalidParameter("tension_strength_kPa is larger than cohesion x cot(friction angle) = " +
                               std::to_string(apex));
    return p;
}

MohrCoulombParameters tresca_parameters(const std::vector<double>& v) {
    MohrCoulombParameters p;
    p.shear_modulus_kPa = v[0];
    p.poisson_ratio = v[1];
    p.cohesion_kPa = v[2];
    p.friction_angle_deg = p.dilation_angle_deg = 0;
    p.tension_strength_kPa = std::numeric_limits<double>::max(); // total stress: no cut-off
    return p;
}

} // namespace

const std::vector<SoilModelInfo>& soil_model_table() {
    static const std::vector<SoilModelInfo> table = {
        {"elastic", "linear elastic in logarithmic strain; never yields", {shear_modulus, poisson_ratio}},
        {"tresca",
         "constant undrained strength, total stress; for clay and for checks",
         {shear_modulus,
          poisson_ratio,
          {"undrained_strength_kPa", "s_u", required, 0.1, 1e5, "undrained shear strength", "site test"}}},
        {"mohr-coulomb",
         "friction with constant dilation, drained; monotonic loading only",
         {shear_modulus,
          poisson_ratio,
          {"friction_angle_deg", "φ'", 33, 1, 55, "friction angle",
           "loose to medium clean sand 30 .. 36 (common practice, no source)"},
          {"dilation_angle_deg", "ψ", 3, -15, 25, "dilation angle; negative: the sand contracts when sheared",
           "φ' - 30 deg, not below 0 (common practice, no source)"},
          {"cohesion_kPa", "c'", 0, 0, 1e4, "cohesion", "clean sand has none"},
          {"tension_strength_kPa", "T", 0, 0, 1e4, "largest tension, at most c' cot φ'", "sand has none"}}},
    };
    return table;
}

std::unique_ptr<SoilModel> make_soil_model(const SoilModelChoice& choice) {
    const SoilModelInfo* model = find(choice.name);
    if (!model)
        throw InvalidParameter("no soil model is called \"" + choice.name + "\"");
    if (choice.values.size() != model->parameters.size())
        throw InvalidParameter("soil model " + choice.name + " takes " +
                               std::to_string(model->parameters.size()) + " parameters");
    if (const std::string text = faults(*model, choice.values); !text.empty())
        throw InvalidParameter(text);
    if (choice.name == "elastic")
        return std::make_unique<Elastic>(choice.values[0], choice.values[1]);
    if (choice.name == "tresca")
        return std::make_unique<MohrCoulomb>("tresca", tresca_parameters(choice.values));
    return std::make_unique<MohrCoulomb>("mohr-coulomb", mohr_coulomb_parameters(choice.values));
}

} // namespace interpile::solver
