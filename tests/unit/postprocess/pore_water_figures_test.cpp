// Figures of results with flow of water in time: a made-up course of four piles, 120 s of driving every half hour, then a
// day of rest.

#include "drawn_page.h"
#include "invented_result.h"
#include "mesh/ground_area.h"
#include "postprocess/figures.h"
#include "postprocess/figures/excess_pressure_history.h"
#include "postprocess/figures/half_strokes.h"
#include "postprocess/figures/movement_arrows.h"
#include "postprocess/figures/nearly_liquefied.h"
#include "postprocess/figures/plan_contour.h"
#include "postprocess/figures/pressure_history.h"
#include "postprocess/figures/work_spans.h"
#include "postprocess/ground.h"
#include "postprocess/hatch.h"
#include "postprocess/page.h"
#include "postprocess/time_words.h"
#include "temporary_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace interpile;
using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

constexpr double half_hour_s = 1800, day_s = 86400;
constexpr Color shade{0.88, 0.90, 0.93};

/// One increment or half stroke: when, of which pile (place less 1), what.
struct Event {
    double time_s;
    int pile, phase;
    double pressure_kPa;
};

std::vector<Event> course(double final_rest_s) {
    std::vector<Event> events;
    for (int pile = 0; pile < 4; ++pile) {
        const double start = pile * half_hour_s;
        events.push_back({start + 60, pile, 0, 20.0 + pile});
        events.push_back({start + 80, pile, 1, 35});
        events.push_back({start + 120, pile, 2, 50.0 + pile});
        const double rest = pile < 3 ? half_hour_s - 120 : final_rest_s;
        for (const double share : {0.001, 0.1, 1.0})
            if (rest > 0)
                events.push_back({start + 120 + share * rest, pile, io::rest_phase, 50 * (1 - share)});
    }
    return events;
}

template <class Value>
Eigen::ArrayXd column(const std::vector<Event>& events, const Value& value) {
    Eigen::ArrayXd all(static_cast<Eigen::Index>(events.size()));
    for (Eigen::Index k = 0; k < all.size(); ++k)
        all[k] = value(events[static_cast<std::size_t>(k)]);
    return all;
}

FigureData data_of(double final_rest_s) {
    auto result =
        invented_result({{0, 0}, {1.7, 0}, {0, 1.7}, {1.7, 1.7}}, 0.7, {-3.4, -3.4}, {5.1, 5.1}, 0.17);
    const auto events = course(final_rest_s);
    FigureData data{result.header, result.stage, result.stage, {}, {}};
    data.before.stage = 0;
    data.before.pile = -1;
    data.before.fields["pile_share"].setZero();
    const Eigen::ArrayXi pile = column(events, [](const Event& e) { return e.pile; }).cast<int>();
    const Eigen::ArrayXi phase = column(events, [](const Event& e) { return e.phase; }).cast<int>();
    const Eigen::ArrayXd time = column(events, [](const Event& e) { return e.time_s; });
    const Eigen::ArrayXd pressure = column(events, [](const Event& e) { return e.pressure_kPa; });
    const Eigen::ArrayXi stroke = (phase > 0 && phase < io::rest_phase).cast<int>();
    auto& history = data.history;
    history.pile = pile;
    history.place_in_order = pile + 1;
    history.stroke = stroke;
    history.phase = phase;
    history.disc_area_m2 = history.wall_pressure_kPa = 0 * time + 1;
    history.time_s = time;
    history.mean_excess_pressure_kPa = pressure;
    history.largest_excess_pressure_ratio = pressure / 50;
    history.mean_relative_density_pct = 40 + time / day_s;
    auto& record = data.half_strokes;
    record.pile = pile;
    record.place_in_order = pile + 1;
    record.stroke = stroke;
    record.phase = phase;
    record.time_s = time;
    record.excess_pressure_kPa = pressure;
    record.relative_density_pct = 40 + time / day_s;
    record.lateral_stress_ratio = 0 * time + 0.8;
    const auto points = static_cast<Eigen::Index>(result.header.points.size());
    record.point_pressure_kPa = record.point_density_pct = record.point_stress_ratio =
        pressure.transpose().replicate(points, 1);
    return data;
}

Drawing drawn(const FigureData& data) {
    return excess_pressure_history(data.header, data.before, data.history, data.half_strokes);
}

std::vector<std::string> usual_names(const FigureData& data) {
    const TemporaryFolder folder("interpile_usual");
    FigureSettings settings;
    settings.formats = {FigureFormat::Svg};
    std::vector<std::string> names;
    for (const auto& file : draw_figures(data, folder.path(), settings))
        names.push_back(file.stem().string());
    return names;
}

bool contains(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

} // namespace

TEST_CASE("spans of driving begin where the rest before ends") {
    const auto data = data_of(day_s);
    const auto spans = driving_spans(data.history, data.half_strokes);
    REQUIRE(spans.size() == 4);
    for (std::size_t k = 0; k < 4; ++k) {
        CHECK(spans[k].from_s == Approx(half_hour_s * static_cast<double>(k)));
        CHECK(spans[k].to_s == Approx(half_hour_s * static_cast<double>(k) + 120));
        CHECK(spans[k].piles == std::to_string(k + 1));
    }
    auto together = data;
    together.half_strokes.place_in_order.setConstant(1);
    together.history.place_in_order.setConstant(1);
    CHECK(driving_spans(together.history, together.half_strokes).at(0).piles == "1+2+3+4");
}

TEST_CASE("the course of the excess pressure names its units, limits and largest values") {
    const auto data = data_of(day_s);
    const auto drawing = drawn(data);
    const auto words = words_of(drawing);
    for (const char* part :
         {"time since the first pile was begun (min)", "time after the last pile (h)", "final rest",
          "nearly liquefied", "mid-span", "centroid", "mean of the treated ground",
          "pile driven past the slice", "mean 53.0 kPa at 1 h 32 min", "1.06 at 1 h 32 min",
          "At the end, 25 h 32 min: mean 0.0 kPa", "Pore water while piles are driven"}) {
        INFO(part << " in " << words);
        CHECK(has(words, part));
    }
    // Four spans in each of three panels, and the key; the column of the final rest has none.
    CHECK(areas_of(drawing, shade).size() == 4 * 3 + 1);
    // The limit in both columns, and the key.
    CHECK(dashed_lines(drawing, warning_ink) == 3);
}

TEST_CASE("the course of the excess pressure tells the clock of the site where it is known") {
    auto data = data_of(day_s);
    CHECK_FALSE(has(words_of(drawn(data)), "Clock of the site"));
    data.header.work_begins = "2026-03-05T07:30:00"; // the last pile ends after 92 min, the rest a day later
    CHECK(has(words_of(drawn(data)),
              "first pile begun Thu 2026-03-05 07:30, last one past the slice Thu 2026-03-05 "
              "09:02, end Fri 2026-03-06 09:02"));
}

TEST_CASE("a short final rest has no column of its own") {
    const auto drawing = drawn(data_of(600));
    CHECK_FALSE(has(words_of(drawing), "final rest"));
    CHECK(dashed_lines(drawing, warning_ink) == 2);
    CHECK(areas_of(drawing, shade).size() == 4 * 3 + 1);
}

TEST_CASE("the unit of time follows the length of the work") {
    auto data = data_of(0);
    for (const auto& [factor, unit] : {std::pair{1.0, "(min)"}, {10.0, "(h)"}, {100.0, "(d)"}}) {
        auto longer = data;
        longer.history.time_s *= factor; // 1.5 h, 15 h, 6 d
        longer.half_strokes.time_s *= factor;
        CHECK(has(words_of(drawn(longer)), std::string("was begun ") + unit));
    }
}

TEST_CASE("figures of the pore water are usual only where there is any") {
    auto data = data_of(day_s);
    const auto names = usual_names(data);
    for (const char* name : {"excess_pressure_history", "excess_pore_pressure_kPa", "excess_pressure_ratio"})
        CHECK(contains(names, name));
    data.history.time_s.setZero(); // drained
    const auto drained = usual_names(data);
    for (const char* name : {"excess_pressure_history", "excess_pore_pressure_kPa", "excess_pressure_ratio"})
        CHECK_FALSE(contains(drained, name));
    CHECK_THROWS_WITH(drawn(data), Catch::Contains("coupled"));
    data.stage.mean_excess_pressure_kPa = 3; // undrained
    const auto undrained = usual_names(data);
    CHECK(contains(undrained, "excess_pore_pressure_kPa"));
    CHECK_FALSE(contains(undrained, "excess_pressure_history"));
    data.history.time_s.resize(0); // of an earlier version
    CHECK_FALSE(is_in_time(data.history));
}

TEST_CASE("rests are one step of the half strokes and no part of the wall pressures") {
    const auto data = data_of(day_s);
    const auto words = words_of(half_stroke_curves(data.header, data.before, data.half_strokes));
    CHECK(has(words, "Each rest counts as one"));
    INFO(words);
    CHECK(has(words, "14 16")); // the end of the axis: four times three half strokes and a rest
    CHECK_FALSE(has(words, "16 18"));
    auto rests = data.history;
    rests.phase.setConstant(io::rest_phase);
    CHECK(lines_of(pressure_history(data.header, data.history), {0.10, 0.28, 0.52}).size() == 4);
    CHECK_THROWS_AS(pressure_history(data.header, rests), std::invalid_argument);
}

TEST_CASE("seepage arrows have the direction and, by the key, the size of the flow") {
    auto result = invented_result({{0, 0}}, 0.7, {-4, -4}, {4, 4}, 0.2);
    const auto grid = current_grid(result.header, result.stage);
    const Axes axes{{-3, -3}, {3, 3}, {0, 0}, {300, 300}};
    result.stage.fields["seepage_x_m_s"].setConstant(1.5e-6);
    result.stage.fields["seepage_y_m_s"].setConstant(2.0e-6);
    const auto uniform = seepage_arrows(grid, result.stage, axes);
    CHECK(uniform.key_size == "2×10⁻⁶ m/s");
    REQUIRE(uniform.arrows.size() > 100);
    for (const auto& arrow : uniform.arrows) {
        const Vec2 shaft = arrow.tip - arrow.tail;
        CHECK(shaft.norm() == Approx(uniform.key_length_pt * 2.5 / 2)); // 1.5, 2, 2.5: a right triangle
        CHECK(shaft.normalized().x() == Approx(0.6));
        CHECK(shaft.normalized().y() == Approx(-0.8)); // y of the page runs down
    }
    // v_x = 1e-6 x, x in m: lengths in proportion, those of little flow left out.
    result.stage.fields["seepage_x_m_s"] = 1e-6 * mesh::cell_middles(grid).row(0).transpose().array();
    result.stage.fields["seepage_y_m_s"].setZero();
    const auto linear = seepage_arrows(grid, result.stage, axes);
    CHECK(linear.key_size == "2×10⁻⁶ m/s");
    CHECK(linear.arrows.size() < uniform.arrows.size());
    for (const auto& arrow : linear.arrows) {
        const double x_m = (0.5 * (arrow.tip + arrow.tail).x() - 150) / 50;
        CHECK((arrow.tip - arrow.tail).x() == Approx(linear.key_length_pt * x_m / 2).margin(0.02));
    }
    result.stage.fields["seepage_x_m_s"].setZero();
    CHECK(seepage_arrows(grid, result.stage, axes).arrows.empty());
}

TEST_CASE("nearly liquefied ground is counted without pile material and told in the plan") {
    auto data = data_of(day_s);
    auto& stage = data.stage;
    const auto grid = current_grid(data.header, stage);
    const auto middle = mesh::cell_middles(grid);
    CHECK(nearly_liquefied(grid, stage).cells == 0);
    CHECK(has(words_of(plan_contour(data.header, stage, "excess_pressure_ratio")), "No cell of the ground"));
    int expected = 0;
    double area = 0;
    const auto ground = ground_cells(stage);
    for (int cell = 0; cell < grid.cell_count(); ++cell) {
        const bool high = middle(0, cell) < 0.5;
        stage.fields["excess_pressure_ratio"][cell] = high ? 0.9 : 0.89;
        stage.fields["excess_pore_pressure_kPa"][cell] = high ? 90 : 89;
        expected += high && ground[cell];
        area += high && ground[cell] ? mesh::cell_areas(grid)[cell] : 0;
    }
    const auto found = nearly_liquefied(grid, stage);
    CHECK(found.cells == expected);
    CHECK(found.area_m2 == Approx(area));
    double outlined = 0; // holes run the other way
    for (const auto& ring : found.outlines)
        for (std::size_t k = 0; k < ring.size(); ++k) {
            const Vec2 &a = ring[k], &b = ring[(k + 1) % ring.size()];
            outlined += 0.5 * (a.x() * b.y() - b.x() * a.y());
        }
    CHECK(outlined == Approx(area));

    stage.fields["seepage_x_m_s"].setConstant(2e-6);
    const auto words = words_of(plan_contour(data.header, stage, "excess_pore_pressure_kPa"));
    for (const std::string& part : {"nearly liquefied: " + std::to_string(expected) + " cells of the ground",
                                    std::string("seepage 2×10⁻⁶ m/s")}) {
        INFO(part << " in " << words);
        CHECK(has(words, part));
    }
    CHECK_FALSE(has(words_of(plan_contour(data.header, stage, "void_ratio")), "liquefied"));
}

TEST_CASE("what is left of a pressure gets no scale of its own") {
    auto data = data_of(day_s);
    const auto grid = current_grid(data.header, data.stage);
    data.stage.fields["excess_pore_pressure_kPa"] =
        1e-3 * mesh::cell_middles(grid).row(0).transpose().array();
    data.stage.fields["seepage_x_m_s"].setConstant(1e-10);
    const auto words = words_of(plan_contour(data.header, data.stage, "excess_pore_pressure_kPa"));
    CHECK_FALSE(has(words, "0.001"));
    CHECK_FALSE(has(words, "seepage"));
}

TEST_CASE("the state of a stage in words, with its time where water flows") {
    const auto data = data_of(day_s);
    auto stage = data.stage;
    CHECK(stage_in_words(data.header, stage) == "after pile 4 of 4");
    stage.time_s = 6120;
    CHECK(stage_in_words(data.header, stage) == "after pile 4 of 4, at 1 h 42 min");
    stage.after_rest = true;
    stage.time_s = 93600;
    CHECK(stage_in_words(data.header, stage) == "after the final rest, at 26 h");
    CHECK(
        has(words_of(plan_contour(data.header, stage, "void_ratio")), "after the final rest, at 26 h, 6 m"));
    stage.converged = false;
    CHECK(stage_in_words(data.header, stage) == "stopped in the final rest, at 26 h");
    stage.disc_radius_m.tail(2).setConstant(data.header.seed_radius_m);
    stage.pile = 1;
    CHECK(stage_in_words(data.header, stage) == "stopped in the rest after pile 2 of 4, at 26 h");
    stage.converged = true;
    CHECK(stage_in_words(data.header, stage) == "in the rest after pile 2 of 4, at 26 h");
}

TEST_CASE("times in words and the unit of an axis") {
    CHECK(time_in_words(40.4) == "40 s");
    CHECK(time_in_words(59.6) == "1 min");
    CHECK(time_in_words(750) == "12 min 30 s");
    CHECK(time_in_words(3599.7) == "1 h");
    CHECK(time_in_words(6120) == "1 h 42 min");
    CHECK(time_in_words(47.5 * 3600) == "47 h 30 min");
    CHECK(time_in_words(76 * 3600) == "3 d 4 h");
    CHECK(time_unit(2 * 3600).name == "min");
    CHECK(time_unit(30 * 3600).name == "h");
    CHECK(time_unit(30 * day_s).seconds == day_s);
}

TEST_CASE("hatching fills an area and leaves its holes") {
    // Lines `gap` apart: length times gap is the area, up to the gap over the size (Cavalieri).
    const Polyline square = {{10, 10}, {110, 10}, {110, 110}, {10, 110}},
                   hole = {{40, 40}, {40, 80}, {80, 80}, {80, 40}};
    const Color color{0.2, 0.4, 0.6};
    const Drawing drawing{{120, 120}, "", "", [&](Canvas& canvas) {
                              hatch_area(canvas, {square, hole}, 1, {0.1, color});
                          }};
    double length = 0;
    for (const auto& line : lines_of(drawing, color)) {
        REQUIRE(line.size() == 2);
        length += (line[1] - line[0]).norm();
        const Vec2 middle = 0.5 * (line[0] + line[1]);
        CHECK_FALSE(((middle.array() > 40.01).all() && (middle.array() < 79.99).all()));
    }
    CHECK(length == Approx(100 * 100 - 40 * 40).epsilon(0.01));
}
