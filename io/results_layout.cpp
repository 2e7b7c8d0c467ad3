#include "io/results_layout.h"

#include "mesh/fields.h"

namespace interpile::io {

namespace {

constexpr const char* phases =
    "0 casing pass, 1 withdrawal, 2 re-driving, 3 relaxation, 4 growth without strokes";

std::vector<DatasetInfo> half_stroke_layout() {
    using enum Storage;
    const auto number = [](const char* name, Storage storage, const char* symbol, const char* unit,
                           const char* long_name, const char* sign) {
        return DatasetInfo{
            std::string("/half_strokes/") + name, {"half_stroke"}, storage, symbol, unit, long_name, sign};
    };
    return {
        number("pile", Integer, "", "-", "pile", "from 0; one row for each pile driven together"),
        number("stroke", Integer, "", "-", "stroke", "0 casing pass, then from 1"),
        number("phase", Integer, "", "-", "what the pile has done", phases),
        number("injected_area_m2", Real, "A_i", "m2", "injected area of the pile", "full disc"),
        number("disc_pressure_kPa", Real, "p_d'", "kPa", "mean in-plane effective stress inside the disc",
               "compression positive"),
        number("wall_pressure_kPa", Real, "σ_r'", "kPa",
               "radial effective stress at the wall, from the soil outside", "compression positive"),
        number("heave_strain", Real, "ε_z", "-", "vertical strain of the slice (logarithmic)",
               "heave positive"),
        number("relative_density_pct", Real, "D_r", "%", "mean relative density of the treated ground",
               "not clipped to 0 .. 100"),
        number("lateral_stress_ratio", Real, "K", "-",
               "mean horizontal over mean vertical effective stress of the treated ground", ""),
        number("total_injected_m2", Real, "", "m2", "injected area of all piles since the start",
               "part inside the domain"),
        number("densified_m3_m", Real, "", "m3/m", "loss of soil volume since the start", "denser positive"),
        number("efficiency", Real, "η", "-", "densified over total injected since the start",
               "1: all of it became density; negative: looser than before"),
        number("place_in_order", Integer, "", "-", "place of the pile in the order of work", "from 1"),
    };
}

std::vector<DatasetInfo> point_layout() {
    using enum Storage;
    return {
        {"/points/name", {"point"}, Text, "", "-", "observation points", ""},
        {"/points/position_m", {"point", "2"}, Real, "x, y", "m", "places of the points, fixed in space", ""},
        {"/points/relative_density_pct",
         {"half_stroke", "point"},
         Real,
         "D_r",
         "%",
         "mean relative density of the ground about the point",
         "not clipped to 0 .. 100; not a number where there is no ground"},
        {"/points/lateral_stress_ratio",
         {"half_stroke", "point"},
         Real,
         "K",
         "-",
         "mean horizontal over mean vertical effective stress of the ground about the point",
         "not a number where there is no ground"},
    };
}

std::vector<DatasetInfo> make_layout() {
    using enum Storage;
    std::vector<DatasetInfo> layout = {
        {"/case_text", {}, Text, "", "-", "case file as read", ""},
        {"/settings/key", {"setting"}, Text, "", "-", "key of each value in force", ""},
        {"/settings/value", {"setting"}, Text, "", "-", "value in force, in the unit of its key", ""},
        {"/settings/is_default",
         {"setting"},
         Integer,
         "",
         "-",
         "whether the value is a default",
         "0 given, 1 default"},
        {"/settings/source", {"setting"}, Text, "", "-", "source of a default", ""},

        {"/mesh/node_m", {"node", "2"}, Real, "x, y", "m", "initial node positions", ""},
        {"/mesh/cell_nodes",
         {"cell", "4"},
         Integer,
         "",
         "-",
         "nodes of each cell",
         "counterclockwise, from 0"},
        {"/mesh/side", {"side"}, Text, "", "-", "boundary kind", "west, east, south, north"},
        {"/mesh/moved_m", {"stage", "node", "2"}, Real, "x, y", "m", "current node positions", ""},

        {"/mesh/treated_area_m",
         {"corner", "2"},
         Real,
         "x, y",
         "m",
         "corners of the treated area",
         "counterclockwise"},

        {"/piles/center_m", {"pile", "2"}, Real, "x, y", "m", "planned pile centers", ""},
        {"/piles/diameter_m", {"pile"}, Real, "d", "m", "planned pile diameter", ""},
        {"/piles/order", {"place"}, Integer, "", "-", "pile by place in the order of work", "piles from 0"},
        {"/piles/radius_m",
         {"stage", "pile"},
         Real,
         "r",
         "m",
         "current radius of a circle of the pile's area",
         ""},
        {"/piles/moved_center_m", {"stage", "pile", "2"}, Real, "x, y", "m", "current pile centers", ""},

        {"/stage/pile", {"stage"}, Integer, "", "-", "pile just finished", "from 0; -1 before the first"},
        {"/stage/converged",
         {"stage"},
         Integer,
         "",
         "-",
         "whether the stage is a result",
         "1 converged, 0 saved for inspection only"},
        {"/stage/residual", {"stage"}, Real, "", "-", "worst nodal out-of-balance force over force sum", ""},
        {"/stage/heave_strain",
         {"stage"},
         Real,
         "ε_z",
         "-",
         "vertical strain of the slice (logarithmic)",
         "heave positive"},
        {"/stage/injected_m3_m",
         {"stage"},
         Real,
         "",
         "m3/m",
         "growth of the piles since the stage before",
         "growth positive"},
        {"/stage/densified_m3_m",
         {"stage"},
         Real,
         "",
         "m3/m",
         "loss of soil volume since the stage before",
         "denser positive"},
        {"/stage/heaved_m3_m",
         {"stage"},
         Real,
         "",
         "m3/m",
         "rise of the slice since the stage before",
         "heave positive"},
        {"/stage/pushed_out_m3_m",
         {"stage"},
         Real,
         "",
         "m3/m",
         "movement of the sides since the stage before",
         "outward positive"},
        {"/stage/mean_relative_density_pct",
         {"stage"},
         Real,
         "D_r",
         "%",
         "mean relative density of the soil",
         "not clipped to 0 .. 100"},
        {"/stage/mean_void_ratio", {"stage"}, Real, "e", "-", "mean void ratio of the soil", ""},
        {last_of_stage, {"stage"}, Integer, "", "-", "number of the stage", "0 before the first pile"},

        {"/history/pile", {"increment"}, Integer, "", "-", "pile being made", "from 0; the first of a group"},
        {"/history/stroke", {"increment"}, Integer, "", "-", "stroke", "0 casing pass, then from 1"},
        {"/history/phase", {"increment"}, Integer, "", "-", "what the pile is doing", phases},
        {"/history/disc_area_m2", {"increment"}, Real, "A", "m2", "area of the disc", ""},
        {"/history/wall_pressure_kPa",
         {"increment"},
         Real,
         "σ_r'",
         "kPa",
         "radial effective stress at the wall, from the soil outside",
         "compression positive"},
        {"/history/disc_pressure_kPa",
         {"increment"},
         Real,
         "p_d'",
         "kPa",
         "mean in-plane effective stress inside the disc",
         "compression positive"},
        {"/history/heave_strain",
         {"increment"},
         Real,
         "ε_z",
         "-",
         "vertical strain of the slice (logarithmic)",
         "heave positive"},
        {"/history/mean_relative_density_pct",
         {"increment"},
         Real,
         "D_r",
         "%",
         "mean relative density of the soil",
         "not clipped to 0 .. 100"},
        {"/history/vertical_stress_kPa",
         {"increment"},
         Real,
         "σ_v'",
         "kPa",
         "mean vertical effective stress",
         "compression positive"},
        {"/history/residual",
         {"increment"},
         Real,
         "",
         "-",
         "worst nodal out-of-balance force over force sum",
         ""},
        {"/history/iterations", {"increment"}, Integer, "", "-", "iterations of the increment", ""},
        {"/history/halvings", {"increment"}, Integer, "", "-", "halvings before the increment converged", ""},
        {"/history/share_done", {"increment"}, Real, "", "-", "share of the whole run", "0 .. 1"},
        {last_of_increment,
         {"increment"},
         Integer,
         "",
         "-",
         "place of the pile in the order of work",
         "from 1"},

        {"/warnings", {"warning"}, Text, "", "-", "remarks that belong to the result", ""},
    };
    for (const auto& of_record : {half_stroke_layout(), point_layout()})
        layout.insert(layout.end(), of_record.begin(), of_record.end());
    for (const auto& field : mesh::field_table())
        layout.push_back({"/fields/" + std::string(field.name),
                          {"stage", "cell"},
                          Single,
                          std::string(field.symbol),
                          std::string(field.unit),
                          std::string(field.long_name),
                          std::string(field.sign)});
    return layout;
}

} // namespace

const std::vector<DatasetInfo>& results_layout() {
    static const std::vector<DatasetInfo> layout = make_layout();
    return layout;
}

void describe(const hdf5::File& file, const DatasetInfo& info) {
    std::string axes;
    for (const auto& axis : info.axes)
        axes += (axes.empty() ? "" : ", ") + axis;
    hdf5::write_attribute(file, info.path, "axes", axes);
    hdf5::write_attribute(file, info.path, "unit", info.unit);
    hdf5::write_attribute(file, info.path, "symbol", info.symbol);
    hdf5::write_attribute(file, info.path, "long_name", info.long_name);
    hdf5::write_attribute(file, info.path, "sign", info.sign);
}

} // namespace interpile::io
