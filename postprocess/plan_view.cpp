#include "postprocess/plan_view.h"

#include "mesh/ground_area.h"
#include "postprocess/figure_style.h"
#include "postprocess/ground.h"
#include "postprocess/smoothing.h"

#include <fmt/format.h>

#include <cctype>

namespace interpile::postprocess {

using mesh::Vec2;

PlanView visible_part(const io::ResultsHeader& header, const mesh::Grid& grid, double margin_m) {
    if (margin_m < 0)
        margin_m = (header.pile_diameter_m.size() > 1 ? 1.5 : 1.0) * typical_spacing_m(header);
    const Vec2 low = header.pile_center_m.rowwise().minCoeff(),
               high = header.pile_center_m.rowwise().maxCoeff();
    const Vec2 margin = Vec2::Constant(margin_m);
    return {(low - margin).cwiseMax(grid.node_m.rowwise().minCoeff()),
            (high + margin).cwiseMin(grid.node_m.rowwise().maxCoeff())};
}

bool is_excess_pressure(const std::string& field) {
    return field == "excess_pore_pressure_kPa" || field == "excess_pressure_ratio";
}

bool is_stepwise(const std::string& field) {
    return field == "yield_state" || field == "major_direction_deg";
}

double least_range(const std::string& field) {
    return field == "excess_pore_pressure_kPa" ? 0.5 : field == "excess_pressure_ratio" ? 0.005 : 0;
}

void ShownValues::add(const ShownValues& others) {
    value.insert(value.end(), others.value.begin(), others.value.end());
    area_m2.insert(area_m2.end(), others.area_m2.begin(), others.area_m2.end());
}

namespace {

void add_if_visible(ShownValues& shown, const PlanView& view, const Vec2& at, double value, double area) {
    if (!view.contains(at))
        return;
    shown.value.push_back(value);
    shown.area_m2.push_back(area);
}

ShownValues shown_cells(const mesh::Grid& grid, const Eigen::ArrayXd& value, const std::vector<bool>& ground,
                        const PlanView& view) {
    const auto middle = mesh::cell_middles(grid);
    const auto area = mesh::cell_areas(grid);
    ShownValues shown;
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        if (ground[cell])
            add_if_visible(shown, view, middle.col(cell), value[cell], area[cell]);
    return shown;
}

ShownValues shown_nodes(const mesh::Grid& grid, const Eigen::ArrayXd& value, const std::vector<bool>& ground,
                        const PlanView& view) {
    const auto at_nodes = node_averages(grid, value, ground);
    const auto cell_area = mesh::cell_areas(grid);
    Eigen::ArrayXd area = Eigen::ArrayXd::Zero(grid.node_count());
    std::vector<bool> beside_pile(grid.node_count(), false);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell)) {
            area[node] += cell_area[cell] / 4;
            beside_pile[node] = beside_pile[node] || !ground[cell];
        }
    ShownValues shown;
    for (int node = 0; node < grid.node_count(); ++node)
        if (!beside_pile[node])
            add_if_visible(shown, view, grid.node_m.col(node), at_nodes[node], area[node]);
    return shown;
}

} // namespace

ShownValues shown_values(const std::string& field, const mesh::Grid& grid, const Eigen::ArrayXd& value,
                         const std::vector<bool>& ground, const PlanView& view) {
    ShownValues shown;
    if (!is_stepwise(field))
        shown = shown_nodes(grid, value, ground, view);
    return shown.value.empty() ? shown_cells(grid, value, ground, view) : shown;
}

BandScale plan_scale(const std::string& field, const ShownValues& shown) {
    const Eigen::Map<const Eigen::ArrayXd> values(shown.value.data(),
                                                  static_cast<Eigen::Index>(shown.value.size()));
    if (field == "yield_state") {
        auto scale = fixed_scale({-0.5, 0.5, 1.5, 2.5}, 1, values);
        scale.name = {"0", "1", "2"};
        return scale;
    }
    if (field == "major_direction_deg")
        return fixed_scale({-90, -60, -30, 0, 30, 60, 90}, 0, values);
    return band_scale(values, Eigen::Map<const Eigen::ArrayXd>(shown.area_m2.data(), values.size()),
                      least_range(field), figure_style().most_bands);
}

Label symbol_with_unit(const mesh::FieldInfo& info) {
    const auto unit = info.unit == "-" ? "\u2013" : info.unit;
    const auto letters = symbol(info.symbol);
    return letters.empty() ? plain(fmt::format("({})", unit)) : letters + plain(fmt::format(" ({})", unit));
}

Label name_with_symbol(const mesh::FieldInfo& info) {
    auto name = std::string(info.long_name);
    name.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(name.front())));
    return plain(name + (info.symbol.empty() ? "" : " ")) + symbol(info.symbol);
}

} // namespace interpile::postprocess
