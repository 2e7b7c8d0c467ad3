// Several plans on a page: what stands on it, shared colors, equal bytes.

#include "drawn_page.h"
#include "invented_result.h"
#include "postprocess/figures/plan_panels.h"
#include "postprocess/ground_summary.h"
#include "postprocess/label.h"

#include <catch2/catch.hpp>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

/// Three stages of one run; density rises by 5 points from one to the next.
std::vector<NamedStage> three_stages() {
    const auto result = invented_three_by_three(0.34);
    std::vector<NamedStage> panels;
    for (int k = 0; k < 3; ++k) {
        panels.push_back({result.header, result.stage, {}});
        panels.back().stage.fields["relative_density_pct"] += 5.0 * k;
    }
    return panels;
}

} // namespace

TEST_CASE("panels carry letters, stages and the numbers of each") {
    const auto panels = three_stages();
    const auto words = words_of(plan_panels(panels, "relative_density_pct"));
    for (const char* part : {"(a) after pile 9 of 9", "(b) after pile 9 of 9", "(c) after pile 9 of 9",
                             "3 stages, 6 m below ground", "x (m)", "y (m)", "planned diameter 0.70 m"})
        CHECK(has(words, part));
    CHECK_FALSE(has(words, "(d)"));
    for (const auto& [header, stage, run] : panels)
        CHECK(has(words, rounded(between_piles(header, stage, "relative_density_pct")->mean)));
}

TEST_CASE("runs are told by their names, and one that stopped is marked") {
    auto panels = three_stages();
    panels[0].run = "near";
    panels[1].run = "far";
    panels.pop_back();
    CHECK_FALSE(has(words_of(plan_panels(panels, "lateral_stress_ratio")), "NOT CONVERGED"));
    panels[1].stage.converged = false;
    const auto words = words_of(plan_panels(panels, "lateral_stress_ratio"));
    CHECK(has(words, "(a) near, after pile 9 of 9"));
    CHECK(has(words, "(b) far, stopped in pile 9"));
    CHECK(has(words, "2 runs"));
    CHECK(has(words, "NOT CONVERGED: saved for inspection"));
}

TEST_CASE("a page takes one to nine panels and is the same each time") {
    auto panels = three_stages();
    CHECK(svg_of(plan_panels(panels, "relative_density_pct")) ==
          svg_of(plan_panels(panels, "relative_density_pct")));
    CHECK_THROWS_AS(plan_panels({}, "relative_density_pct"), std::invalid_argument);
    panels.resize(10, panels.front());
    CHECK_THROWS_AS(plan_panels(panels, "relative_density_pct"), std::invalid_argument);
}
