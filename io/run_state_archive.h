#pragma once
// The state of a run as a sequence of numbers: one description for writing and for reading it.

#include "solver/run_state.h"

#include <type_traits>

namespace interpile::io {

/// A structure to be written (const) or to be read.
template <class Given, class Structure>
concept Either = std::is_same_v<std::remove_const_t<Given>, Structure>;

void exchange(auto& a, Either<solver::SoilState> auto& s) {
    a(s.stress, s.void_ratio, s.history, s.yielding);
}
void exchange(auto& a, Either<solver::WaterBalance> auto& s) {
    a(s.squeezed, s.stored, s.through_sides, s.leaked);
}
void exchange(auto& a, Either<solver::KeptWater> auto& s) {
    a(s.pressure_kPa, s.time_s, s.balance);
}
void exchange(auto& a, Either<solver::KeptSlice> auto& s) {
    a(s.node_m, s.soil, s.heave, s.finished_share, s.smear_share, s.water);
}
void exchange(auto& a, Either<solver::PileDisc::Part> auto& s) {
    a(s.cell, s.share);
}
void exchange(auto& a, Either<solver::PileDisc> auto& s) {
    a(s.pile, s.planned_fraction, s.log_growth, s.seed_middle, s.parts);
}
void exchange(auto& a, Either<solver::SliceVolumes> auto& s) {
    a(s.driven, s.ground_in_cell, s.void_ratio, s.area_m2, s.thickness);
}
void exchange(auto& a, Either<solver::GroupSums> auto& s) {
    a(s.place, s.resting_pile, s.before, s.seed_area_m2, s.earlier_injected_m2, s.earlier_densified_m3_m);
}
void exchange(auto& a, Either<solver::WorkDone> auto& s) {
    a(s.half_strokes, s.rest_s, s.rest_step_s);
}
void exchange(auto& a, Either<solver::RigClock> auto& s) {
    a(s.ready_s, s.worked_today_s, s.day);
}
void exchange(auto& a, Either<solver::VolumeBalance> auto& s) {
    a(s.injected, s.densified, s.heaved, s.pushed_out);
}
void exchange(auto& a, Either<solver::RemarksMade> auto& s) {
    a(s.pressure, s.vertical_stress, s.density, s.contrast);
}
void exchange(auto& a, Either<solver::RunState> auto& s) {
    a(s.slice, s.discs, s.ever_yielded, s.sums);
    a(s.place, s.place_begun_s, s.resting, s.rest_s, s.done, s.direction, s.pending, s.rigs, s.stages);
    a(s.remarks, s.increments, s.iterations, s.factorizations);
}

} // namespace interpile::io
