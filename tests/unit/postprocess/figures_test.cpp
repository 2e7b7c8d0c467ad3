#include "invented_result.h"
#include "mesh/ground_area.h"
#include "postprocess/canvas.h"
#include "postprocess/curve_labels.h"
#include "postprocess/figures.h"
#include "postprocess/figures/movement_arrows.h"
#include "postprocess/figures/plan_contour.h"
#include "postprocess/ground.h"
#include "postprocess/ground_summary.h"
#include "postprocess/layout_figure.h"
#include "temporary_folder.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <cstdio>
#include <memory>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

/// Text of a PDF by pdftotext of poppler-utils, one of the packages of a development machine.
std::string text_of(const std::filesystem::path& pdf) {
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(
        popen(("pdftotext -layout '" + pdf.string() + "' -").c_str(), "r"), pclose);
    std::string text;
    std::array<char, 4096> part{};
    while (const std::size_t n = fread(part.data(), 1, part.size(), pipe.get()))
        text.append(part.data(), n);
    return text;
}

/// The stage before the first pile is the same with uniform density.
FigureData figure_data(const InventedResult& result) {
    FigureData data{result.header, result.stage, result.stage, result.history,
                    invented_half_strokes(result.header)};
    data.before.stage = 0;
    data.before.pile = -1;
    data.before.fields["pile_share"].setZero();
    data.before.fields["relative_density_pct"].setConstant(35);
    return data;
}

std::string drawn_text(const InventedResult& result, const std::string& field) {
    const TemporaryFolder folder("interpile_text");
    FigureSettings settings;
    settings.formats = {FigureFormat::Pdf};
    settings.fields = {field};
    return text_of(draw_figures(figure_data(result), folder.path(), settings).at(0));
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("equal results give equal files in every format", "[figures]") {
    const auto result = invented_three_by_three(0.34);
    const TemporaryFolder one("interpile_first"), two("interpile_second");
    const auto first = draw_figures(figure_data(result), one.path(), {});
    const auto second = draw_figures(figure_data(result), two.path(), {});
    REQUIRE(first.size() == 27); // four fields and five other figures, three formats each
    for (std::size_t k = 0; k < first.size(); ++k) {
        INFO(first[k].filename());
        CHECK(bytes_of(first[k]).size() > 5000);
        CHECK(bytes_of(first[k]) == bytes_of(second[k]));
    }
}

TEST_CASE("a figure says what it shows", "[figures]") {
    auto result = invented_three_by_three(0.34);
    const auto text = drawn_text(result, "lateral_stress_kPa");
    CHECK(has(text, "Invented site, slice of loose sand"));
    CHECK(has(text, "Mean horizontal effective stress"));
    CHECK(has(text, "after pile 9 of 9, 6 m below ground"));
    CHECK(has(text, "σ"));
    CHECK(has(text, "\u2032"));
    CHECK(has(text, "(kPa)"));
    CHECK(has(text, "x (m)"));
    CHECK(has(text, "compression positive"));
    CHECK(has(text, "planned diameter 0.70 m"));
    CHECK(has(text, "to be checked by a licensed engineer against local codes and post-treatment tests"));
    CHECK_FALSE(has(text, "NOT CONVERGED"));
    CHECK(has(drawn_text(result, "pressure_history"), "wall pressure (kPa)"));
    CHECK(has(drawn_text(result, "shear_strain_pct"), "γ"));
    CHECK(has(drawn_text(result, "volumetric_strain_pct"), "ε"));
    CHECK_THROWS_AS(drawn_text(result, "density"), std::out_of_range);
}

TEST_CASE("a figure warns where its values must not be used", "[figures]") {
    auto result = invented_three_by_three(0.34);
    CHECK_FALSE(has(drawn_text(result, "relative_density_pct"), "not a prediction"));
    result.header.monotonic_density = true;
    CHECK(has(drawn_text(result, "relative_density_pct"), "does not densify under repeated strokes"));
    CHECK(has(drawn_text(result, "relative_density_pct"), "not a prediction"));
    CHECK_FALSE(has(drawn_text(result, "lateral_stress_ratio"), "not a prediction"));
    result.stage.converged = false;
    const auto text = drawn_text(result, "lateral_stress_ratio");
    CHECK(has(text, "stopped in pile 9, 8 of 9 finished"));
    CHECK(has(text, "NOT CONVERGED: saved for inspection, not a result."));
}

TEST_CASE("the plan of density marks the weakest place, others do not") {
    auto result = invented_three_by_three(0.17);
    const auto ground = between_piles(result.header, result.stage, "relative_density_pct");
    REQUIRE(ground.has_value());
    result.header.target_relative_density_pct = 45;
    const auto text = drawn_text(result, "relative_density_pct");
    CHECK(has(text, "weakest " + rounded(ground->least) + " %"));
    CHECK(has(text, "as drawn least " + rounded(ground->least) + " % at ("));
    CHECK(has(text, "5, 25, 50, 75, 95 % of its area have less than"));
    CHECK(has(text, "below the target of 45 %"));
    CHECK_FALSE(has(drawn_text(result, "lateral_stress_ratio"), "weakest"));
    // Uniform ground has no weakest place.
    result.stage.fields["relative_density_pct"].setConstant(35);
    CHECK_FALSE(has(drawn_text(result, "relative_density_pct"), "weakest"));
}

TEST_CASE("half strokes: piles, points, target and warning") {
    auto result = invented_three_by_three(0.34);
    result.header.target_relative_density_pct = 70;
    const auto text = drawn_text(result, "half_strokes");
    for (const char* part : {"half strokes since the start", "lateral stress ratio", "mid-span", "centroid",
                             "mean", "target 70 %", "(1.70, 0.85) m", "pile"})
        CHECK(has(text, part));
    CHECK_FALSE(has(text, "not a prediction"));
    result.header.monotonic_density = true;
    CHECK(has(drawn_text(result, "half_strokes"), "not a prediction"));

    // A point whose ground is taken by a pile has a curve that ends; one that never had ground has none.
    auto data = figure_data(result);
    data.half_strokes.point_density_pct.row(0).tail(20).setConstant(NAN);
    data.half_strokes.point_density_pct.row(1).setConstant(NAN);
    data.half_strokes.point_stress_ratio.setConstant(NAN);
    const TemporaryFolder folder("interpile_gaps");
    FigureSettings settings;
    settings.formats = {FigureFormat::Pdf};
    settings.fields = {"half_strokes"};
    CHECK_FALSE(has(text_of(draw_figures(data, folder.path(), settings).at(0)), "centroid\n"));
    data.half_strokes = {};
    CHECK_THROWS_AS(draw_figures(data, folder.path(), settings), std::invalid_argument);
}

TEST_CASE("the distribution of density tells before, after and the share below the target") {
    auto result = invented_three_by_three(0.17);
    result.header.target_relative_density_pct = 50;
    const auto text = drawn_text(result, "density_distribution");
    for (const char* part : {"before", "after pile 9 of 9", "target 50 %", "area with less than this (%)",
                             "of the area is below the target of 50 %", "Mean 35.0 % before"})
        CHECK(has(text, part));
    const auto one = invented_result({{0, 0}}, 0.7, {-4, -4}, {4, 4}, 0.4);
    CHECK_THROWS_AS(drawn_text(one, "density_distribution"), std::invalid_argument);
    CHECK_THROWS_AS(drawn_text(one, "half_strokes"), std::invalid_argument);
}

TEST_CASE("pressure loops are those of one pile") {
    const auto result = invented_three_by_three(0.34);
    const auto text = drawn_text(result, "pressure_loops");
    for (const char* part :
         {"pile 9, number 9 in the order of work", "injected area (m", "casing pass", "withdrawal"})
        CHECK(has(text, part));
    const TemporaryFolder folder("interpile_loops");
    FigureSettings settings;
    settings.formats = {FigureFormat::Pdf};
    settings.fields = {"pressure_loops"};
    settings.pile = 3;
    CHECK(has(text_of(draw_figures(figure_data(result), folder.path(), settings).at(0)), "wall of pile 4"));
    settings.pile = 12;
    CHECK_THROWS_AS(draw_figures(figure_data(result), folder.path(), settings), std::invalid_argument);
}

TEST_CASE("labels of curves keep their order and their distance") {
    const auto height = spread_apart({10, 11, 12, 50, 99}, 8, 0, 100);
    for (std::size_t k = 1; k < height.size(); ++k)
        CHECK(height[k] - height[k - 1] >= 8 - 1e-9);
    CHECK(height.front() == 10);
    CHECK(height[3] == 50);
    CHECK(height.back() <= 100);
    CHECK(spread_apart({98, 99}, 8, 0, 100) == std::vector<double>{92, 100});
    CHECK(spread_apart({}, 8, 0, 100).empty());
}

TEST_CASE("every field of the table can be drawn, also before the first pile", "[figures]") {
    auto result = invented_three_by_three(0.85);
    result.stage.stage = 0;
    result.stage.pile = -1;
    result.stage.disc_radius_m.setConstant(result.header.seed_radius_m);
    result.stage.fields["pile_share"].setZero();
    result.stage.fields["relative_density_pct"].setConstant(35);
    for (const auto& info : mesh::field_table())
        CHECK(has(drawn_text(result, std::string(info.name)), "before the first pile"));
}

TEST_CASE("discs are covered, so that pile material is not shown", "[figures]") {
    auto result = invented_three_by_three(0.17);
    const TemporaryFolder folder("interpile_mask");
    save(plan_contour(result.header, result.stage, "lateral_stress_kPa"), folder.path() / "a.png",
         FigureFormat::Png);
    for (auto& [name, values] : result.stage.fields)
        for (Eigen::Index cell = 0; cell < values.size(); ++cell)
            if (name != "pile_share" && result.stage.fields.at("pile_share")[cell] >= 0.01)
                values[cell] = 12345;
    save(plan_contour(result.header, result.stage, "lateral_stress_kPa"), folder.path() / "b.png",
         FigureFormat::Png);
    CHECK(bytes_of(folder.path() / "a.png") == bytes_of(folder.path() / "b.png"));
}

TEST_CASE("the ground between the piles is summed without pile material", "[figures]") {
    auto result = invented_three_by_three(0.17);
    auto& value = result.stage.fields["void_ratio"];
    const auto middle = mesh::cell_middles(result.header.grid);
    for (Eigen::Index cell = 0; cell < value.size(); ++cell) {
        const bool between = (middle.col(cell).array() > 0).all() && (middle.col(cell).array() < 3.4).all();
        value[cell] = result.stage.fields["pile_share"][cell] >= 0.01 ? 99 : between ? 0.7 : 0.9;
    }
    result.stage.node_m = result.header.grid.node_m;
    const auto ground = between_piles(result.header, result.stage, "void_ratio");
    REQUIRE(ground.has_value());
    CHECK(ground->mean == Approx(0.7));
    CHECK(ground->distribution.quantile(0.5) == Approx(0.7));

    const auto row = invented_result({{0, 0}, {1.7, 0}}, 0.7, {-4, -4}, {6, 4}, 0.4);
    CHECK(between_piles(row.header, row.stage, "void_ratio").has_value()); // half a spacing beside the row
    const auto one = invented_result({{0, 0}}, 0.7, {-4, -4}, {4, 4}, 0.4);
    CHECK_FALSE(between_piles(one.header, one.stage, "void_ratio").has_value());
}

TEST_CASE("arrows point away from a single pile and stay off it", "[figures]") {
    const auto result = invented_result({{0, 0}}, 0.7, {-4, -4}, {4, 4}, 0.2);
    const auto grid = current_grid(result.header, result.stage);
    const Axes axes{{-3, -3}, {3, 3}, {0, 0}, {300, 300}};
    const auto arrows = movement_arrows(grid, result.stage, axes);
    CHECK(arrows.size() > 100);
    const Vec2 pile = axes.to_page(Vec2(0, 0));
    for (const auto& arrow : arrows) {
        const Vec2 outwards = 0.5 * (arrow.tip + arrow.tail) - pile;
        CHECK((arrow.tip - arrow.tail).normalized().dot(outwards.normalized()) > 0.99);
        CHECK((arrow.tail - pile).norm() > result.stage.disc_radius_m[0] * axes.pt_per_unit_x());
    }
}

TEST_CASE("a layout shows numbers, order, spacing", "[figures]") {
    const TemporaryFolder folder("interpile_layout");
    LayoutDrawing layout;
    layout.title = "Invented_site";
    for (int pile = 0; pile < 100; ++pile) {
        layout.centers_m.emplace_back(1.7 * (pile % 10), 2.1 * (pile / 10));
        layout.place_in_order.push_back(100 - pile);
    }
    layout.diameters_m.assign(100, 0.7);
    layout.domain.low = {-9, -9};
    layout.domain.high = {25, 28};
    draw_layout(layout, folder.path() / "layout.pdf");
    const auto text = text_of(folder.path() / "layout.pdf");
    for (const auto* part :
         {"Invented_site", "Plan of 100 piles", "1.70 m", "2.10 m", "100", "order of work"})
        CHECK(has(text, part));

    CHECK(has(text, "diameter 0.70 m to scale"));

    layout.diameters_m[4] = 0.5;
    draw_layout(layout, folder.path() / "unequal.pdf");
    CHECK(has(text_of(folder.path() / "unequal.pdf"), "diameter 0.50 to 0.70 m to scale"));
    layout.centers_m.resize(1);
    CHECK_THROWS_AS(draw_layout(layout, folder.path() / "none.pdf"), std::invalid_argument);
    layout.diameters_m.resize(1);
    layout.place_in_order.clear();
    draw_layout(layout, folder.path() / "one.svg");
    CHECK(std::filesystem::exists(folder.path() / "one.svg"));
    CHECK_THROWS_AS(draw_layout(layout, folder.path() / "one.gif"), io::FileTrouble);
    CHECK_THROWS_AS(draw_layout({}, folder.path() / "none.pdf"), std::invalid_argument);
}
