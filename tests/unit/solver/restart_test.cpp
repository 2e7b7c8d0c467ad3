// A run that goes on from a saved state against the same run that was never broken off: to the last bit.

#include "solver/installation.h"
#include "solver/soil_parameters.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <memory>
#include <numbers>

using namespace interpile;
using namespace interpile::solver;

namespace {

constexpr double spacing = 1.8, diameter = 0.7;

/// Everything a run tells, as numbers in the order of telling; the states with how much was told before them.
struct Listener final : RunObserver {
    std::vector<double> told;
    std::vector<std::pair<std::size_t, RunState>> states;

    void on_increment(const IncrementRecord& r) override {
        tell({1.0 * r.pile, 1.0 * r.place_in_order, 1.0 * r.stroke, 1.0 * static_cast<int>(r.phase),
              r.disc_area_m2, r.wall_pressure_kPa, r.disc_pressure_kPa, r.heave_strain,
              r.mean_relative_density_pct, r.vertical_stress_kPa, r.residual, 1.0 * r.iterations,
              1.0 * r.halvings, r.time_s, r.mean_excess_pressure_kPa, r.largest_excess_pressure_ratio,
              r.share_done});
    }
    void on_half_stroke(const HalfStrokeRecord& r) override {
        tell({1.0 * r.pile, 1.0 * r.place_in_order, 1.0 * r.stroke, r.injected_area_m2,
              r.relative_density_pct, r.lateral_stress_ratio, r.total_injected_m2, r.densified_m3_m,
              r.efficiency, r.time_s, r.excess_pressure_kPa});
    }
    void on_stage(const StageRecord& r) override {
        tell({1.0 * r.stage, 1.0 * r.pile, r.heave_strain, r.balance.injected, r.balance.densified,
              r.balance.heaved, r.balance.pushed_out, r.mean_relative_density_pct, r.time_s,
              r.water_squeezed_m3_m, r.water_stored_m3_m, r.water_drained_m3_m});
        told.insert(told.end(), r.node_m.data(), r.node_m.data() + r.node_m.size());
        told.insert(told.end(), r.disc_radius_m.data(), r.disc_radius_m.data() + r.disc_radius_m.size());
        for (const auto& [name, field] : r.fields)
            told.insert(told.end(), field.data(), field.data() + field.size());
    }
    void on_warning(const std::string& text) override { tell({static_cast<double>(text.size())}); }
    bool wants_restart_point() override { return true; }
    void on_restart_point(const RunState& state) override { states.emplace_back(told.size(), state); }

    void tell(std::initializer_list<double> numbers) { told.insert(told.end(), numbers); }
};

/// A row of piles in a closed cell, each in 1.8 x 1.8 m, two strokes each.
struct RowOfPiles {
    mesh::Domain domain;
    mesh::Grid grid;
    Slice slice;
    InstallationPlan plan;
    std::unique_ptr<SoilModel> soil;

    RowOfPiles(const SoilModelChoice& choice, std::vector<std::vector<int>> order, int piles = 2)
        : soil(make_soil_model(choice)) {
        domain.high = {piles * spacing, spacing};
        domain.side.fill(mesh::BoundaryKind::Symmetry);
        std::vector<mesh::Vec2> centers;
        for (int k = 0; k < piles; ++k)
            centers.push_back({(k + 0.5) * spacing, 0.5 * spacing});
        grid = mesh::make_grid(domain, centers, {0.15, 2, 1.2});
        slice.vertical_stress_kPa = 60;
        slice.void_ratio = 0.85;
        for (const auto& center : centers)
            plan.piles.push_back({center, diameter});
        plan.order = std::move(order);
        plan.strokes = {0.4, 2, diameter / (2 * std::numbers::sqrt3), 0.3, 1.5};
        plan.steps.increments_per_pile = 10;
        plan.steps.increments_per_half_stroke = 3;
        plan.record = {mesh::treated_area(centers, domain, diameter), {}, spacing / 10};
    }

    RunReport run(Listener& listener, const RunState* from = nullptr) const {
        return install_piles(grid, domain, slice, *soil, plan, listener, from);
    }
};

/// From every `step`-th restart point on.
void check_every_restart_point(const RowOfPiles& work, std::size_t least_points, std::size_t step) {
    Listener whole;
    const RunReport report = work.run(whole);
    INFO(report.why);
    REQUIRE(report.outcome == Outcome::Finished);
    REQUIRE(whole.states.size() >= least_points);
    for (std::size_t k = 0; k < whole.states.size(); k += step) {
        INFO("restart point " << k << " of " << whole.states.size());
        const auto& [told_before, state] = whole.states[k];
        Listener rest;
        const RunReport end = work.run(rest, &state);
        CHECK(end.outcome == Outcome::Finished);
        CHECK(end.increments == report.increments);
        CHECK(end.iterations == report.iterations);
        CHECK(end.factorizations == report.factorizations);
        REQUIRE(rest.told.size() == whole.told.size() - told_before);
        std::size_t different = 0;
        for (std::size_t n = 0; n < rest.told.size(); ++n) {
            const double was = whole.told[told_before + n];
            different += rest.told[n] == was || (std::isnan(rest.told[n]) && std::isnan(was)) ? 0 : 1;
        }
        CHECK(different == 0);
    }
}

const SoilModelChoice plain_sand = {"mohr-coulomb", {8000, 0.3, 33, 5, 0, 0}};

} // namespace

TEST_CASE("a run goes on from any half stroke as if it had not been broken off") {
    check_every_restart_point(RowOfPiles(plain_sand, {{1}, {0}}), 12, 1);
}

TEST_CASE("piles driven together go on together") {
    check_every_restart_point(RowOfPiles(plain_sand, {{0, 1}}), 6, 2);
}

TEST_CASE("a run with flow of water goes on from half strokes and from steps of rests") {
    RowOfPiles work(plain_sand, {{2}, {0}, {1}}, 3);
    work.plan.water.drainage = Drainage::Coupled;
    work.plan.water.permeability_m_s = 1e-4;
    work.plan.water.leak_length_m = 4;
    work.plan.water.vertical_permeability_m_s = 1e-4;
    work.plan.water.pile_permeability_m_s = 1e-3;
    work.plan.water.smear_diameter_ratio = 1.6;
    work.plan.water.smear_permeability_ratio = 0.2;
    work.plan.schedule = {.casing_pass_s = 20,
                          .withdrawal_s = 10,
                          .redrive_s = 10,
                          .pile_s = 600,
                          .between_s = 300,
                          .day_s = 2000, // the third pile waits for the next day
                          .final_rest_s = 3600,
                          .rigs = 2,
                          .rig_offset_s = 200};
    work.plan.rig = {0, 1, 0};
    check_every_restart_point(work, 60, 13);
}

TEST_CASE("an undrained run goes on with its pore pressure") {
    RowOfPiles work(plain_sand, {{0}, {1}});
    work.plan.water.drainage = Drainage::Undrained;
    work.plan.water.saturation = 0.9;
    check_every_restart_point(work, 8, 1);
}

TEST_CASE("a state of another grid is refused") {
    Listener listener;
    const RowOfPiles work(plain_sand, {{0}, {1}});
    REQUIRE(work.run(listener).outcome == Outcome::Finished);
    RowOfPiles finer(plain_sand, {{0}, {1}});
    finer.grid = mesh::make_grid(finer.domain, {{0.9, 0.9}, {2.7, 0.9}}, {0.12, 2, 1.2});
    Listener ignored;
    CHECK_THROWS_AS(finer.run(ignored, &listener.states.at(3).second), std::invalid_argument);
}
