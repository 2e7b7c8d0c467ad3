#include "solver/soil_parameters.h"

#include "solver/soil_models/bolton_sand.h"
#include "solver/soil_models/critical_line.h"
#include "solver/soil_models/elastic.h"
#include "solver/soil_models/mohr_coulomb.h"
#include "solver/soil_models/two_surface_sand.h"

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

constexpr std::string_view bolton =
    "quartz sand, from memory of Bolton (1986), Geotechnique 36(1), 65-78; range: own choice";
constexpr std::string_view toyoura =
    "Toyoura sand, from memory of Dafalias & Manzari (2004); range: own choice";

/// The cone turns within strains of about its size times p/G: larger steps lose density, and time as well; more hourglass
/// resistance holds a withdrawn wall back (DEVELOPERS.md).
StepSettings steps_of_two_surface_sand() {
    StepSettings steps;
    steps.radius_step = 0.002;
    steps.tolerance = 1e-2;
    steps.carry_over_tolerance = 3e-2;
    steps.hourglass = 0.01;
    return steps;
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

BoltonSandParameters bolton_sand_parameters(const SoilModelChoice& choice) {
    if (!(choice.e_min < choice.e_max))
        throw InvalidParameter("e_min is not below e_max");
    const auto& v = choice.values;
    BoltonSandParameters p;
    p.shear_modulus_kPa = v[0];
    p.stiffness_exponent = v[1];
    p.poisson_ratio = v[2];
    p.strength = {v[3], v[4], v[5], v[6], choice.e_max, choice.e_min};
    p.compaction_factor = v[7];
    p.compaction_threshold = v[8] / 100;
    return p;
}

TwoSurfaceConstants two_surface_constants(const std::vector<double>& v) {
    TwoSurfaceConstants k;
    double* const in_order[] = {&k.G0, &k.nu, &k.M,  &k.c,  &k.lambda_c, &k.e0,    &k.xi, &k.m,
                                &k.h0, &k.ch, &k.nb, &k.A0, &k.nd,       &k.z_max, &k.cz, &k.p_min};
    for (std::size_t n = 0; n < v.size(); ++n)
        *in_order[n] = v[n];
    return k;
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
        {"bolton-sand",
         "friction and dilation that follow density and stress; cycles of shear strain compact it",
         {{"shear_modulus_kPa", "G_100", required, 10, 1e6, "shear modulus at a mean stress of 100 kPa",
           shear_modulus.source},
          {"stiffness_exponent", "n", 0.5, 0, 1, "G = G_100 (p'/100 kPa)^n",
           "from memory of Hardin & Richart (1963), J. Soil Mech. Found. Div. ASCE 89(SM1)"},
          poisson_ratio,
          {"critical_friction_angle_deg", "φ_crit", 33, 25, 42, "friction angle at constant volume", bolton},
          {"crushing_constant", "Q", 10, 5, 12, "strength of the grains: I_R = I_D (Q - ln p') - R", bolton},
          {"dilatancy_offset", "R", 1, 0, 2, "I_R = I_D (Q - ln p') - R", bolton},
          {"least_index_stress_kPa", "p'_R", 150, 1, 500, "p' below it counts as this in I_R",
           "from memory of Bolton's reply (1987), Geotechnique 37(2); range: own choice"},
          {"compaction_factor", "f_C", 1, 0, 10,
           "on C1 = 7600 D_r^-2.5, the compaction by cycles; 0: none, densities are then no prediction",
           "1: from memory of Byrne (1991); tests of Martin, Finn & Seed (1975) give 1.4 at D_r 45 %; range: "
           "own choice"},
          {"compaction_threshold_pct", "γ_t", 0.005, 0, 0.1, "shear strain amplitude that does not compact",
           "from memory of Byrne (1991); range: own choice"}}},
        {"two-surface-sand",
         "critical-state sand whose strength and dilatancy follow its density and that cycles densify",
         {{"stiffness_constant", "G_0", 125, 20, 500, "elastic stiffness", toyoura},
          {"poisson_ratio", "ν", 0.05, 0, 0.4, "Poisson's ratio", toyoura},
          {"critical_stress_ratio", "M", 1.25, 0.8, 1.8, "q/p' at the critical state in compression",
           toyoura},
          {"extension_ratio", "c", 0.712, 0.6, 1,
           "critical stress ratio in extension over that in compression", toyoura},
          {"critical_line_slope", "λ_c", toyoura_line.lambda_c, 0.001, 0.3, "e_c = e_0 - λ_c (p'/p_a)^ξ",
           toyoura},
          {"critical_line_void_ratio", "e_0", toyoura_line.e0, 0.4, 2,
           "void ratio of the critical line at p' = 0", toyoura},
          {"critical_line_exponent", "ξ", toyoura_line.xi, 0.2, 1.2, "exponent of the critical line",
           toyoura},
          {"cone_size", "m", 0.05, 0.005, 0.1, "opening of the elastic cone",
           "0.01 in the paper; 0.05 costs less (own choice)"},
          {"hardening_constant", "h_0", 7.05, 0.1, 50, "plastic modulus", toyoura},
          {"hardening_density_constant", "c_h", 0.968, 0, 1.2, "plastic modulus, effect of density", toyoura},
          {"bounding_constant", "n_b", 1.1, 0, 10, "peak strength, effect of the state", toyoura},
          {"dilatancy_constant", "A_0", 0.704, 0, 5, "rate of volume change", toyoura},
          {"dilatancy_state_constant", "n_d", 3.5, 0, 15, "dilatancy, effect of the state", toyoura},
          {"fabric_limit", "z_max", 4, 0, 50, "largest fabric", toyoura},
          {"fabric_rate", "c_z", 600, 0, 1e4, "growth of fabric while dilating", toyoura},
          {"least_mean_stress_kPa", "p_min", 1, 0.1, 10, "floor of the mean stress",
           "own choice: withdrawn ground at almost no stress; 0.5 kPa gives the same density"}},
         steps_of_two_surface_sand()},
    };
    return table;
}

const SoilModelInfo* find_soil_model(std::string_view name) {
    for (const auto& model : soil_model_table())
        if (model.name == name)
            return &model;
    return nullptr;
}

std::optional<double> parameter_value(const SoilModelChoice& choice, std::string_view key) {
    if (const SoilModelInfo* model = find_soil_model(choice.name))
        for (std::size_t k = 0; k < model->parameters.size() && k < choice.values.size(); ++k)
            if (model->parameters[k].key == key)
                return choice.values[k];
    return std::nullopt;
}

std::unique_ptr<SoilModel> make_soil_model(const SoilModelChoice& choice) {
    const SoilModelInfo* model = find_soil_model(choice.name);
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
    if (choice.name == "bolton-sand")
        return std::make_unique<BoltonSand>(bolton_sand_parameters(choice));
    if (choice.name == "two-surface-sand")
        return std::make_unique<TwoSurfaceSand>(two_surface_constants(choice.values));
    return std::make_unique<MohrCoulomb>("mohr-coulomb", mohr_coulomb_parameters(choice.values));
}

} // namespace interpile::solver
