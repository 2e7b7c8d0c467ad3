#pragma once
// A result made up by formula: every number depends on its stage and place, so that a mixed-up, torn or
// missing row shows. Not a computation, and not meant to look like one.

#include "io/case_file.h"
#include "mesh/fields.h"
#include "solver/run_observer.h"

#include <array>
#include <string>

namespace interpile::tests {

/// Uniform grid of nx x ny cells of 0.1 m.
inline mesh::Grid synthetic_grid(int nx = 12, int ny = 7) {
    mesh::Grid grid;
    grid.cells_x = nx;
    grid.cells_y = ny;
    grid.node_m.resize(2, grid.node_count());
    for (int j = 0; j <= ny; ++j)
        for (int i = 0; i <= nx; ++i)
            grid.node_m.col(grid.node_index(i, j)) << 0.1 * i, 0.1 * j;
    return grid;
}

/// Three piles, driven 2, 0, 1; an invented site.
inline io::Case synthetic_case() {
    io::Case made_up;
    made_up.name = "synthetic";
    made_up.title = "Uferstraße, invented site, σ_v' = 55 kPa";
    made_up.text = "# invented\n[case]\ntitle = \"Uferstraße\"\n";
    made_up.slice.depth_m = 6;
    made_up.slice.vertical_stress_kPa = 55;
    made_up.slice.void_ratio = made_up.slice.void_ratio_at(42);
    made_up.domain.high = {1.2, 0.7};
    made_up.domain.side = {mesh::BoundaryKind::RigidSmooth, mesh::BoundaryKind::Symmetry,
                           mesh::BoundaryKind::ConstantStress, mesh::BoundaryKind::RigidSmooth};
    made_up.plan.strokes.seed_radius_m = 0.2021;
    for (const double x : {0.2, 0.6, 1.0})
        made_up.plan.piles.push_back({{x, 0.35}, 0.5 + x / 10});
    made_up.plan.order = {{2}, {0, 1}};
    made_up.plan.record = {mesh::TreatedArea({{0.2, 0.1}, {1.0, 0.1}, {1.0, 0.6}, {0.2, 0.6}}),
                           {{"mid-span", {0.4, 0.35}}, {"Böschung", {0.8, 0.6}}},
                           0.07};
    made_up.target_relative_density_pct = 75;
    made_up.settings = {{"case.title", "Uferstraße", false, ""},
                        {"layout.spacing_m", "0.4", true, "own choice"}};
    return made_up;
}

/// Value of entry `place` of array `number` in stage `stage`; exact in 32 bit floating point.
inline double synthetic_value(int stage, int number, Eigen::Index place) {
    return stage + number / 32.0 + static_cast<double>(place % 1024) / 65536.0;
}

inline solver::StageRecord synthetic_stage(const mesh::Grid& grid, int piles, int stage) {
    const auto fill = [stage](auto&& array, int number) {
        for (Eigen::Index place = 0; place < array.size(); ++place)
            array.data()[place] = synthetic_value(stage, number, place);
    };
    solver::StageRecord record;
    record.stage = stage;
    record.pile = stage - 1;
    record.converged = stage % 5 != 4;
    record.residual = synthetic_value(stage, 20, 0);
    record.heave_strain = synthetic_value(stage, 21, 0);
    record.balance = {synthetic_value(stage, 22, 0), synthetic_value(stage, 23, 0),
                      synthetic_value(stage, 24, 0), synthetic_value(stage, 25, 0)};
    record.mean_relative_density_pct = synthetic_value(stage, 26, 0);
    record.mean_void_ratio = synthetic_value(stage, 27, 0);
    record.time_s = synthetic_value(stage, 31, 0);
    record.mean_excess_pressure_kPa = synthetic_value(stage, 32, 0);
    record.nearly_liquefied_cells = 33 + stage;
    record.water_squeezed_m3_m = synthetic_value(stage, 34, 0);
    record.water_stored_m3_m = synthetic_value(stage, 35, 0);
    record.water_drained_m3_m = synthetic_value(stage, 36, 0);
    record.water_error_m3_m = synthetic_value(stage, 37, 0);
    record.node_m.resize(2, grid.node_count());
    record.disc_radius_m.resize(piles);
    record.disc_center_m.resize(2, piles);
    fill(record.node_m, 28);
    fill(record.disc_radius_m, 29);
    fill(record.disc_center_m, 30);
    int number = 0;
    for (const auto& info : mesh::field_table()) {
        auto& values = record.fields[std::string(info.name)];
        values.resize(grid.cell_count());
        fill(values, number++);
    }
    return record;
}

inline solver::IncrementRecord synthetic_increment(int index) {
    solver::IncrementRecord record;
    record.pile = index % 3;
    record.place_in_order = 1 + index % 7;
    record.stroke = index % 11;
    record.phase = static_cast<solver::Phase>(index % 4);
    record.disc_area_m2 = index + 0.1;
    record.wall_pressure_kPa = index + 0.2;
    record.disc_pressure_kPa = index + 0.3;
    record.heave_strain = index + 0.4;
    record.mean_relative_density_pct = index + 0.5;
    record.vertical_stress_kPa = index + 0.6;
    record.residual = index + 0.7;
    record.iterations = index % 13;
    record.halvings = index % 5;
    record.share_done = index / 1e6;
    record.time_s = index + 0.8;
    record.mean_excess_pressure_kPa = index + 0.9;
    record.largest_excess_pressure_ratio = index + 0.95;
    return record;
}

inline Eigen::ArrayXd two_values(double first, double second) {
    Eigen::ArrayXd values(2);
    values << first, second;
    return values;
}

inline solver::HalfStrokeRecord synthetic_half_stroke(int index) {
    solver::HalfStrokeRecord record;
    record.pile = index % 3;
    record.place_in_order = 1 + index % 7;
    record.stroke = index % 11;
    record.phase = static_cast<solver::Phase>(index % 6);
    record.injected_area_m2 = index + 0.1;
    record.disc_pressure_kPa = index + 0.2;
    record.wall_pressure_kPa = index + 0.3;
    record.heave_strain = index + 0.4;
    record.relative_density_pct = index + 0.5;
    record.lateral_stress_ratio = index + 0.6;
    record.total_injected_m2 = index + 0.7;
    record.densified_m3_m = index + 0.8;
    record.efficiency = index + 0.9;
    record.point_density_pct = two_values(index + 0.11, index + 0.12);
    record.point_stress_ratio = two_values(index + 0.21, index + 0.22);
    record.point_pressure_kPa = two_values(index + 0.31, index + 0.32);
    record.time_s = index + 0.41;
    record.excess_pressure_kPa = index + 0.42;
    return record;
}

} // namespace interpile::tests
