// Elastic discs: Lame's solutions, the point source in a box, superposition of groups. Areas are 1e-3 of those of the
// reference tables, so that large-strain terms vanish; displacements and stresses are scaled back.

#include "support/verification.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace interpile;
using namespace interpile::test;
using std::numbers::pi;

namespace {

constexpr double scale = 1e-3;          // computed area over that of the tables
constexpr double area = 0.02;           // of the tables, m2
constexpr double G = 25000 / (2 * 1.3); // kPa

/// Cell size h, and an hourglass resistance that stays about the same share of the shear modulus on every grid, so that
/// its effect falls with the square of h like the rest of the error.
Changes grid(double h) {
    return {{"fine_cell_m", fmt::format("{}", h)}, {"hourglass", fmt::format("{}", 4e-4 * h)}};
}
Changes group_grid(double h) {
    return {{"fine_cell_m", fmt::format("{}", h)}, {"hourglass", fmt::format("{}", 1e-3 * h)}};
}

/// Largest error of the radial displacement of nodes between two radii, over the reference value A/(2 pi r).
double radial_error(const CaseRun& run, double low, double high, double (*exact)(double)) {
    double worst = 0;
    for (int n = 0; n < run.grid.node_count(); ++n) {
        const mesh::Vec2 p = run.grid.node_m.col(n);
        const double r = p.norm();
        if (r < low || r > high)
            continue;
        const mesh::Vec2 u = (run.last().node_m.col(n) - p) / scale;
        worst = std::max(worst, (u - exact(r) * p / r).norm() / (area / (2 * pi * r)));
    }
    return worst;
}

// bm1c: A_s = 0.02 m2 from r0 = 0.2 m; source: Lame, from memory of Timoshenko & Goodier (1970).
double open_plane(double r) {
    return area / (2 * pi * r);
}
double rigid_rim(double r) {
    const double C = area / (2 * pi * (1 - 0.04));
    return C * (1 / r - r);
}
double stress_rim(double r) {
    const double C = area / (2 * pi * (1 + 0.4 * 0.04));
    return C / r + 0.4 * C * r;
}

} // namespace

TEST_CASE("the formulas of Lame agree with their table") {
    const Table table("bm1c_injected_area");
    for (const auto& [kind, exact] : {std::pair("infinite", &open_plane), std::pair("rigid", &rigid_rim),
                                      std::pair("constant_stress", &stress_rim)}) {
        for (const auto& row : table.rows())
            if (row.cells.front().find(kind) != std::string::npos)
                CHECK((*exact)(table.number(row, "r")) == Approx(table.number(row, "u_r")).epsilon(1e-4));
    }
}

TEST_CASE("a disc in an elastic plane moves the ground by A/(2 pi r)") {
    Convergence error;
    for (double h : {0.1, 0.05, 0.025})
        error.add(h, radial_error(run_case("disc-open", grid(h)), 0.4, 1.0, open_plane));
    INFO(error.table("disc in an open elastic plane, |u - A/(2 pi r)| over A/(2 pi r), Lame"));
    CHECK(error.finest() < 0.01);
    CHECK(error.order() > 1.5);
}

TEST_CASE("Lame's thick cylinder: round cell with rigid rim") {
    Convergence error;
    for (double h : {0.1, 0.05, 0.025})
        error.add(h, radial_error(run_case("disc-rim-rigid-smooth", grid(h)), 0.4, 1.0, rigid_rim));
    INFO(error.table("disc in a round elastic cell, rigid rim, Lame"));
    CHECK(error.finest() < 0.01);
    CHECK(error.order() > 1.5);
}

TEST_CASE(
    "Lame's thick cylinder: round cell with constant stress on the rim, displacement and wall pressure") {
    Convergence error, pressure;
    for (double h : {0.1, 0.05, 0.025}) {
        const CaseRun run = run_case("disc-rim-constant-stress", grid(h));
        error.add(h, radial_error(run, 0.4, 1.0, stress_rim));
        // Lame: sigma_r = A + B/r^2, zero at r = 1: p_i = 2 G C (1/r0^2 - 1), from u = C/r + (1-2nu) C r.
        const double exact = 2 * G * area / (2 * pi * (1 + 0.4 * 0.04)) * (1 / 0.04 - 1);
        // Mean stress of the ring 0.36 to 0.44 m against Lame there, where every cell is soil.
        const auto ring = rings(run, 0.36, 0.44, 1).front();
        const double at_ring = exact * (1 / (ring.radius * ring.radius) - 1) / (1 / 0.04 - 1);
        pressure.add(h, std::abs(ring.sigma_r / scale - at_ring) / exact);
    }
    INFO(error.table("disc in a round elastic cell, constant stress on the rim, Lame"));
    INFO(pressure.table("the same, radial stress at 2 r0 over p_i"));
    CHECK(error.finest() < 0.01);
    CHECK(error.order() > 1.5);
    CHECK(pressure.finest() < 0.01);
}

// bm1d: derived, series against image sum 3e-15. A source of strength A_s spreads -A_s/(Lx Ly) everywhere, also over its
// own disc: the area that leaves the disc is A_s (1 - pi r0^2/(Lx Ly)). Error over A/(2 pi 0.3 m), points at least 0.3 m from the source.
TEST_CASE("a source of area in a smooth rigid box") {
    const Table table("bm1d_box_source");
    for (const auto& [name, first] : {std::pair("box-source-square", "square_centre"),
                                      std::pair("box-source-oblong", "rect_offcentre")}) {
        const auto rows = table.rows(first);
        const mesh::Vec2 source(table.number(rows.front(), "x_source"),
                                table.number(rows.front(), "y_source"));
        const io::Case settings = run_case(name).settings;
        const double box = settings.domain.area_m2();
        const double strength = 1 / (1 - pi * 0.2 * 0.2 / box);
        Convergence error;
        double volumetric = 0;
        for (double h : {0.1, 0.05, 0.025}) {
            const CaseRun run = run_case(name, grid(h));
            double worst = 0;
            for (const auto& row : rows) {
                const mesh::Vec2 p(table.number(row, "x"), table.number(row, "y"));
                if ((p - source).norm() < 0.3)
                    continue;
                const mesh::Vec2 exact =
                    strength * mesh::Vec2(table.number(row, "u_x"), table.number(row, "u_y"));
                worst = std::max(worst,
                                 (displacement_at(run, p) / scale - exact).norm() / (area / (2 * pi * 0.3)));
            }
            error.add(h, worst);
            volumetric = // the same everywhere; read in a corner cell
                run.last().fields.at("volumetric_strain_pct")(0) / 100 / scale;
        }
        INFO(error.table(std::string(name) + ", |u - exact| over A/(2 pi 0.3 m)"));
        CHECK(error.finest() < 0.01);
        CHECK(error.order() > 1.5);
        CHECK(volumetric == Approx(strength * area / box).epsilon(0.01));
    }
}

// bm12a, bm12b: superposition in an infinite plane; A = 0.2 m2 per pile in the tables. The rigid sides at 100 m hold
// back about (r/100 m)^2 of the movement. Points at least 4 cells outside a disc.
TEST_CASE("displacements of a group superpose, and early piles are moved by later ones") {
    const Table field("bm12a_groups"), order("bm12b_order");
    const double largest = 0.2 / (2 * pi * 0.9); // one pile at half a spacing
    for (const std::string name : {"square9", "row5", "hexagon7"}) {
        Convergence error, moves;
        for (double h : {0.2, 0.1, 0.05}) {
            const CaseRun run = run_case("group-" + name, group_grid(h));
            double worst = 0;
            for (const auto& row : field.rows(name)) {
                const mesh::Vec2 p(field.number(row, "x"), field.number(row, "y"));
                double nearest = 1e9;
                for (const auto& pile : run.settings.plan.piles)
                    nearest = std::min(nearest, (pile.center_m - p).norm());
                if (nearest < 0.65)
                    continue;
                const mesh::Vec2 exact(field.number(row, "u_x"), field.number(row, "u_y"));
                worst = std::max(worst, (displacement_at(run, p) / scale - exact).norm() / largest);
            }
            error.add(h, worst);
            double worst_move = 0;
            const auto rows = order.rows(name);
            for (std::size_t k = 0; k < rows.size(); ++k) {
                const mesh::Vec2 exact(order.number(rows[k], "move_x_by_later_piles"),
                                       order.number(rows[k], "move_y"));
                const mesh::Vec2 moved = run.last().disc_center_m.col(static_cast<Eigen::Index>(k)) -
                                         run.settings.plan.piles[k].center_m;
                worst_move = std::max(worst_move, (moved / scale - exact).norm() / largest);
            }
            moves.add(h, worst_move);
        }
        INFO(error.table("group " + name + ", |u - superposed| over A/(2 pi 0.9 m)"));
        INFO(moves.table("group " + name + ", movement of piles by later ones"));
        CHECK(error.finest() < 0.01);
        CHECK(moves.finest() < 0.01);
    }
}
