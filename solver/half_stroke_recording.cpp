#include "solver/half_stroke_recording.h"

#include "mesh/ground_area.h"
#include "solver/wall_pressure.h"

namespace interpile::solver {

HalfStrokeRecording::HalfStrokeRecording(const Momentum& momentum, const StageRecording& recording,
                                         const InstallationPlan& plan)
    : momentum_(momentum), recording_(recording), plan_(plan) {}

void HalfStrokeRecording::begin_group(int place, const SliceVolumes& before) {
    sums_.place = place;
    sums_.resting_pile = -1;
    sums_.before = before;
    sums_.seed_area_m2.clear();
    for (const PileDisc* disc : momentum_.active())
        sums_.seed_area_m2.push_back(momentum_.disc_area(*disc));
}

void HalfStrokeRecording::begin_rest(int last_pile, const SliceVolumes& before) {
    sums_.resting_pile = last_pile;
    sums_.before = before;
    sums_.seed_area_m2.clear();
}

void HalfStrokeRecording::end_group() {
    const Total total = total_now();
    sums_.earlier_injected_m2 = total.injected_m2;
    sums_.earlier_densified_m3_m = total.densified_m3_m;
}

HalfStrokeRecording::Total HalfStrokeRecording::total_now() const {
    Total total = {sums_.earlier_injected_m2, sums_.earlier_densified_m3_m};
    total.densified_m3_m += StageRecording::balance(sums_.before, recording_.volumes()).densified;
    for (std::size_t k = 0; k < sums_.seed_area_m2.size(); ++k)
        total.injected_m2 += momentum_.disc_area(*momentum_.active()[k]) - sums_.seed_area_m2[k];
    return total;
}

HalfStrokeRecord HalfStrokeRecording::record_of_ground() const {
    const auto& grid = momentum_.current();
    const auto& soil = momentum_.soil_state();
    const Eigen::ArrayXd lateral = 0.5 * (soil.stress.col(0) + soil.stress.col(1));
    const Eigen::ArrayXd vertical = soil.stress.col(2);
    const Eigen::ArrayXd pile_share = recording_.pile_share();
    const auto density = [&](const Eigen::ArrayXd& area) { // linear in e: that of the mean is the mean
        return momentum_.slice().relative_density_pct(mesh::area_mean(area, soil.void_ratio));
    };
    const auto stress_ratio = [&](const Eigen::ArrayXd& area) {
        return mesh::lateral_stress_ratio(area, lateral, vertical);
    };

    HalfStrokeRecord r;
    const Eigen::ArrayXd treated = mesh::ground_area_m2(grid, pile_share, plan_.record.treated);
    r.relative_density_pct = density(treated);
    r.lateral_stress_ratio = stress_ratio(treated);
    const Eigen::ArrayXd& pressure = momentum_.pore_water().pressure_kPa();
    r.excess_pressure_kPa = mesh::area_mean(treated, pressure);
    r.time_s = momentum_.pore_water().time_s();
    const auto& points = plan_.record.points;
    r.point_density_pct.resize(static_cast<Eigen::Index>(points.size()));
    r.point_stress_ratio.resize(r.point_density_pct.size());
    r.point_pressure_kPa.resize(r.point_density_pct.size());
    for (std::size_t k = 0; k < points.size(); ++k) {
        const Eigen::ArrayXd area =
            mesh::ground_area_m2(grid, pile_share, points[k].at_m, plan_.record.sampling_radius_m);
        r.point_density_pct[static_cast<Eigen::Index>(k)] = density(area);
        r.point_stress_ratio[static_cast<Eigen::Index>(k)] = stress_ratio(area);
        r.point_pressure_kPa[static_cast<Eigen::Index>(k)] = mesh::area_mean(area, pressure);
    }
    return r;
}

std::vector<HalfStrokeRecord> HalfStrokeRecording::records(int stroke, Phase phase) const {
    HalfStrokeRecord record = record_of_ground();
    record.place_in_order = sums_.place;
    record.stroke = stroke;
    record.phase = phase;
    record.heave_strain = momentum_.heave();
    const Total total = total_now();
    record.total_injected_m2 = total.injected_m2;
    record.densified_m3_m = total.densified_m3_m;
    record.efficiency = total.injected_m2 > 0 ? total.densified_m3_m / total.injected_m2 : 0;

    std::vector<HalfStrokeRecord> all;
    if (sums_.resting_pile >= 0) {
        record.pile = sums_.resting_pile;
        all.push_back(record);
    }
    for (std::size_t k = 0; k < sums_.seed_area_m2.size(); ++k) {
        const PileDisc& disc = *momentum_.active()[k];
        record.pile = disc.pile;
        record.injected_area_m2 = (momentum_.disc_area(disc) - sums_.seed_area_m2[k]) / disc.planned_fraction;
        record.disc_pressure_kPa = momentum_.disc_pressure(disc);
        record.wall_pressure_kPa = wall_pressure(momentum_, disc, plan_.piles[disc.pile].center_m);
        all.push_back(record);
    }
    return all;
}

} // namespace interpile::solver
