#include "io/key_rows.h"
#include "io/water_vocabulary.h"

#include <fmt/format.h>

#include <algorithm>

namespace interpile::io {

namespace {

using enum Presence;
using enum ValueType;

const std::vector<std::string> side_kinds = {"rigid-smooth", "symmetry", "constant-stress"};
constexpr std::string_view side_source =
    "own choice: the side is far away, and rigid errs on the side of high stress";

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> case_and_ground() {
    return {
        derived("case", "title", Text, "name of the file", {0, 0}, "heading of reports and figures", own),

        required("ground", "slice_depth_m", Number, {0, 100}, "depth of the horizontal slice below ground"),
        conditional("ground", "water_table_depth_m", Number, {-50, 100},
                    "below ground; negative: water above ground; needed with [[layer]], without effect with "
                    "vertical_stress_kPa"),
        conditional("ground", "vertical_stress_kPa", Number, {0, 2000},
                    "effective vertical stress in the slice; give either this or [[layer]]; 0 only for the "
                    "elastic model"),
        standard(
            "ground", "K0", Number, "0.5", {0.3, 3},
            "horizontal over vertical effective stress before treatment",
            "common practice, no source: loose, normally loaded sand; the soil model may narrow the range"),
        conditional("ground", "relative_density_pct", Number, {0, 100},
                    "before treatment; give either this or void_ratio"),
        conditional("ground", "void_ratio", Number, {0.2, 3},
                    "before treatment, between e_min and e_max; give either this or relative_density_pct"),
        standard("ground", "e_max", Number, "0.977", {0.3, 3}, "void ratio in the loosest state",
                 "Toyoura sand, from memory of Verdugo & Ishihara 1996; range: own choice"),
        standard("ground", "e_min", Number, "0.597", {0.2, 2}, "void ratio in the densest state",
                 "Toyoura sand, from memory of Verdugo & Ishihara 1996; range: own choice"),
        word("ground", "vertical_condition", "shared", {"shared", "fixed"},
             "shared: the ground heaves as a body under its overburden; fixed: no vertical strain, an upper "
             "bound of stress",
             "own choice: piles in a pattern lift the ground"),

        conditional(
            "ground", "heaving_margin_m", Number, {1e-4, 1000},
            "vertical_condition shared: only ground up to this far beyond the outermost pile centers heaves,"
            " the rest keeps its thickness; without it the whole domain heaves",
            "no default; half a spacing makes it the treated area (own choice)"),

        derived("layer", "name", Text, "number of the layer", {0, 0},
                "layers stand top down, each under its own [[layer]]", own),
        required("layer", "thickness_m", Number, {0.01, 200}, "thickness of the layer"),
        required("layer", "unit_weight_kN_m3", Number, {10, 25},
                 "total: moist above the water table, saturated below",
                 "no default; range of soils: common practice, no source"),

        derived(
            "region", "name", Text, "number of the region", {0, 0},
            "ground looser or denser than the rest, each piece under its own [[region]]; where they overlap "
            "the later one holds",
            own),
        conditional(
            "region", "x_m", Interval, {-1e4, 1e4},
            "rectangle: [low, high]; give x_m and y_m or center_m and radius_m; cells with their middle "
            "inside belong to it"),
        conditional("region", "y_m", Interval, {-1e4, 1e4}, "rectangle: [low, high]"),
        conditional("region", "center_m", Point, {-1e4, 1e4}, "circle: its center"),
        conditional("region", "radius_m", Number, {1e-3, 1e4}, "circle: its radius"),
        conditional("region", "relative_density_pct", Number, {0, 100},
                    "before treatment; give either this or void_ratio"),
        conditional("region", "void_ratio", Number, {0.2, 3},
                    "before treatment, between e_min and e_max; give either this or relative_density_pct"),

        word("soil", "model", "", soil_model_names(),
             "soil law of the slice; its parameters stand beside it in [soil]",
             "no default: choose knowingly"),
    };
}

std::vector<KeyInfo> pile_and_layout() {
    return {
        standard("pile", "casing_diameter_m", Number, "0.4", {0, 3},
                 "0: no separate casing pass; without effect where strokes are 0 (one monotonic growth)",
                 practice),
        standard("pile", "diameter_m", Number, "0.7", {1e-4, 3}, "finished pile; injected area pi d^2/4",
                 practice),
        derived("pile", "seed_radius_m", Number, "diameter_m / (2 sqrt(3))", {1e-5, 1.5},
                "radius of the soil disc that is replaced by the pile",
                "Carter, Randolph & Wroth 1979: growth from a0 to 2 a0 stands for a cavity from nothing; it "
                "injects pi d^2/4"),
        conditional("pile", "withdrawal_m", Number, {0.01, 10},
                    "withdrawal w of the casing per stroke; with redrive_m it gives the strokes"),
        conditional("pile", "redrive_m", Number, {0, 10},
                    "re-driving r per stroke, less than the withdrawal; net rise D = w - r"),
        standard("pile", "stroke_reach_m", Number, "0", {0, 10},
                 "0: a depth feels only the w/D passes through it, the first is the casing pass: strokes = "
                 "round(w/D) - 1;"
                 " above 0: also strokes made within this reach above and below: strokes = round(2 reach/D)",
                 "own choice: reach is a matter of calibration"),
        derived(
            "pile", "strokes", Count, "from withdrawal_m, redrive_m and stroke_reach_m", {0, 500},
            "strokes of one depth; 0: one monotonic growth; give either this or withdrawal_m and redrive_m",
            own),
        standard("pile", "withdrawal_pressure_ratio", Number, "0.3", {0.05, 1},
                 "a withdrawal ends when the disc pressure, excess pore pressure included, has fallen to "
                 "this share "
                 "of the initial vertical stress",
                 "own choice: the wall loses its pressure within some millimeters"),
        standard("pile", "final_pressure_ratio", Number, "0", {0, 20},
                 "after the last stroke the disc relaxes to this multiple of the initial vertical stress; 0: "
                 "it does not",
                 "own choice: 2 to 6 seem likely, unmeasured"),

        word("layout", "pattern", "", {"square", "triangular", "rectangular", "listed"},
             "how the piles stand in plan", "no default"),
        conditional("layout", "spacing_m", Number, {1e-4, 20},
                    "center to center within a row; needed for more than one pile of a pattern and for a "
                    "pattern-cell"),
        conditional("layout", "row_spacing_m", Number, {1e-4, 20}, "rectangular only: between rows"),
        conditional("layout", "rows", Count, {1, 200}, "number of rows along y; needed for a pattern"),
        conditional("layout", "columns", Count, {1, 200}, "piles in a row along x; needed for a pattern"),
        standard("layout", "origin_m", Point, "[0, 0]", {-1e4, 1e4}, "center of the first pile", own),
        standard("layout", "angle_deg", Number, "0", {-180, 180},
                 "rotation of the pattern about its origin, counterclockwise", own),
        conditional("layout", "positions_m", Points, {-1e4, 1e4},
                    "listed only: centers [[x, y], ...]; give either this or positions_file"),
        conditional(
            "layout", "positions_file", Text, {0, 0},
            "listed only: CSV file beside this one with the columns x_m,y_m, before them pile where the "
            "piles "
            "have names, behind them diameter_m (empty: that of [pile]), place_in_order and rig where given"),

        word(
            "order", "kind", "row-by-row",
            {"row-by-row", "alternating", "from-side", "from-middle", "together", "listed"},
            "order of work; a triangular pattern-cell knows together and row-by-row: every second row first, "
            "then the rows between",
            practice),
        {"order",
         "from",
         Word,
         Conditional,
         {},
         0,
         0,
         {"west", "east", "south", "north"},
         "from-side only: the side where work begins",
         "no default"},
        conditional("order", "sequence", Counts, {1, 1e5}, "listed only: pile numbers, each once"),
    };
}

std::vector<KeyInfo> domain_and_numerics() {
    return {
        word("domain", "shape", "rectangle", {"rectangle", "round", "pattern-cell"},
             "outline of the computed ground in plan; pattern-cell: between lines of symmetry of the endless "
             "pattern of [layout], half a spacing around square or rectangular piles; triangular (rows = 1, "
             "columns = 1): s by s sqrt(3), one pile in the middle and a quarter pile in every corner",
             own),
        conditional("domain", "x_m", Interval, {-1e4, 1e4},
                    "rectangle: [low, high]; give x_m and y_m or margin_m"),
        conditional("domain", "y_m", Interval, {-1e4, 1e4}, "rectangle: [low, high]"),
        derived("domain", "margin_m", Number, "100 seed radii", {1e-3, 1000},
                "rectangle: ground around the outermost pile centers",
                "own measurement: a rigid side at 100 a0 errs by 3 % in pressure"),
        conditional("domain", "radius_m", Number, {1e-3, 1e4}, "round: radius about the origin"),
        word("domain", "part", "whole", {"whole", "quarter"},
             "round, and pattern-cell of one pile: the whole, or the quarter x, y >= its middle between "
             "lines of symmetry",
             own),
        word("domain", "west", "rigid-smooth", side_kinds, "rectangle: what holds the side of low x",
             side_source),
        word("domain", "east", "rigid-smooth", side_kinds, "rectangle: what holds the side of high x",
             side_source),
        word("domain", "south", "rigid-smooth", side_kinds, "rectangle: what holds the side of low y",
             side_source),
        word("domain", "north", "rigid-smooth", side_kinds, "rectangle: what holds the side of high y",
             side_source),
        word("domain", "rim", "rigid-smooth", {"rigid-smooth", "constant-stress"},
             "round: what holds the arc", side_source),

        standard("grid", "cells_per_diameter", Number, "12", {2, 400},
                 "cells across the finished pile diameter, in the treated area",
                 "own choice: 10 to 12 keep averages within a few percent"),
        conditional("grid", "fine_cell_m", Number, {1e-5, 100},
                    "cell edge in the treated area, instead of cells_per_diameter"),
        derived("grid", "fine_margin_m", Number, "1 pile diameter; the whole of a pattern-cell", {1e-4, 1000},
                "fine cells reach this far beyond the outermost pile centers", own),
        standard("grid", "growth_ratio", Number, "1.2", {1, 1.5},
                 "each cell outside is larger than its inner neighbor by this ratio",
                 "own measurement: 1.2 to 1.3 is harmless"),

        standard("steps", "increments_per_pile", Count, "20", {1, 5000},
                 "increments of one full growth, equal steps of ln(radius)",
                 "own measurement: 10 to 20 for Mohr-Coulomb"),
        standard("steps", "increments_per_half_stroke", Count, "6", {1, 1000},
                 "increments of one withdrawal or re-driving", "own measurement: 5 to 10"),
        derived("steps", "radius_step", Number, "0.002 for two-surface-sand, else 0.05", {1e-5, 0.5},
                "largest change of a disc's radius in one increment, as a share of it",
                "own measurement: 0.004 costs the sand 1 % of relative density, and more time"),
        derived("steps", "tolerance", Number, "1e-2 for two-surface-sand, else 3e-3", {1e-12, 0.1},
                "worst out-of-balance force of a node over the sum of its forces", "own measurement"),
        standard("steps", "max_iterations", Count, "120", {5, 10000},
                 "iterations of one increment before it is halved", own),
        standard("steps", "max_halvings", Count, "6", {0, 20},
                 "halvings of one increment before the run stops", own),
        derived("steps", "hourglass", Number, "0.01 for two-surface-sand, else 0.1", {0, 1},
                "viscous resistance to the checkerboard mode of a cell; results must not depend on it",
                "own measurement: 0.1 would cost the sand 3 % of relative density"),
        standard(
            "steps", "carry_over_iterations", Count, "15", {1, 10000},
            "from this iteration on a rest below carry_over_tolerance is carried into the next increment",
            "own measurement"),
        derived("steps", "carry_over_tolerance", Number, "3e-2 for two-surface-sand, else 1e-2", {1e-12, 0.2},
                "at least the tolerance; equal to it: nothing is carried over", "own measurement"),

        conditional(
            "record", "points_m", Points, {-1e4, 1e4},
            "places watched besides mid-span and centroid, [[x, y], ...]; in the domain, outside the piles",
            "no default; mid-span and centroid nearest the middle of the layout are always watched"),
        {"record",
         "point_names",
         Texts,
         Conditional,
         {},
         0,
         0,
         {},
         "one name for each of points_m; without it they are called point 1, point 2, ...",
         "no default"},
        derived(
            "record", "sampling_radius_m", Number,
            "a tenth of the smallest distance between piles, 0.25 diameters for one pile; at least one cell",
            {1e-4, 10}, "values at a point are means over the ground within this distance of it", own),

        conditional(
            "target", "relative_density_pct", Number, {0, 100},
            "wanted after treatment; the share of ground below it is told, nothing else depends on it",
            "no default: a choice of the designer"),

        standard("output", "every_pile", Flag, "true", {0, 0},
                 "record the slice after every pile; false: only the first and the last state", own),
    };
}
// clang-format on

} // namespace

const std::vector<KeyInfo>& vocabulary() {
    static const std::vector<KeyInfo> keys = [] {
        auto all = case_and_ground();
        for (auto part : {pile_and_layout(), water_and_schedule(), domain_and_numerics()})
            all.insert(all.end(), part.begin(), part.end());
        return all;
    }();
    return keys;
}

const Dictionary& case_dictionary() {
    static const Dictionary dictionary = {
        vocabulary(), {"layer", "region"}, "Keys of a case file (TOML)", "help-case"};
    return dictionary;
}

std::vector<std::reference_wrapper<const Dictionary>> dictionaries() {
    return {case_dictionary(),  soil_test_dictionary(), site_dictionary(), works_dictionary(),
            study_dictionary(), report_dictionary(),    style_dictionary()};
}

bool Dictionary::repeats(std::string_view table) const {
    return std::find(repeated.begin(), repeated.end(), table) != repeated.end();
}

std::vector<std::string> table_names(const Dictionary& dictionary) {
    std::vector<std::string> names;
    for (const KeyInfo& info : dictionary.keys)
        if (names.empty() || names.back() != info.table)
            names.emplace_back(info.table);
    return names;
}

std::string header_of(std::string_view table, const Dictionary& dictionary) {
    return dictionary.repeats(table) ? fmt::format("[[{}]]", table) : fmt::format("[{}]", table);
}

} // namespace interpile::io
