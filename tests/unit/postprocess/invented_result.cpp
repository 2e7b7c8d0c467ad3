#include "invented_result.h"

#include "mesh/disc_fraction.h"

#include <cmath>
#include <numbers>

namespace interpile::tests {

using mesh::Vec2;

namespace {

mesh::Grid uniform_grid(const Vec2& low, const Vec2& high, double cell_m) {
    const Eigen::Vector2i cells = ((high - low) / cell_m).array().round().matrix().cast<int>();
    mesh::Grid grid{cells.x(), cells.y(), {}};
    grid.node_m.resize(2, grid.node_count());
    for (int j = 0; j <= cells.y(); ++j)
        for (int i = 0; i <= cells.x(); ++i)
            grid.node_m.col(grid.node_index(i, j)) =
                low + Vec2(i, j).cwiseQuotient(cells.cast<double>()).cwiseProduct(high - low);
    return grid;
}

/// A pile of radius 2 a0 pushes a ring at distance r0 to sqrt(r0^2 + 3 a0^2) (no change of volume), fading
/// away.
Vec2 push(const Vec2& from_center, double a0) {
    const double r = std::max(from_center.norm(), 1e-9);
    const double moved = r < a0 ? r : std::sqrt(r * r + 3 * a0 * a0) - r;
    return from_center / r * 0.35 * moved * std::exp(-r / 4);
}

void add_history(InventedResult& result) {
    std::vector<double> area, pressure;
    std::vector<int> pile, strokes, phases;
    for (Eigen::Index p = 0; p < result.header.pile_diameter_m.size(); ++p) {
        const double full = std::numbers::pi * std::pow(result.header.pile_diameter_m[p], 2) / 4;
        for (int stroke = 0; stroke < 15; ++stroke)
            for (int k = 0; k <= 20; ++k) {
                const double share = k / 20.0;
                const double at = full * (stroke + 1.15 * share - 0.15) / 15;
                area.push_back(full / 3 + at);
                pressure.push_back(30 +
                                   (350 + 12.0 * p) * (1 - std::exp(-6 * share)) * (0.7 + 0.3 * at / full));
                pile.push_back(static_cast<int>(p));
                strokes.push_back(stroke);
                phases.push_back(stroke == 0 ? 0 : k == 0 ? 1 : 2);
            }
    }
    auto& history = result.history;
    history.disc_area_m2 = Eigen::Map<Eigen::ArrayXd>(area.data(), area.size());
    history.wall_pressure_kPa = Eigen::Map<Eigen::ArrayXd>(pressure.data(), pressure.size());
    history.pile = Eigen::Map<Eigen::ArrayXi>(pile.data(), pile.size());
    history.place_in_order = history.pile + 1;
    history.stroke = Eigen::Map<Eigen::ArrayXi>(strokes.data(), strokes.size());
    history.phase = Eigen::Map<Eigen::ArrayXi>(phases.data(), phases.size());
}

} // namespace

InventedResult invented_result(const std::vector<Vec2>& centers, double diameter_m, const Vec2& low,
                               const Vec2& high, double cell_m) {
    InventedResult result;
    const int piles = static_cast<int>(centers.size());
    auto& header = result.header;
    header.case_name = "invented";
    header.title = "Invented site, slice of loose sand";
    header.program_version = "0.1.0";
    header.started = "2026-03-01T08:00:00Z";
    header.grid = uniform_grid(low, high, cell_m);
    header.side = {"rigid", "rigid", "rigid", "rigid"};
    header.pile_center_m.resize(2, piles);
    header.pile_diameter_m = Eigen::ArrayXd::Constant(piles, diameter_m);
    header.seed_radius_m = diameter_m / 2 / std::sqrt(3.0);
    header.depth_m = 6;
    header.initial_relative_density_pct = 35;
    header.initial_lateral_stress_ratio = 0.5;
    for (int pile = 0; pile < piles; ++pile) {
        header.pile_center_m.col(pile) = centers[pile];
        header.order.push_back(pile);
    }
    mesh::Domain domain;
    domain.low = low;
    domain.high = high;
    domain.side.fill(mesh::BoundaryKind::ConstantStress);
    header.treated = mesh::treated_area(centers, domain, diameter_m);
    header.points = mesh::usual_points(centers, domain, diameter_m);
    header.sampling_radius_m = 2 * cell_m;

    auto& stage = result.stage;
    stage.stage = piles;
    stage.pile = piles - 1;
    stage.disc_center_m = header.pile_center_m;
    stage.disc_radius_m = Eigen::ArrayXd::Constant(piles, 2 * header.seed_radius_m);
    const auto moved = [&](const Vec2& at) {
        Vec2 sum(0, 0);
        for (const auto& center : centers)
            sum += push(at - center, header.seed_radius_m);
        return sum;
    };
    stage.node_m = header.grid.node_m;

    const int cells = header.grid.cell_count();
    for (const auto& info : mesh::field_table())
        stage.fields[std::string(info.name)] = Eigen::ArrayXd::Zero(cells);
    for (int cell = 0; cell < cells; ++cell) {
        Vec2 middle(0, 0);
        std::array<Vec2, 4> corner;
        const auto node = header.grid.cell_nodes(cell);
        for (int k = 0; k < 4; ++k) {
            corner[k] = header.grid.node_m.col(node[k]);
            middle += corner[k] / 4;
        }
        double density = 35, stress = 30, share = 0;
        for (const auto& center : centers) {
            const double r = (middle - center).norm() / (2 * header.seed_radius_m);
            density += 20 * std::exp(-0.5 * std::pow((r - 1.2) / 1.3, 2));
            stress += 90 / std::max(1.0, r * r);
            share += mesh::disc_area_in_quadrilateral(center, 2 * header.seed_radius_m, corner) /
                     mesh::quadrilateral_area(corner);
        }
        const Vec2 movement = moved(middle);
        stage.fields["relative_density_pct"][cell] = (1 - share) * density - share * 60;
        stage.fields["lateral_stress_kPa"][cell] = (1 - share) * stress + share * 2000;
        stage.fields["lateral_stress_ratio"][cell] = stage.fields["lateral_stress_kPa"][cell] / 60;
        stage.fields["displacement_x_m"][cell] = movement.x();
        stage.fields["displacement_y_m"][cell] = movement.y();
        stage.fields["displacement_m"][cell] = movement.norm();
        stage.fields["stress_xy_kPa"][cell] = 20 * std::sin(middle.x()) * std::cos(middle.y());
        stage.fields["major_direction_deg"][cell] =
            std::atan(movement.y() / (movement.x() + 1e-12)) * 180 / std::numbers::pi;
        stage.fields["yield_state"][cell] = stress > 100 ? 2 : stress > 60 ? 1 : 0;
        stage.fields["pile_share"][cell] = share;
    }
    for (int n = 0; n < header.grid.node_count(); ++n)
        stage.node_m.col(n) += 0.02 * moved(header.grid.node_m.col(n));
    add_history(result);
    return result;
}

io::ResultsHalfStrokes invented_half_strokes(const io::ResultsHeader& header) {
    constexpr int per_pile = 5;
    const auto piles = header.pile_diameter_m.size(), rows = per_pile * piles;
    const auto points = static_cast<Eigen::Index>(header.points.size());
    io::ResultsHalfStrokes record;
    for (auto* column : {&record.pile, &record.place_in_order, &record.stroke, &record.phase})
        column->resize(rows);
    for (auto* column : {&record.injected_area_m2, &record.disc_pressure_kPa, &record.wall_pressure_kPa,
                         &record.heave_strain, &record.relative_density_pct, &record.lateral_stress_ratio,
                         &record.total_injected_m2, &record.densified_m3_m, &record.efficiency})
        column->setZero(rows);
    record.point_density_pct.resize(points, rows);
    record.point_stress_ratio.resize(points, rows);
    for (Eigen::Index row = 0; row < rows; ++row) {
        const auto step = static_cast<int>(row % per_pile);
        const double done = static_cast<double>(row + 1) / static_cast<double>(rows);
        const bool withdrawn = step % 2 == 1;
        record.pile[row] = static_cast<int>(row / per_pile);
        record.place_in_order[row] = record.pile[row] + 1;
        record.stroke[row] = (step + 1) / 2;
        record.phase[row] = step == 0 ? 0 : withdrawn ? 1 : 2;
        record.relative_density_pct[row] = 35 + 30 * std::sqrt(done) - (withdrawn ? 0.6 : 0);
        record.lateral_stress_ratio[row] = 0.5 + std::sqrt(done) - (withdrawn ? 0.2 : 0);
        for (Eigen::Index k = 0; k < points; ++k) {
            record.point_density_pct(k, row) =
                record.relative_density_pct[row] - 2.0 - static_cast<double>(k);
            record.point_stress_ratio(k, row) =
                record.lateral_stress_ratio[row] + 0.1 * static_cast<double>(k);
        }
    }
    return record;
}

InventedResult invented_three_by_three(double cell_m) {
    std::vector<Vec2> centers;
    for (int row = 0; row < 3; ++row)
        for (int column = 0; column < 3; ++column)
            centers.emplace_back(1.7 * column, 1.7 * row);
    return invented_result(centers, 0.70, {-6.8, -6.8}, {10.2, 10.2}, cell_m);
}

} // namespace interpile::tests
