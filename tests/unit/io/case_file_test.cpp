// What a sound case file becomes.

#include "io/case_file.h"
#include "io/case_report.h"
#include "io/diagnostics.h"
#include "tests/support/case_text.h"
#include "tests/support/places.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace interpile;
using testing::changed;
using testing::sound_case;

namespace {

io::Case parse(const std::string& text) {
    return io::parse_case(text, "folder/four.toml");
}

const io::SettingInForce& setting(const io::Case& run_case, const std::string& key) {
    const auto found = std::find_if(run_case.settings.begin(), run_case.settings.end(),
                                    [&](const auto& s) { return s.key == key; });
    if (found == run_case.settings.end())
        throw std::out_of_range(key);
    return *found;
}

bool has_setting(const io::Case& run_case, const std::string& key) {
    return std::any_of(run_case.settings.begin(), run_case.settings.end(),
                       [&](const auto& s) { return s.key == key; });
}

} // namespace

TEST_CASE("steps have defaults for the soil model") {
    std::string text(sound_case);
    const auto tolerance = text.find("tolerance");
    text.erase(tolerance, text.find('\n', tolerance) - tolerance);
    const auto other = parse(text).plan.steps;
    const auto soil = text.find("[soil]");
    text.replace(soil, text.find("\n[", soil) - soil, "[soil]\nmodel = \"two-surface-sand\"\n");
    const auto sand = parse(text).plan.steps;
    const solver::StepSettings standard;
    CHECK(other.tolerance == standard.tolerance);
    CHECK(other.carry_over_tolerance == standard.carry_over_tolerance);
    CHECK(other.hourglass == standard.hourglass);
    CHECK(other.radius_step == standard.radius_step);
    CHECK(sand.tolerance == 1e-2);
    CHECK(sand.carry_over_tolerance == 3e-2);
    CHECK(sand.hourglass == 0.01);
    CHECK(sand.radius_step == 0.002);
}

TEST_CASE("a sound case fills every part") {
    const auto c = parse(sound_case);
    CHECK(c.name == "four");
    CHECK(c.title == "four piles");
    CHECK(c.text == sound_case);
    // sigma_v' = 1.5 x 17 + 4.5 x 19 - 4.5 x 9.81, by hand
    CHECK(c.slice.vertical_stress_kPa == Approx(25.5 + 85.5 - 44.145));
    CHECK(c.slice.void_ratio == Approx(0.977 - 0.4 * 0.380)); // D_r 40 %, definition
    CHECK(c.slice.vertical == solver::VerticalCondition::Shared);
    CHECK(c.soil.name == "mohr-coulomb");
    CHECK(c.plan.piles.size() == 4);
    CHECK(c.plan.piles[3].center_m == mesh::Vec2(1.7, 1.7));
    CHECK(c.plan.order == std::vector<std::vector<int>>{{0}, {3}, {1}, {2}});
    CHECK(c.plan.steps.tolerance == 2e-3);
    CHECK(c.domain.low == mesh::Vec2(-5, -5));
    CHECK(c.domain.side[mesh::East] == mesh::BoundaryKind::ConstantStress);
    CHECK(c.domain.side[mesh::West] == mesh::BoundaryKind::RigidSmooth);
    CHECK(c.grid.fine_cell_m == Approx(0.7 / 6));
    CHECK_FALSE(c.output.every_pile);
}

TEST_CASE("strokes follow from the travel of the casing") {
    // w/D = 0.6/0.2 = 3 passes of a depth, the first is the casing pass.
    CHECK(parse(sound_case).plan.strokes.strokes == 2);
    const auto reach = changed(sound_case, "redrive_m = 0.4", "redrive_m = 0.4\nstroke_reach_m = 1.5");
    CHECK(parse(reach).plan.strokes.strokes == 15); // 2 x 1.5/0.2
    const auto direct = changed(sound_case, "withdrawal_m = 0.6\nredrive_m = 0.4", "strokes = 7");
    CHECK(parse(direct).plan.strokes.strokes == 7);
    CHECK(parse(direct).plan.strokes.casing_diameter_m == 0.4);
    const auto monotonic = changed(sound_case, "withdrawal_m = 0.6\nredrive_m = 0.4", "strokes = 0");
    CHECK(parse(monotonic).plan.strokes.casing_diameter_m == 0);
    const auto once = changed(sound_case, "redrive_m = 0.4", "redrive_m = 0");
    CHECK(parse(once).plan.strokes.strokes == 0);
}

TEST_CASE("the seed injects the area of the pile when its radius doubles") {
    // Carter, Randolph & Wroth (1979): pi (4 a0^2 - a0^2) = pi d^2/4.
    const auto c = parse(sound_case);
    const double a0 = c.plan.strokes.seed_radius_m;
    CHECK(3 * a0 * a0 == Approx(0.7 * 0.7 / 4));
    CHECK(setting(c, "pile.seed_radius_m").is_default);
    CHECK_THAT(setting(c, "pile.seed_radius_m").source, Catch::Contains("Carter"));
}

TEST_CASE("values in force: given, default and without effect") {
    const auto c = parse(sound_case);
    CHECK_FALSE(setting(c, "layout.spacing_m").is_default);
    CHECK(setting(c, "layout.spacing_m").value == "1.7");
    CHECK(setting(c, "ground.e_max").is_default);
    CHECK_FALSE(setting(c, "ground.e_max").source.empty());
    CHECK(setting(c, "pile.strokes").value == "2");
    CHECK(setting(c, "layer[2].unit_weight_kN_m3").value == "19");
    CHECK_FALSE(has_setting(c, "domain.rim"));
    CHECK_FALSE(has_setting(c, "domain.margin_m"));
    for (const auto& s : c.settings)
        CHECK(s.is_default == !s.source.empty());
}

TEST_CASE("what is recorded: usual points, given points, sampling radius, target") {
    const auto usual = parse(sound_case);
    // Two by two piles at 1.7 m: the middle of a side and the middle of the square.
    REQUIRE(usual.plan.record.points.size() == 2);
    CHECK(usual.plan.record.points[0].name == "mid-span");
    CHECK(usual.plan.record.points[1].name == "centroid");
    CHECK((usual.plan.record.points[1].at_m - mesh::Vec2(0.85, 0.85)).norm() < 1e-12);
    CHECK(usual.plan.record.treated.area_m2() == Approx(1.7 * 1.7));
    CHECK(usual.plan.record.sampling_radius_m == Approx(0.17)); // a tenth of 1.7 m, above a cell of 0.117 m
    CHECK(setting(usual, "record.sampling_radius_m").is_default);
    CHECK_FALSE(usual.target_relative_density_pct.has_value());

    const auto given =
        parse(changed(sound_case, "[output]",
                      "[record]\npoints_m = [[3, 3], [-1, 0.5]]\npoint_names = [\"toe\", \"B1\"]\n"
                      "sampling_radius_m = 0.3\n[target]\nrelative_density_pct = 75\n[output]"));
    REQUIRE(given.plan.record.points.size() == 4);
    CHECK(given.plan.record.points[2].name == "toe");
    CHECK(given.plan.record.points[3].at_m == mesh::Vec2(-1, 0.5));
    CHECK(given.plan.record.sampling_radius_m == 0.3);
    CHECK(given.target_relative_density_pct == 75.0);
    CHECK(setting(given, "record.point_names").value == "[\"toe\", \"B1\"]");

    const auto unnamed = parse(changed(sound_case, "[output]", "[record]\npoints_m = [[3, 3]]\n[output]"));
    CHECK(unnamed.plan.record.points.back().name == "point 1");
    const auto coarse = parse(changed(sound_case, "cells_per_diameter = 6", "fine_cell_m = 0.2"));
    CHECK(coarse.plan.record.sampling_radius_m == 0.2); // at least one cell
}

TEST_CASE("the default domain reaches 100 seed radii beyond the outermost piles") {
    auto text = changed(sound_case, "x_m = [-5, 7]\n", "");
    text = changed(text, "y_m = [-5, 7]\n", "");
    const auto c = parse(text);
    CHECK(c.domain.low.x() == Approx(-100 * c.plan.strokes.seed_radius_m));
    CHECK(c.domain.high.y() == Approx(1.7 + 100 * c.plan.strokes.seed_radius_m));
}

TEST_CASE("piles on symmetry lines, a round quarter and elastic ground without stress are allowed") {
    const std::string text = R"(
[ground]
slice_depth_m = 0
vertical_stress_kPa = 0
void_ratio = 0.8
[soil]
model = "elastic"
shear_modulus_kPa = 1000
[pile]
diameter_m = 0.0002
strokes = 0
[layout]
pattern = "listed"
positions_m = [[0, 0]]
[domain]
shape = "round"
radius_m = 0.1
part = "quarter"
rim = "constant-stress"
)";
    const auto c = parse(text);
    CHECK(c.domain.side[mesh::South] == mesh::BoundaryKind::Symmetry);
    CHECK(c.domain.side[mesh::North] == mesh::BoundaryKind::ConstantStress);
    CHECK(c.domain.low == mesh::Vec2(0, 0));
    CHECK(c.title == "four");
    CHECK(c.domain.inside_share(c.plan.piles[0].center_m) == 0.25);
    const auto cell = changed(changed(changed(sound_case, "x_m = [-5, 7]", "x_m = [0, 1.7]"), "y_m = [-5, 7]",
                                      "y_m = [0, 1.7]\nsouth = \"symmetry\"\nnorth = \"symmetry\""),
                              "west = \"rigid-smooth\"\neast = \"constant-stress\"",
                              "west = \"symmetry\"\neast = \"symmetry\"");
    CHECK_NOTHROW(parse(cell));
}

TEST_CASE("without a margin the whole slice heaves, with one the treated area") {
    CHECK(std::isinf(parse(sound_case).slice.heaving_high_m.x()));
    const auto text = changed(sound_case, "K0 = 0.5", "K0 = 0.5\nheaving_margin_m = 0.85");
    CHECK(parse(text).slice.heaving_low_m == mesh::Vec2(-0.85, -0.85));
    CHECK(parse(text).slice.heaving_high_m == mesh::Vec2(2.55, 2.55));
}

TEST_CASE("pile positions come from a table beside the case file") {
    const auto folder =
        std::filesystem::temp_directory_path() / ("interpile_positions_" + std::to_string(getpid()));
    std::filesystem::create_directory(folder);
    const auto text = changed(sound_case, "pattern = \"square\"\nspacing_m = 1.7\nrows = 2\ncolumns = 2",
                              "pattern = \"listed\"\npositions_file = \"piles.csv\"");
    const auto read = [&](const std::string& table) {
        std::ofstream(folder / "piles.csv") << table;
        return io::parse_case(text, folder / "case.toml");
    };
    const auto c = read("x_m, y_m\r\n0,0\r\n2, 0\n\n0,2\n2,2.5\n");
    CHECK(c.plan.piles.size() == 4);
    CHECK(c.plan.piles[3].center_m == mesh::Vec2(2, 2.5));
    CHECK_THROWS_WITH(read("x,y\n0,0\n"), Catch::Contains("x_m,y_m"));
    CHECK_THROWS_WITH(read("x_m,y_m\n0,0\n2,0\n0,two\n2,2\n"),
                      Catch::Contains("piles.csv:4:3: row 4, column y_m: \"two\"") &&
                          Catch::Contains("4 | 0,two"));
    CHECK_THROWS_WITH(read("x_m,y_m\n0,0\n2,0\n0,2\n2,nan\n"), Catch::Contains("row 5, column y_m"));
    CHECK_THROWS_WITH(read("x_m,y_m\n0,0,1\n"), Catch::Contains("row 2 has 3 values"));
    CHECK_THROWS_WITH(read("x_m,y_m\n"), Catch::Contains("no piles"));
    CHECK_THROWS_WITH(read("x_m,y_m\n0,0\n2,0\n0,2\n2,0\n"),
                      Catch::Contains("pile 4 stands where pile 2 stands"));
    std::filesystem::remove_all(folder);
    CHECK_THROWS_AS(io::parse_case(text, folder / "case.toml"), io::FileTrouble);
}

TEST_CASE("a table of positions may give diameters and places in the order") {
    const auto folder =
        std::filesystem::temp_directory_path() / ("interpile_diameters_" + std::to_string(getpid()));
    std::filesystem::create_directory(folder);
    const std::string listed = "kind = \"listed\"\nsequence = [1, 4, 2, 3]";
    const auto positions = changed(sound_case, "pattern = \"square\"\nspacing_m = 1.7\nrows = 2\ncolumns = 2",
                                   "pattern = \"listed\"\npositions_file = \"piles.csv\"");
    const auto text = changed(positions, listed, "kind = \"listed\"");
    const auto read = [&](const std::string& table, const std::string& of_case) {
        std::ofstream(folder / "piles.csv") << table;
        return io::parse_case(of_case, folder / "case.toml");
    };
    const std::string head = "pile,x_m,y_m,diameter_m,place_in_order\n";
    // Only the sequence of places counts: a pile of the site may have no sand in this slice, or no record.
    const auto c = read(head + "A,0,0,0.62,7\nB,2,0,,2\nC,0,2,0.75,1\nD,2,2,0.7,2.5\n", text);
    const double diameters[] = {0.62, 0.7, 0.75, 0.7}; // an empty cell: that of [pile]
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(c.plan.piles[i].diameter_m == diameters[i]);
    CHECK(c.plan.order == std::vector<std::vector<int>>{{2}, {1}, {3}, {0}});
    const std::string report = io::case_report(c);
    CHECK_THAT(report, Catch::Contains("0.62 to 0.75 m") && Catch::Contains("0.3019 to 0.4418 m2 per pile"));
    CHECK(read("x_m,y_m,diameter_m\n0,0,0.6\n2,0,0.5\n0,2,0.7\n2,2,0.7\n", positions).plan.order[1] ==
          std::vector<int>{3});

    const std::string wet =
        "\n[water]\ndrainage = \"coupled\"\npermeability_m_s = 1e-5\n[schedule]\npile_min = 20\n";
    const std::string rigs = "x_m,y_m,rig\n0,0,2\n2,0,1\n0,2,1\n2,2,2\n";
    CHECK(
        read(rigs, positions + wet + "rigs = 2\n").plan.order ==
        std::vector<std::vector<int>>{{1}, {0}, {2}, {3}}); // rig 1: 2, 3; rig 2: 1, 4, as 1, 4, 2, 3 goes on
    CHECK_THROWS_WITH(read(rigs, positions + wet),
                      Catch::Contains("schedule.rigs") && Catch::Contains("has a column rig"));
    CHECK_THROWS_WITH(read("x_m,y_m,rig\n0,0,2\n2,0,1.5\n0,2,1\n2,2,2\n", positions + wet + "rigs = 2\n"),
                      Catch::Contains("row 3, column rig: \"1.5\" is not a whole number"));
    CHECK_THROWS_WITH(read("x_m,y_m,rig\n0,0,2\n2,0,1\n0,2,3\n2,2,2\n", positions + wet + "rigs = 2\n"),
                      Catch::Contains("piles.csv:4") && Catch::Contains("rig 3 is not there"));
    CHECK_THROWS_WITH(read(rigs, positions + wet + "rigs = 2\nrig_of_pile = [1, 2, 1, 2]\n"),
                      Catch::Contains("exclude each other"));

    const auto refused = [&](const std::string& rows, const std::string& said) {
        CHECK_THROWS_WITH(read(head + rows, text), Catch::Contains(said));
    };
    const std::string three = "B,2,0,,2\nC,0,2,,3\nD,2,2,,4\n";
    refused("A,0,0,0.4,1\n" + three, "diameter_m = 0.4 is not above pile.casing_diameter_m = 0.4");
    refused("A,0,0,0.41,1\nB,0.5,0,0.75,2\n",
            "pile 2 is 0.5 m from pile 1, less than the mean of their diameter_m = 0.58");
    refused("A,0,0,0.41,1\nB,0.5,0,,2\n", "less than their radii together = 0.555");
    refused("A,0,0,5,1\n" + three, "column diameter_m: \"5\" is not a number within 0.0001 .. 3 m");
    refused("A,0,0,0.6,2\n" + three, "row 3: place 2 in the order is taken above already");
    refused("A,0,0,0.6,\n" + three, "row 2, column place_in_order: \"\" is not a number");
    CHECK_THROWS_WITH(read(head + "A,0,0,0.6,1\n" + three, positions),
                      Catch::Contains("order.sequence = [1, 4, 2, 3] contradicts place_in_order"));
    CHECK_THROWS_WITH(
        read(head + "A,0,0,0.6,1\n" + three, changed(positions, listed, "kind = \"from-middle\"")),
        Catch::Contains("order.kind = \"from-middle\" contradicts place_in_order"));
    CHECK_THROWS_WITH(read("x_m,y_m,width_m\n0,0,1\n", text), Catch::Contains("is not the head x_m,y_m"));
    std::filesystem::remove_all(folder);
}

TEST_CASE("a file that cannot be read is file trouble") {
    CHECK_THROWS_AS(io::read_case("no/such/case.toml"), io::FileTrouble);
    CHECK_THROWS_AS(io::read_case(interpile::testing::source_folder()), io::FileTrouble);
}

TEST_CASE("all faults come at once, sorted by line") {
    auto text = changed(sound_case, "K0 = 0.5", "K0 = nan");
    text = changed(text, "unit_weight_kN_m3 = 17.0", "unit_weight_kN_m3 = 1.7");
    text = changed(text, "spacing_m = 1.7", "spacing_m = 0.17");
    text = changed(text, "every_pile", "evry_pile");
    try {
        parse(text);
        FAIL("accepted");
    } catch (const io::CaseFaults& faults) {
        REQUIRE(faults.faults().size() == 4);
        CHECK(std::is_sorted(faults.faults().begin(), faults.faults().end(),
                             [](const auto& a, const auto& b) { return a.line < b.line; }));
        CHECK_THAT(faults.what(), Catch::Contains("Did you mean 1.7?") &&
                                      Catch::Contains("nearest: \"every_pile\"") &&
                                      Catch::Contains("4 faults in the file"));
    }
}
