// Figures under styles other than the usual one: sizes read back from the files, all words on the page.

#include "drawn_page.h"
#include "invented_result.h"
#include "postprocess/figure_style.h"
#include "postprocess/figures/depth_profile.h"
#include "postprocess/figures/half_strokes.h"
#include "postprocess/figures/line_across_piles.h"
#include "postprocess/figures/plan_contour.h"
#include "postprocess/figures/plan_panels.h"
#include "postprocess/figures/pressure_history.h"
#include "postprocess/figures/pressure_loops.h"
#include "postprocess/scale.h"
#include "style_for_test.h"
#include "temporary_folder.h"

#include <catch2/catch.hpp>

#include <set>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

FigureStyle of_width(double width_mm, double letter_scale = 1) {
    FigureStyle style;
    style.width_pt = width_mm * pt_per_mm;
    style.letter_scale = letter_scale;
    return style;
}

ProfileFigure three_panels() {
    ProfileFigure figure;
    figure.title = "Invented boring";
    figure.bands = {{0, 10, "fine sand", true}};
    for (int k = 0; k < 3; ++k)
        figure.panels.push_back(
            {"blow count N (-)",
             {{"measured", {{5, 2}, {8, 9}}}, {"an-unbreakable-long-name", {{9, 2}, {9, 9}}}},
             0,
             20,
             std::nullopt,
             ""});
    return figure;
}

std::vector<Drawing> figures_of_many_kinds() {
    const auto result = invented_three_by_three(0.34);
    auto before = result.stage;
    before.stage = 0;
    before.pile = -1;
    return {plan_contour(result.header, result.stage, "relative_density_pct", -1),
            plan_contour(result.header, result.stage, "displacement_m", -1),
            plan_panels({{result.header, result.stage, {}}, {result.header, result.stage, {}}},
                        "lateral_stress_kPa"),
            pressure_history(result.header, result.history),
            pressure_loops(result.header, result.history, -1),
            half_stroke_curves(result.header, before, invented_half_strokes(result.header)),
            line_across_piles(result.header, {before, result.stage}, false),
            depth_profile(three_panels())};
}

} // namespace

TEST_CASE("a figure has the width of the style, whatever its letters", "[style]") {
    for (const double width_mm : {70.0, 85.0, 160.0, 175.0, 300.0})
        for (const double letter_scale : {0.7, 1.0, 1.6}) {
            const StyleForTest style(of_width(width_mm, letter_scale));
            for (const auto& drawing : figures_of_many_kinds()) {
                INFO(drawing.title << ", " << width_mm << " mm, letters times " << letter_scale);
                CHECK(paper_scale(drawing) * drawing.size_pt.x() == Approx(width_mm * pt_per_mm));
                CHECK(paper_scale(drawing) <= letter_scale * (1 + 1e-12));
            }
        }
}

TEST_CASE("letters have the size of the style where the figure has room for them", "[style]") {
    const auto result = invented_three_by_three(0.34);
    for (const double letter_scale : {0.8, 1.0, 1.5}) {
        const StyleForTest style(of_width(160, letter_scale));
        CHECK(paper_scale(plan_contour(result.header, result.stage, "relative_density_pct", -1)) ==
              Approx(letter_scale));
    }
}

TEST_CASE("no word leaves the page of a narrow or a wide figure", "[style]") {
    for (const auto& [width_mm, letter_scale] :
         {std::pair{85.0, 1.0}, {85.0, 1.4}, {160.0, 1.0}, {175.0, 1.3}}) {
        const StyleForTest style(of_width(width_mm, letter_scale));
        for (const auto& drawing : figures_of_many_kinds()) {
            INFO(drawing.title << ", " << width_mm << " mm, letters times " << letter_scale);
            CHECK(words_off_page(drawing) == "");
        }
    }
}

TEST_CASE("labels, decimal commas and formats of a style reach the files", "[style]") {
    const auto result = invented_three_by_three(0.34);
    FigureStyle wanted;
    wanted.decimal_comma = true;
    wanted.labels = {{"pile in the computation", "Pfahl der Rechnung"}};
    {
        const StyleForTest style(wanted);
        const auto words = words_of(plan_contour(result.header, result.stage, "relative_density_pct", -1));
        CHECK(has(words, "Pfahl der Rechnung"));
        CHECK(has(words, "planned diameter 0,70 m"));
        CHECK_FALSE(has(words, "pile in the computation"));
        CHECK(has(words, "Simulated values;")); // not in the table
    }
    const auto words = words_of(plan_contour(result.header, result.stage, "relative_density_pct", -1));
    CHECK(has(words, "planned diameter 0.70 m"));
}

TEST_CASE("a picture has the dots of the style", "[style]") {
    const auto result = invented_three_by_three(0.34);
    auto wanted = of_width(85);
    wanted.png_dots_per_inch = 100;
    const StyleForTest style(wanted);
    const TemporaryFolder folder("interpile_dots");
    save(plan_contour(result.header, result.stage, "relative_density_pct", -1), folder.path() / "a.png",
         FigureFormat::Png);
    const auto bytes = bytes_of(folder.path() / "a.png"); // width: bytes 16 to 19 of a PNG (ISO/IEC 15948)
    const auto at = [&](int k) { return static_cast<int>(static_cast<unsigned char>(bytes.at(k))); };
    CHECK(256 * (256 * (256 * at(16) + at(17)) + at(18)) + at(19) == std::lround(85 / 25.4 * 100));
}

TEST_CASE("as many bands as wanted, between round limits", "[style]") {
    const Eigen::ArrayXd value = Eigen::ArrayXd::LinSpaced(500, 31.7, 68.2);
    const Eigen::ArrayXd weight = Eigen::ArrayXd::Ones(500);
    for (int most = 4; most <= 20; ++most) {
        const auto scale = band_scale(value, weight, 0, most);
        const int closed = static_cast<int>(scale.level.size()) - 1;
        INFO(most << " wanted, " << closed << " made");
        CHECK(closed <= most);
        CHECK(2 * closed >= most);
        const auto difference = difference_scale(value - 50, weight, 0, most);
        const int both = static_cast<int>(difference.level.size()) - 1;
        CHECK(both % 2 == 1);
        CHECK(both == most - 1 + most % 2);
    }
}
