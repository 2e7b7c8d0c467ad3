// Two-surface sand against single states computed by an independent code (tests/sources/sand-element), and identities.

#include "solver/soil_models/two_surface_sand.h"
#include "support/csv_numbers.h"

#include <Eigen/Dense>
#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile::solver;

namespace {

TwoSurfaceConstants published() {
    TwoSurfaceConstants k;
    k.m = 0.01; // as in the paper
    k.p_min = 0.5;
    return k;
}

SandTensor<6> tensor(const std::vector<double>& row, int first) {
    SandTensor<6> t;
    for (int k = 0; k < 6; ++k)
        t[k] = row[first + k];
    return t;
}

} // namespace

// The states carry ten digits. n comes from r - a, of size 0.008: two to three digits go there, and the plastic modulus
// loses as many again through a - a_in.
TEST_CASE("two-surface sand: every intermediate and rate of sixteen states") {
    const auto rows = interpile::test::csv_numbers("sand-element/states.csv");
    REQUIRE(rows.size() == 16);
    for (const auto& row : rows) {
        SandState<6> state = {tensor(row, 1), tensor(row, 7), tensor(row, 13), tensor(row, 19), row[25]};
        const auto q = sand_rates(state, tensor(row, 26), published());
        INFO("state " << row[0]);
        const auto near = [&](double value, double reference) {
            return std::abs(value - reference) <= 5e-6 * std::abs(reference) + 2e-7;
        };
        const double scalars[] = {q.p, q.G, q.K};
        for (int k = 0; k < 3; ++k)
            CHECK(near(scalars[k], row[32 + k]));
        for (int k = 0; k < 6; ++k)
            CHECK(near(q.n[k], row[35 + k]));
        const double more[] = {q.cos3t, q.g, q.e_c, q.psi, q.a_b, q.a_d, q.a_n,
                               q.b0,    q.h, q.Kp,  q.Ad,  q.D,   q.B,   q.C};
        for (int k = 0; k < 14; ++k) {
            INFO("column " << 41 + k << ": " << more[k] << " against " << row[41 + k]);
            CHECK(near(more[k], row[41 + k]));
        }
        for (int k = 0; k < 6; ++k)
            CHECK(near(q.R[k], row[55 + k]));
        CHECK(near(q.den, row[61]));
        CHECK(near(q.L, row[62]));
        const double size_S = norm(tensor(row, 63)), size_a = norm(tensor(row, 69));
        for (int k = 0; k < 6; ++k) {
            CHECK(std::abs(q.dS[k] - row[63 + k]) <= 5e-6 * size_S);
            CHECK(std::abs(q.da[k] - row[69 + k]) <= 5e-6 * size_a);
            CHECK(near(q.dz[k], row[75 + k]));
        }
    }
}

// n = +-diag(2,-1,-1)/sqrt(6) gives R' = n; always n:R' = B - C tr(n^3).
TEST_CASE("two-surface sand: identities of the flow direction") {
    for (double sign : {1.0, -1.0}) {
        SandState<6> state;
        state.S = {{100 + sign * 40, 100 - sign * 20, 100 - sign * 20, 0, 0, 0}};
        state.a = {{sign * 0.3, -sign * 0.15, -sign * 0.15, 0, 0, 0}};
        state.e = 0.8;
        const auto q = sand_rates(state, SandTensor<6>{{1e-5, 0, 0, 0, 0, 0}}, published());
        CHECK(norm(q.R - q.n) < 1e-12);
        CHECK(dot(q.n, q.R) == Approx(q.B - q.C * dot(square(q.n), q.n)).epsilon(1e-12));
    }
}

TEST_CASE("two-surface sand: turning the axes turns the answer, and the cone stays on the stress") {
    const TwoSurfaceSand soil(published());
    SoilState start, end;
    start.resize(1, soil.history_size());
    start.stress.row(0) << 90, 60, 100, 8;
    start.void_ratio(0) = 0.8;
    soil.initialize(start);
    Motion motion = Motion::Zero(1, MotionColumns);
    motion(0, RotationCos) = 1;
    motion.row(0).head<4>() << 4e-4, -3e-4, 1e-4, 2e-4;
    end = start;
    soil.update(motion, start, end, 0, 1);

    const Eigen::Matrix2d r = Eigen::Rotation2Dd(0.7).toRotationMatrix();
    const auto turn = [&](double xx, double yy, double xy) {
        Eigen::Matrix2d t;
        t << xx, xy, xy, yy;
        return Eigen::Matrix2d(r * t * r.transpose());
    };
    SoilState turned = start;
    const Eigen::Matrix2d s = turn(90, 60, 8);
    turned.stress.row(0) << s(0, 0), s(1, 1), 100, s(0, 1);
    soil.initialize(turned);
    const Eigen::Matrix2d d = turn(4e-4, -3e-4, 2e-4);
    motion.row(0).head<4>() << d(0, 0), d(1, 1), 1e-4, d(0, 1);
    SoilState end_turned = turned;
    soil.update(motion, turned, end_turned, 0, 1);
    const Eigen::Matrix2d expected = turn(end.stress(0, 0), end.stress(0, 1), end.stress(0, 3));
    CHECK(end_turned.stress(0, 0) == Approx(expected(0, 0)).epsilon(1e-10));
    CHECK(end_turned.stress(0, 1) == Approx(expected(1, 1)).epsilon(1e-10));
    CHECK(end_turned.stress(0, 3) == Approx(expected(0, 1)).epsilon(1e-10));
    CHECK(end_turned.stress(0, 2) == Approx(end.stress(0, 2)).epsilon(1e-10));

    SandState<4> kept;
    for (int k = 0; k < 4; ++k) {
        kept.S[k] = end.stress(0, k);
        kept.a[k] = end.history(0, k);
    }
    CHECK(std::abs(cone_distance(kept, published())) < 1e-10);
}

// Several cells at a time against one cell at a time, through stresses, strains and reversals of very different size.
TEST_CASE("two-surface sand: lanes of vector instructions give the path of a single cell") {
    const Eigen::Index cells = 61;
    const TwoSurfaceConstants constants;
    const SubstepSettings settings;
    const TwoSurfaceSand soil(constants);
    const TwoSurfaceIntegration<4> single(constants, settings);
    SoilState start, end;
    start.resize(cells, soil.history_size());
    for (Eigen::Index cell = 0; cell < cells; ++cell) {
        const double p = 1.5 * std::pow(1.13, cell);
        start.stress.row(cell) << p, 0.8 * p, 1.2 * p, 0.1 * p;
        start.void_ratio(cell) = 0.65 + 0.3 * std::fmod(0.37 * static_cast<double>(cell), 1);
    }
    soil.initialize(start);
    std::vector<SandState<4>> expected(cells);
    for (Eigen::Index cell = 0; cell < cells; ++cell)
        for (int k = 0; k < 4; ++k) {
            expected[cell].S[k] = start.stress(cell, k);
            expected[cell].a[k] = expected[cell].a_in[k] = start.history(cell, k);
            expected[cell].z[k] = 0;
            expected[cell].e = start.void_ratio(cell);
        }
    Motion motion = Motion::Zero(cells, MotionColumns);
    motion.col(RotationCos).setOnes();
    for (const double size : {1.0, -0.4, 0.7}) { // loading, unloading, loading
        for (Eigen::Index cell = 0; cell < cells; ++cell)
            motion.row(cell).head<4>() = size * std::pow(10, -5 + 3.0 * ((cell * 7) % cells) / cells) *
                                         Eigen::Array4d(-0.8, 1, 0.1, 0.5).transpose();
        end = start;
        soil.update(motion, start, end, 0, cells);
        for (Eigen::Index cell = 0; cell < cells; ++cell) {
            const auto row = motion.row(cell);
            const bool plastic = single.advance(expected[cell], {{row(0), row(1), row(2), row(3)}});
            INFO("cell " << cell << ", part " << size);
            CHECK(end.yielding(cell) == plastic);
            CHECK(end.void_ratio(cell) == Approx(expected[cell].e).epsilon(1e-12));
            for (int k = 0; k < 4; ++k) {
                CHECK(end.stress(cell, k) == Approx(expected[cell].S[k]).epsilon(1e-8).margin(1e-6));
                CHECK(end.history(cell, 4 + k) == Approx(expected[cell].a_in[k]).margin(1e-7));
            }
        }
        start = end;
    }
}
