#include "tests/unit/io/results_support.h"

namespace interpile::tests {

pid_t in_child(const std::function<void()>& work) {
    const pid_t child = fork();
    if (child != 0)
        return child;
    int code = 0;
    try {
        work();
    } catch (...) {
        code = 1;
    }
    _exit(code);
}

std::string first_difference(const io::ResultsStage& read, const mesh::Grid& grid, int piles) {
    const solver::StageRecord wrote = synthetic_stage(grid, piles, read.stage);
    if (read.pile != wrote.pile)
        return "pile";
    if (read.converged != wrote.converged)
        return "converged";
    if (read.residual != wrote.residual)
        return "residual";
    if (read.heave_strain != wrote.heave_strain)
        return "heave_strain";
    if (read.injected_m3_m != wrote.balance.injected || read.densified_m3_m != wrote.balance.densified ||
        read.heaved_m3_m != wrote.balance.heaved || read.pushed_out_m3_m != wrote.balance.pushed_out)
        return "balance";
    if (read.mean_relative_density_pct != wrote.mean_relative_density_pct)
        return "mean_relative_density_pct";
    if (read.mean_void_ratio != wrote.mean_void_ratio)
        return "mean_void_ratio";
    if (read.time_s != wrote.time_s || read.mean_excess_pressure_kPa != wrote.mean_excess_pressure_kPa ||
        read.nearly_liquefied_cells != wrote.nearly_liquefied_cells)
        return "time and pressure";
    if (read.water_squeezed_m3_m != wrote.water_squeezed_m3_m ||
        read.water_stored_m3_m != wrote.water_stored_m3_m ||
        read.water_drained_m3_m != wrote.water_drained_m3_m ||
        read.water_error_m3_m != wrote.water_error_m3_m)
        return "water";
    if (read.node_m != wrote.node_m)
        return "node_m";
    if ((read.disc_radius_m != wrote.disc_radius_m).any())
        return "disc_radius_m";
    if (read.disc_center_m != wrote.disc_center_m)
        return "disc_center_m";
    for (const auto& [name, values] : wrote.fields) {
        const auto field = read.fields.find(name);
        if (field == read.fields.end() || field->second.size() != values.size() ||
            (field->second != values).any())
            return name;
    }
    return {};
}

std::string first_difference(const io::ResultsHistory& read) {
    for (Eigen::Index row = 0; row < read.pile.size(); ++row) {
        const solver::IncrementRecord wrote = synthetic_increment(static_cast<int>(row));
        const bool same = read.pile[row] == wrote.pile && read.place_in_order[row] == wrote.place_in_order &&
                          read.stroke[row] == wrote.stroke &&
                          read.phase[row] == static_cast<int>(wrote.phase) &&
                          read.iterations[row] == wrote.iterations && read.halvings[row] == wrote.halvings &&
                          read.disc_area_m2[row] == wrote.disc_area_m2 &&
                          read.wall_pressure_kPa[row] == wrote.wall_pressure_kPa &&
                          read.disc_pressure_kPa[row] == wrote.disc_pressure_kPa &&
                          read.heave_strain[row] == wrote.heave_strain &&
                          read.mean_relative_density_pct[row] == wrote.mean_relative_density_pct &&
                          read.vertical_stress_kPa[row] == wrote.vertical_stress_kPa &&
                          read.residual[row] == wrote.residual && read.time_s[row] == wrote.time_s &&
                          read.mean_excess_pressure_kPa[row] == wrote.mean_excess_pressure_kPa &&
                          read.largest_excess_pressure_ratio[row] == wrote.largest_excess_pressure_ratio;
        if (!same)
            return "increment " + std::to_string(row);
    }
    return {};
}

std::string first_difference(const io::ResultsHalfStrokes& read) {
    for (Eigen::Index row = 0; row < read.pile.size(); ++row) {
        const solver::HalfStrokeRecord wrote = synthetic_half_stroke(static_cast<int>(row));
        const bool same =
            read.pile[row] == wrote.pile && read.place_in_order[row] == wrote.place_in_order &&
            read.stroke[row] == wrote.stroke && read.phase[row] == static_cast<int>(wrote.phase) &&
            read.injected_area_m2[row] == wrote.injected_area_m2 &&
            read.disc_pressure_kPa[row] == wrote.disc_pressure_kPa &&
            read.wall_pressure_kPa[row] == wrote.wall_pressure_kPa &&
            read.heave_strain[row] == wrote.heave_strain &&
            read.relative_density_pct[row] == wrote.relative_density_pct &&
            read.lateral_stress_ratio[row] == wrote.lateral_stress_ratio &&
            read.total_injected_m2[row] == wrote.total_injected_m2 &&
            read.densified_m3_m[row] == wrote.densified_m3_m && read.efficiency[row] == wrote.efficiency &&
            (read.point_density_pct.col(row) == wrote.point_density_pct).all() &&
            (read.point_stress_ratio.col(row) == wrote.point_stress_ratio).all() &&
            (read.point_pressure_kPa.col(row) == wrote.point_pressure_kPa).all() &&
            read.time_s[row] == wrote.time_s && read.excess_pressure_kPa[row] == wrote.excess_pressure_kPa;
        if (!same)
            return "half stroke " + std::to_string(row);
    }
    return {};
}

} // namespace interpile::tests
