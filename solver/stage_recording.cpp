#include "solver/stage_recording.h"

#include "solver/density_regions.h"
#include "solver/wall_pressure.h"

#include <cmath>
#include <numbers>

namespace interpile::solver {

StageRecording::StageRecording(const Momentum& momentum, std::size_t piles)
    : momentum_(momentum), discs_(piles) {
    ever_yielded_.setZero(momentum.initial().cell_count());
}

void StageRecording::note_yielding() {
    ever_yielded_ = ever_yielded_.max(momentum_.soil_state().yielding);
}

Eigen::ArrayXd StageRecording::share_outside(const std::vector<PileDisc*>& discs) const {
    // Every disc takes its share w of what a cell held when it was seeded; growth dilutes the rest.
    Eigen::ArrayXd share = Eigen::ArrayXd::Ones(momentum_.initial().cell_count());
    for (const PileDisc* disc : discs)
        if (disc)
            for (const auto& part : disc->parts)
                share(part.cell) *= 1 - PileDisc::pile_share(part.share, disc->log_growth);
    return share;
}

SliceVolumes StageRecording::volumes() const {
    SliceVolumes v;
    v.void_ratio = momentum_.soil_state().void_ratio;
    const Eigen::ArrayXd outside = share_outside(momentum_.active());
    v.area_m2.resize(outside.size());
    v.thickness.resize(outside.size());
    for (Eigen::Index cell = 0; cell < outside.size(); ++cell) {
        v.area_m2(cell) = momentum_.cell_area(static_cast<int>(cell));
        v.thickness(cell) = momentum_.thickness(static_cast<int>(cell));
    }
    v.ground_in_cell = v.area_m2 * v.thickness * outside;
    v.driven = (v.area_m2 * v.thickness * (1 - outside)).sum();
    return v;
}

VolumeBalance StageRecording::balance(const SliceVolumes& from, const SliceVolumes& to) {
    VolumeBalance b;
    b.injected = to.driven - from.driven;
    // Solids stay in their cell; their volume is (volume of the ground)/(1+e).
    b.densified = (from.ground_in_cell / (1 + from.void_ratio) * (from.void_ratio - to.void_ratio)).sum();
    b.heaved = (from.area_m2 * (to.thickness - from.thickness)).sum();
    b.pushed_out = ((to.area_m2 - from.area_m2) * to.thickness).sum();
    return b;
}

StageRecording::Means StageRecording::means() const {
    const Eigen::ArrayXd& e = momentum_.soil_state().void_ratio;
    const Eigen::ArrayXd share = share_outside(discs_);
    double solids = 0, voids = 0;
    for (Eigen::Index cell = 0; cell < e.size(); ++cell) {
        const double s = share(cell) * momentum_.cell_area(static_cast<int>(cell)) *
                         momentum_.thickness(static_cast<int>(cell)) / (1 + e(cell));
        solids += s;
        voids += s * e(cell);
    }
    return {voids / solids, momentum_.slice().relative_density_pct(voids / solids)};
}

mesh::Fields StageRecording::fields() const {
    const auto& soil = momentum_.soil_state();
    const Eigen::ArrayXd sx = soil.stress.col(0), sy = soil.stress.col(1), sv = soil.stress.col(2),
                         t = soil.stress.col(3);
    const Eigen::ArrayXd mean_h = 0.5 * (sx + sy);
    const Eigen::ArrayXd radius = (0.25 * (sx - sy).square() + t.square()).sqrt();
    const Eigen::Index cells = sx.size();

    mesh::Fields f;
    f["relative_density_pct"] =
        soil.void_ratio.unaryExpr([&](double e) { return momentum_.slice().relative_density_pct(e); });
    f["void_ratio"] = soil.void_ratio;
    f["stress_x_kPa"] = sx;
    f["stress_y_kPa"] = sy;
    f["stress_xy_kPa"] = t;
    f["vertical_stress_kPa"] = sv;
    f["lateral_stress_kPa"] = mean_h;
    f["major_lateral_stress_kPa"] = mean_h + radius;
    f["minor_lateral_stress_kPa"] = mean_h - radius;
    f["mean_stress_kPa"] = (sx + sy + sv) / 3;
    // Without vertical stress (an elastic check without overburden) there is no ratio; 0 keeps figures
    // readable.
    f["lateral_stress_ratio"] = (sv.abs() > 1e-9).select(mean_h / sv, 0.0);
    f["pile_share"] = pile_share();
    Eigen::ArrayXd &direction = f["major_direction_deg"], &u_x = f["displacement_x_m"],
                   &u_y = f["displacement_y_m"], &volumetric = f["volumetric_strain_pct"],
                   &shear = f["shear_strain_pct"], &yield = f["yield_state"];
    for (auto* field : {&direction, &u_x, &u_y, &volumetric, &shear, &yield})
        field->resize(cells);
    const Eigen::ArrayXd e0 = initial_void_ratio(momentum_.initial(), momentum_.slice());
    const Eigen::Matrix2Xd moved = momentum_.current().node_m - momentum_.initial().node_m;
    for (int cell = 0; cell < cells; ++cell) {
        direction(cell) = 0.5 * std::atan2(2 * t(cell), sx(cell) - sy(cell)) * 180 / std::numbers::pi;
        Eigen::Vector2d u = Eigen::Vector2d::Zero();
        for (int node : momentum_.initial().cell_nodes(cell))
            u += 0.25 * moved.col(node);
        u_x(cell) = u.x();
        u_y(cell) = u.y();
        volumetric(cell) = 100 * std::log((1 + e0(cell)) / (1 + soil.void_ratio(cell)));
        const CellStretch s =
            stretch(momentum_.diagonals(moved, cell), momentum_.diagonals(momentum_.initial().node_m, cell));
        shear(cell) = 100 * 2 * std::hypot(0.5 * (s.xx - s.yy), s.xy);
        yield(cell) = soil.yielding(cell) ? 2 : ever_yielded_(cell);
    }
    const PoreWater& water = momentum_.pore_water();
    f["excess_pore_pressure_kPa"] = water.pressure_kPa();
    f["excess_pressure_ratio"] = excess_pressure_ratio();
    f["seepage_x_m_s"] = f["seepage_y_m_s"] = Eigen::ArrayXd::Zero(cells);
    f["permeability_m_s"] = Eigen::ArrayXd::Zero(cells);
    if (water.water().drainage == Drainage::Coupled) {
        const FlowState state = momentum_.flow_state();
        const Eigen::Matrix2Xd discharge = water.discharge_m_s(state);
        f["seepage_x_m_s"] = discharge.row(0).transpose().array();
        f["seepage_y_m_s"] = discharge.row(1).transpose().array();
        f["permeability_m_s"] = water.permeability_m_s(state);
    }
    f["displacement_m"] = (u_x.square() + u_y.square()).sqrt();
    return f;
}

Eigen::ArrayXd StageRecording::excess_pressure_ratio() const {
    const double sigma_v0 = momentum_.slice().vertical_stress_kPa;
    const Eigen::ArrayXd& pressure = momentum_.pore_water().pressure_kPa();
    return sigma_v0 > 0 ? Eigen::ArrayXd(pressure / sigma_v0)
                        : Eigen::ArrayXd(Eigen::ArrayXd::Zero(pressure.size()));
}

Eigen::ArrayXd StageRecording::ground_pressure_ratio() const {
    return (pile_share() < 0.5).select(excess_pressure_ratio(), 0.0);
}

double StageRecording::mean_excess_pressure_kPa() const {
    const Eigen::ArrayXd& pressure = momentum_.pore_water().pressure_kPa();
    double area = 0, sum = 0;
    for (int cell = 0; cell < pressure.size(); ++cell) {
        area += momentum_.cell_area(cell);
        sum += momentum_.cell_area(cell) * pressure(cell);
    }
    return sum / area;
}

StageRecord StageRecording::record(const std::vector<mesh::Vec2>& planned_center) const {
    StageRecord r;
    r.heave_strain = momentum_.heave();
    r.node_m = momentum_.current().node_m;
    r.disc_radius_m.setZero(static_cast<Eigen::Index>(discs_.size()));
    r.disc_center_m.resize(2, static_cast<Eigen::Index>(discs_.size()));
    for (std::size_t k = 0; k < discs_.size(); ++k) {
        const auto column = static_cast<Eigen::Index>(k);
        r.disc_center_m.col(column) = planned_center[k];
        if (!discs_[k])
            continue;
        r.disc_radius_m(column) = disc_radius(momentum_, *discs_[k]);
        r.disc_center_m.col(column) = disc_center(momentum_, *discs_[k], planned_center[k]);
    }
    r.fields = fields();
    const Means m = means();
    r.mean_void_ratio = m.void_ratio;
    r.mean_relative_density_pct = m.relative_density_pct;
    const PoreWater& water = momentum_.pore_water();
    r.time_s = water.time_s();
    r.mean_excess_pressure_kPa = mean_excess_pressure_kPa();
    r.nearly_liquefied_cells = static_cast<int>((ground_pressure_ratio() >= nearly_liquefied_ratio).count());
    r.water_squeezed_m3_m = water.balance().squeezed;
    r.water_stored_m3_m = water.balance().stored;
    r.water_drained_m3_m = water.balance().through_sides + water.balance().leaked;
    r.water_error_m3_m = water.balance().closing_error();
    return r;
}

} // namespace interpile::solver
