#include "mesh/fields.h"

#include <stdexcept>

namespace interpile::mesh {

const std::vector<FieldInfo>& field_table() {
    static const std::vector<FieldInfo> table = {
        {"relative_density_pct", "D_r", "%", "relative density", "may pass 100 or fall below 0; not clipped"},
        {"void_ratio", "e", "-", "void ratio", ""},
        {"lateral_stress_ratio", "K", "-", "lateral stress ratio, mean of both directions", ""},
        {"lateral_stress_kPa", "σ_h'", "kPa", "mean horizontal effective stress", "compression positive"},
        {"major_lateral_stress_kPa", "σ_h1'", "kPa", "major horizontal effective stress",
         "compression positive"},
        {"minor_lateral_stress_kPa", "σ_h2'", "kPa", "minor horizontal effective stress",
         "compression positive"},
        {"major_direction_deg", "θ_1", "deg", "direction of the major horizontal stress",
         "counterclockwise from x, -90 to 90"},
        {"vertical_stress_kPa", "σ_v'", "kPa", "vertical effective stress", "compression positive"},
        {"mean_stress_kPa", "p'", "kPa", "mean effective stress", "compression positive"},
        {"stress_x_kPa", "σ_x'", "kPa", "effective stress in x", "compression positive"},
        {"stress_y_kPa", "σ_y'", "kPa", "effective stress in y", "compression positive"},
        {"stress_xy_kPa", "τ_xy", "kPa", "shear stress in plan",
         "positive with compression positive: opposite to the tension-positive convention"},
        {"displacement_x_m", "u_x", "m", "displacement in x", "positive towards +x"},
        {"displacement_y_m", "u_y", "m", "displacement in y", "positive towards +y"},
        {"displacement_m", "u", "m", "horizontal displacement", ""},
        {"volumetric_strain_pct", "ε_v", "%", "volumetric strain of the soil (logarithmic)",
         "compression positive"},
        {"shear_strain_pct", "γ", "%", "largest shear strain in plan (logarithmic, engineering)", ""},
        {"yield_state", "", "-", "yield state: 0 never yielded, 1 yielded earlier, 2 yielding now", ""},
        {"excess_pore_pressure_kPa", "Δu", "kPa", "excess pore pressure", "compression positive"},
        {"excess_pressure_ratio", "r_u", "-", "excess pore pressure ratio",
         "over the initial vertical effective stress; compression positive"},
        {"seepage_x_m_s", "v_x", "m/s", "specific discharge in x", "positive towards +x"},
        {"seepage_y_m_s", "v_y", "m/s", "specific discharge in y", "positive towards +y"},
        {"permeability_m_s", "k_h", "m/s", "horizontal permeability; 0 without flow", ""},
        {"pile_share", "w", "-", "share of the cell's area that is pile", ""},
    };
    return table;
}

const FieldInfo& field_info(std::string_view name) {
    for (const auto& info : field_table())
        if (info.name == name)
            return info;
    throw std::out_of_range("no result field is called \"" + std::string(name) + "\"");
}

} // namespace interpile::mesh
