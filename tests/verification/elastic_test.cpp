// Elastic discs: Lame's solutions, the point source in a box, superposition of groups. Areas are 1e-3 of those of the
// reference tables, so that large-strain terms vanish; displacements and stresses are scaled back.
//
// In cells cut by the circle the program shares the elastic strain equally between pile and soil; really the pile part
// takes more of it. The area the disc is credited with is therefore too large by about (1-2nu)/3 h/a in an elastic
// ground (first order, derived in DEVELOPERS.md; it vanishes where the ground flows). Errors against a given area are
// first order, errors of the field against its own strength second order; both are measured.

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

/// Computed against exact displacements of many points.
class Misfit {
public:
    void add(const mesh::Vec2& computed, const mesh::Vec2& exact, double reference) {
        computed_.push_back(computed / reference);
        exact_.push_back(exact / reference);
        product_ += computed.dot(exact) / (reference * reference);
        square_ += exact.squaredNorm() / (reference * reference);
    }
    /// Largest difference over the reference value of the point.
    double whole() const { return largest(1); }
    /// The same after the exact field has been scaled to the computed strength.
    double shape() const { return largest(product_ / square_); }

private:
    double largest(double strength) const {
        double worst = 0;
        for (std::size_t k = 0; k < exact_.size(); ++k)
            worst = std::max(worst, (computed_[k] - strength * exact_[k]).norm());
        return worst;
    }
    std::vector<mesh::Vec2> computed_, exact_;
    double product_ = 0, square_ = 0;
};

// First-order error of the area credited to a disc in elastic ground (DEVELOPERS.md), 2 % on the finest grids. It was 1 %
// with a sharp edge; the edge is spread over two cells for sand, where this error does not exist.
constexpr double credited_area = 0.025;

/// Nodes between two radii against a radial solution, over A/(2 pi r).
Misfit radial_misfit(const CaseRun& run, double (*exact)(double)) {
    Misfit misfit;
    for (int n = 0; n < run.grid.node_count(); ++n) {
        const mesh::Vec2 p = run.grid.node_m.col(n);
        const double r = p.norm();
        if (r > 0.4 && r < 1.0)
            misfit.add((run.last().node_m.col(n) - p) / scale, exact(r) * p / r, area / (2 * pi * r));
    }
    return misfit;
}

/// Three grids; checks the error and both orders.
void check_radial(const std::string& name, double (*exact)(double)) {
    Convergence whole, shape;
    for (double h : {0.05, 0.025, 0.0125}) {
        const Misfit misfit = radial_misfit(run_case(name, grid(h)), exact);
        whole.add(h, misfit.whole());
        shape.add(h, misfit.shape());
    }
    INFO(whole.table(name + ": |u - Lame| over A/(2 pi r)"));
    INFO(shape.table(name + ": the same against its own strength"));
    CHECK(whole.finest() < credited_area);
    CHECK(whole.order() > 0.8);
    CHECK(shape.finest() < 0.004);
    CHECK(shape.order() > 1.4);
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
    check_radial("disc-open", open_plane);
}

TEST_CASE("Lame's thick cylinder: round cell with rigid rim") {
    check_radial("disc-rim-rigid-smooth", rigid_rim);
}

TEST_CASE("Lame's thick cylinder: round cell with constant stress on the rim") {
    check_radial("disc-rim-constant-stress", stress_rim);
}

TEST_CASE("Lame's thick cylinder: radial stress") {
    // u = C/r + (1-2nu) C r: sigma_r = 2 G C (1/r^2 - 1), zero at the rim r = 1.
    const double C = area / (2 * pi * (1 + 0.4 * 0.04));
    Convergence error;
    for (double h : {0.05, 0.025, 0.0125}) {
        const CaseRun run = run_case("disc-rim-constant-stress", grid(h));
        double worst = 0;
        for (const Ring& ring : rings(run, 0.3, 0.95, 6))
            worst = std::max(
                worst, std::abs(ring.sigma_r / scale - 2 * G * C * (1 / (ring.radius * ring.radius) - 1)));
        error.add(h, worst / (2 * G * C * (1 / 0.04 - 1))); // over the wall pressure
    }
    INFO(error.table("disc-rim-constant-stress: radial stress of rings over the wall pressure, Lame"));
    CHECK(error.finest() < credited_area);
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
        Convergence whole, shape;
        for (double h : {0.05, 0.025, 0.0125}) {
            const CaseRun run = run_case(name, grid(h));
            Misfit misfit;
            for (const auto& row : rows) {
                const mesh::Vec2 p(table.number(row, "x"), table.number(row, "y"));
                const mesh::Vec2 exact(table.number(row, "u_x"), table.number(row, "u_y"));
                if ((p - source).norm() >= 0.3)
                    misfit.add(displacement_at(run, p) / scale, strength * exact, area / (2 * pi * 0.3));
            }
            whole.add(h, misfit.whole());
            shape.add(h, misfit.shape());
        }
        INFO(whole.table(std::string(name) + ": |u - exact| over A/(2 pi 0.3 m)"));
        INFO(shape.table(std::string(name) + ": the same against its own strength"));
        CHECK(whole.finest() < credited_area);
        CHECK(whole.order() > 0.8);
        CHECK(shape.finest() < 0.004);
        CHECK(shape.order() > 1.4);
    }
}

// bm12a, bm12b: superposition in an infinite plane; A = 0.2 m2 per pile in the tables. The rigid sides at 60 m hold
// back about (r/60 m)^2 of the movement, 0.4 % at the corners of the groups. Points at least 4 cells outside a disc.
TEST_CASE("displacements of a group superpose, and early piles are moved by later ones") {
    const Table field("bm12a_groups"), order("bm12b_order");
    for (const std::string name : {"square9", "row5", "hexagon7"}) {
        double largest = 0; // movement that the group causes
        for (const auto& row : field.rows(name))
            largest = std::max(largest, std::hypot(field.number(row, "u_x"), field.number(row, "u_y")));
        Convergence whole, moves;
        for (double h : {0.1, 0.05, 0.025}) {
            const CaseRun run = run_case("group-" + name, group_grid(h));
            Misfit misfit, moved;
            for (const auto& row : field.rows(name)) {
                const mesh::Vec2 p(field.number(row, "x"), field.number(row, "y"));
                double nearest = 1e9;
                for (const auto& pile : run.settings.plan.piles)
                    nearest = std::min(nearest, (pile.center_m - p).norm());
                if (nearest > 0.65)
                    misfit.add(displacement_at(run, p) / scale,
                               {field.number(row, "u_x"), field.number(row, "u_y")}, largest);
            }
            const auto rows = order.rows(name);
            for (std::size_t k = 0; k < rows.size(); ++k)
                moved.add((run.last().disc_center_m.col(static_cast<Eigen::Index>(k)) -
                           run.settings.plan.piles[k].center_m) /
                              scale,
                          {order.number(rows[k], "move_x_by_later_piles"), order.number(rows[k], "move_y")},
                          largest);
            whole.add(h, misfit.whole());
            moves.add(h, moved.whole());
        }
        INFO(whole.table("group-" + name + ": |u - superposed| over the largest u"));
        INFO(moves.table("group-" + name + ": movement of piles by later ones"));
        CHECK(whole.finest() < credited_area);
        CHECK(moves.finest() < credited_area);
        CHECK(whole.order() > 0.7);
    }
}
