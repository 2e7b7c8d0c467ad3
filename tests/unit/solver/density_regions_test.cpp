// Ground that is looser or denser in places before treatment.

#include "solver/density_regions.h"
#include "solver/installation.h"
#include "solver/soil_models/elastic.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace interpile;
using namespace interpile::solver;

namespace {

DensityRegion rectangle(mesh::Vec2 low, mesh::Vec2 high, double e) {
    return {"", {mesh::PlanRegion::Shape::Rectangle, low, high}, e};
}

/// 4 x 3 m, cells of 0.1 m; e = 0.8 with a rectangle at 0.9 and a circle over its corner at 0.7.
struct Ground {
    mesh::Domain domain;
    mesh::Grid grid;
    Slice slice;
    Ground() {
        domain.high = {4, 3};
        grid = mesh::make_grid(domain, {{2, 1.5}}, {0.1, 5, 1});
        slice.void_ratio = 0.8;
        slice.vertical_stress_kPa = 70;
        slice.regions = {rectangle({0, 0}, {2, 1}, 0.9),
                         {"lens", mesh::PlanRegion::circle({2, 1}, 0.5), 0.7}};
    }
    int cell_at(double x, double y) const {
        return static_cast<int>(y / 0.1) * grid.cells_x + static_cast<int>(x / 0.1);
    }
};

class Stages final : public RunObserver {
public:
    void on_stage(const StageRecord& record) override { stages.push_back(record); }
    std::vector<StageRecord> stages;
};

} // namespace

TEST_CASE("a rectangle and a circle contain what they should, their borders too") {
    const auto box = rectangle({-1, 2}, {3, 4}, 0).place;
    CHECK(box.contains({-1, 4}));
    CHECK(box.contains({0, 3}));
    CHECK_FALSE(box.contains({-1.01, 3}));
    CHECK_FALSE(box.contains({0, 4.01}));
    const auto circle = mesh::PlanRegion::circle({1, 1}, 2);
    CHECK(circle.contains({3, 1}));
    CHECK(circle.contains({2.4, 2.4})); // 1.98 from the center
    CHECK_FALSE(circle.contains({2.5, 2.5}));
}

TEST_CASE("cells take the density of the last region that holds their middle") {
    const Ground ground;
    const auto e = initial_void_ratio(ground.grid, ground.slice);
    CHECK(e(ground.cell_at(0.55, 0.55)) == 0.9);
    CHECK(e(ground.cell_at(3.55, 2.55)) == 0.8);
    CHECK(e(ground.cell_at(1.95, 0.95)) == 0.7); // in both
    CHECK(e(ground.cell_at(2.25, 1.25)) == 0.7); // in the circle only
    CHECK((e == 0.9).count() + (e == 0.8).count() + (e == 0.7).count() == e.size());
    // A quarter of the circle is cut out of the rectangle. Counted by middles, a circle of 5 cells radius about a node
    // holds 80 of pi 25 = 78.5 cells.
    CHECK((e == 0.7).count() == 80);
    CHECK((e == 0.9).count() == 200 - 20);
}

TEST_CASE("the field before treatment has the regions, and the balance of volumes closes with them") {
    const Ground ground;
    InstallationPlan plan;
    plan.piles = {{{2, 1.5}, 0.4}};
    plan.order = {{0}};
    plan.strokes.seed_radius_m = 0.2 / std::numbers::sqrt3;
    plan.steps.tolerance = plan.steps.carry_over_tolerance = 1e-6;
    Stages seen;
    const Elastic soil(8000, 0.3);
    const auto report = install_piles(ground.grid, ground.domain, ground.slice, soil, plan, seen);
    REQUIRE(report.outcome == Outcome::Finished);
    REQUIRE(seen.stages.size() == 2);

    const auto e = initial_void_ratio(ground.grid, ground.slice);
    const auto& before = seen.stages[0].fields;
    CHECK((before.at("void_ratio") - e).abs().maxCoeff() == 0);
    // D_r = (e_max - e)/(e_max - e_min), definition
    CHECK((before.at("relative_density_pct") - 100 * (0.977 - e) / 0.380).abs().maxCoeff() < 1e-12);
    CHECK(before.at("volumetric_strain_pct").abs().maxCoeff() == 0);

    // Solids are kept in every cell, so the strain is that of the specific volume 1 + e.
    const auto& after = seen.stages[1].fields;
    CHECK((after.at("volumetric_strain_pct") / 100 - ((1 + e) / (1 + after.at("void_ratio"))).log())
              .abs()
              .maxCoeff() < 1e-12);
    const auto& balance = seen.stages[1].balance;
    CHECK(balance.injected > 0.9 * std::numbers::pi * 0.04);
    INFO("closing error " << balance.closing_error());
    CHECK(std::abs(balance.closing_error()) < 2e-3 * balance.injected);
}
