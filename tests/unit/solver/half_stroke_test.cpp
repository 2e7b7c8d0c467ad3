// The record of half strokes against the plan, the conservation of solids and the stages of the same run.

#include "mesh/ground_area.h"
#include "solver/installation.h"
#include "solver/soil_parameters.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile;
using namespace interpile::solver;

namespace {

constexpr double spacing = 1.8, diameter = 0.7, casing = 0.4;

struct Recorder final : RunObserver {
    std::vector<HalfStrokeRecord> half_strokes;
    std::vector<IncrementRecord> increments;
    std::vector<StageRecord> stages;
    std::vector<std::size_t> half_strokes_at_stage;
    void on_half_stroke(const HalfStrokeRecord& r) override { half_strokes.push_back(r); }
    void on_increment(const IncrementRecord& r) override { increments.push_back(r); }
    void on_stage(const StageRecord& r) override {
        stages.push_back(r);
        half_strokes_at_stage.push_back(half_strokes.size());
    }
};

using Order = std::vector<std::vector<int>>;

/// Two piles in a closed cell of 3.6 x 1.8 m, two strokes each.
struct TwoPiles {
    mesh::Domain domain;
    mesh::Grid grid;
    Slice slice;
    InstallationPlan plan;
    Recorder recorder;

    explicit TwoPiles(Order order, double second_diameter = diameter) {
        domain.high = {2 * spacing, spacing};
        domain.side.fill(mesh::BoundaryKind::Symmetry);
        const std::vector<mesh::Vec2> centers = {{0.5 * spacing, 0.5 * spacing},
                                                 {1.5 * spacing, 0.5 * spacing}};
        grid = mesh::make_grid(domain, centers, {0.09, 2, 1.2});
        slice.vertical_stress_kPa = 60;
        slice.void_ratio = 0.85;
        for (const auto& center : centers)
            plan.piles.push_back({center, diameter});
        plan.piles.back().diameter_m = second_diameter;
        plan.order = std::move(order);
        plan.strokes = {casing, 2, diameter / (2 * std::numbers::sqrt3), 0.3, 0};
        plan.steps.increments_per_pile = 10;
        plan.steps.increments_per_half_stroke = 3;
        plan.record = {mesh::treated_area(centers, domain, diameter),
                       mesh::usual_points(centers, domain, diameter), spacing / 10};
        const auto soil = make_soil_model({"mohr-coulomb", {8000, 0.3, 33, 5, 0, 0}});
        const auto report = install_piles(grid, domain, slice, *soil, plan, recorder);
        REQUIRE(report.outcome == Outcome::Finished);
    }
};

} // namespace

TEST_CASE("piles driven together have a record each, in the order of the strokes") {
    const TwoPiles run({{0, 1}});
    const auto& records = run.recorder.half_strokes;
    REQUIRE(records.size() == 2 * 5); // casing pass, twice withdrawal and re-driving
    const Phase phases[] = {Phase::CasingPass, Phase::Withdrawal, Phase::Redrive, Phase::Withdrawal,
                            Phase::Redrive};
    const int strokes[] = {0, 1, 1, 2, 2};
    const double casing_area = std::numbers::pi * casing * casing / 4,
                 whole = std::numbers::pi * diameter * diameter / 4;
    const double planned[] = {casing_area, 0, (casing_area + whole) / 2, 0, whole};
    for (std::size_t k = 0; k < records.size(); ++k) {
        INFO("record " << k);
        const auto& r = records[k];
        CHECK(r.pile == static_cast<int>(k % 2));
        CHECK(r.place_in_order == 1);
        CHECK(r.phase == phases[k / 2]);
        CHECK(r.stroke == strokes[k / 2]);
        if (planned[k / 2] > 0)
            CHECK(r.injected_area_m2 == Approx(planned[k / 2]).epsilon(1e-6));
        else
            CHECK(r.disc_pressure_kPa <= 1.1 * 0.3 * 60 * 1.05);
        REQUIRE(r.point_density_pct.size() == 2);
        CHECK(r.total_injected_m2 ==
              Approx(records[k - k % 2].injected_area_m2 + records[k - k % 2 + 1].injected_area_m2));
    }
    // The cell is symmetric about its middle.
    CHECK(records[8].wall_pressure_kPa == Approx(records[9].wall_pressure_kPa).epsilon(1e-6));
}

TEST_CASE("each pile injects the area of its own diameter, pi d^2/4") {
    const Order order = GENERATE(Order{{0}, {1}}, Order{{0, 1}}, Order{{1, 0}});
    const double thin = 0.55;
    const TwoPiles run(order, thin);
    const double areas[] = {std::numbers::pi * diameter * diameter / 4, std::numbers::pi * thin * thin / 4};
    const double casing_area = std::numbers::pi * casing * casing / 4;
    double injected[] = {0, 0};
    for (const auto& r : run.recorder.half_strokes) {
        const double whole = areas[r.pile];
        if (r.phase == Phase::CasingPass)
            CHECK(r.injected_area_m2 == Approx(casing_area).epsilon(1e-6));
        if (r.phase == Phase::Redrive && r.stroke == 1)
            CHECK(r.injected_area_m2 == Approx((casing_area + whole) / 2).epsilon(1e-6));
        injected[r.pile] = r.injected_area_m2;
    }
    CHECK(injected[0] == Approx(areas[0]).epsilon(1e-6));
    CHECK(injected[1] == Approx(areas[1]).epsilon(1e-6));
    CHECK(run.recorder.half_strokes.back().total_injected_m2 == Approx(areas[0] + areas[1]).epsilon(1e-3));
}

TEST_CASE("efficiency follows from the heave of a closed cell") {
    // Solids of the soil outside the seeds are kept: e0 - e = (1 + e0) (1 - (A - s - a)(1 + h)/(A - s)) with cell area A,
    // seeds s, injected area a, heave h; their volume is (A - s)/(1 + e0).
    const TwoPiles run({{0, 1}});
    const double A = 2 * spacing * spacing;
    const double s = 2 * std::numbers::pi * std::pow(run.plan.strokes.seed_radius_m, 2);
    for (const auto& r : run.recorder.half_strokes) {
        const double a = r.total_injected_m2, h = std::expm1(r.heave_strain);
        const double densified = (A - s) - (A - s - a) * (1 + h);
        CHECK(r.densified_m3_m == Approx(densified).margin(2e-4));
        CHECK(r.efficiency == Approx(densified / a).margin(2e-3));
    }
}

TEST_CASE("the last record of a pile is the stage after it; sums run over all piles") {
    const TwoPiles run(Order{{1}, {0}});
    const auto& recorder = run.recorder;
    REQUIRE(recorder.stages.size() == 3);
    double densified = 0;
    for (std::size_t k = 1; k < 3; ++k) {
        REQUIRE(recorder.half_strokes_at_stage[k] == 5 * k);
        const auto& record = recorder.half_strokes[5 * k - 1];
        const auto& stage = recorder.stages[k];
        CHECK(record.place_in_order == static_cast<int>(k));
        CHECK(record.pile == stage.pile);
        densified += stage.balance.densified;
        CHECK(record.densified_m3_m == Approx(densified));
        CHECK(record.heave_strain == stage.heave_strain);

        const mesh::Grid grid{run.grid.cells_x, run.grid.cells_y, stage.node_m};
        const auto& share = stage.fields.at("pile_share");
        const auto treated = mesh::ground_area_m2(grid, share, run.plan.record.treated);
        CHECK(record.relative_density_pct ==
              Approx(mesh::area_mean(treated, stage.fields.at("relative_density_pct"))));
        for (Eigen::Index p = 0; p < 2; ++p) {
            const auto& at = run.plan.record.points[static_cast<std::size_t>(p)].at_m;
            const auto area = mesh::ground_area_m2(grid, share, at, spacing / 10);
            CHECK(record.point_density_pct[p] ==
                  Approx(mesh::area_mean(area, stage.fields.at("relative_density_pct"))));
            CHECK(record.point_stress_ratio[p] ==
                  Approx(mesh::lateral_stress_ratio(area, stage.fields.at("lateral_stress_kPa"),
                                                    stage.fields.at("vertical_stress_kPa"))));
        }
    }
    const double whole = std::numbers::pi * diameter * diameter / 4;
    CHECK(recorder.half_strokes.back().total_injected_m2 == Approx(2 * whole).epsilon(1e-3));
}
