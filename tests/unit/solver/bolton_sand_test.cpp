// Sand with Bolton's strength and compaction by cycles: table of strengths, identities, single elements.

#include "solver/laboratory_test.h"
#include "solver/soil_models/bolton_sand.h"
#include "solver/soil_models/mohr_coulomb.h"
#include "support/csv_numbers.h"

#include <Eigen/Dense>
#include <Eigen/Geometry>
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile::solver;

namespace {

double sine(double degrees) {
    return std::sin(degrees * std::numbers::pi / 180);
}

SoilState one_cell(const SoilModel& soil, double xx, double yy, double zz, double xy, double e) {
    SoilState state;
    state.resize(1, soil.history_size());
    state.stress.row(0) << xx, yy, zz, xy;
    state.void_ratio(0) = e;
    soil.initialize(state);
    return state;
}

Motion motion_of(double xx, double yy, double zz, double xy, double angle = 0) {
    Motion motion(1, MotionColumns);
    motion.row(0) << xx, yy, zz, xy, std::cos(angle), std::sin(angle);
    return motion;
}

LaboratoryPoint cyclic_shear(const SoilModel& soil, double amplitude, int cycles, double step) {
    LaboratoryTest test;
    test.apparatus = Apparatus::TorsionalShear;
    test.void_ratio = 0.806; // D_r 45 %
    test.strain_step = step;
    for (int n = 0; n < cycles; ++n)
        for (double sign : {1.0, -1.0})
            test.legs.push_back({LoadingLeg::Strain, sign * amplitude});
    const auto result = run_laboratory_test(soil, test);
    REQUIRE(result.end == TestEnd::Completed);
    return result.points.back();
}

} // namespace

// The table is computed from the published relations (from memory), without limits of I_R and p'.
TEST_CASE("friction and dilation follow density and mean stress as tabulated") {
    BoltonStrength strength;
    strength.least_mean_stress_kPa = 1;
    for (const auto& row : interpile::test::csv_numbers("bolton-sand/strength.csv")) {
        const double e = strength.e_max - row[0] * (strength.e_max - strength.e_min);
        const double index = strength.index(e, std::log(row[1]));
        CHECK(index == Approx(std::min(row[2], 4.0)).epsilon(1e-5)); // table: six digits
        if (row[2] > 4)
            continue;
        CHECK(strength.friction_angle_deg(index) == Approx(row[3]).epsilon(1e-5));
        // His fits of angle and rate are two: at I_R 1 to 3 they agree within 20 %.
        const double sin_psi = sine(BoltonStrength::dilation_angle_deg(index));
        if (index > 1 && index < 3)
            CHECK(2 * sin_psi / (1 - sin_psi) == Approx(row[5]).epsilon(0.2));
    }
    CHECK(strength.index(strength.critical_void_ratio(300), std::log(300)) == Approx(0).margin(1e-12));
    strength.least_mean_stress_kPa = 150;
    CHECK(strength.index(0.8, std::log(20)) == strength.index(0.8, std::log(150)));
}

// Without cycles the first step from any state is that of Mohr-Coulomb soil with the angles of that state.
TEST_CASE("a monotonic step equals Mohr-Coulomb with the angles of the moment") {
    BoltonSandParameters p;
    const BoltonSand sand(p);
    const double e = GENERATE(0.65, 0.75, 0.92);
    SoilState start = one_cell(sand, 140, 60, 100, 15, e), end = start;
    const double index = p.strength.index(e, std::log(100.0));
    MohrCoulombParameters like;
    like.friction_angle_deg = p.strength.friction_angle_deg(index);
    like.dilation_angle_deg = BoltonStrength::dilation_angle_deg(index);
    like.shear_modulus_kPa = p.shear_modulus_kPa; // p' is 100 kPa
    const MohrCoulomb reference("mohr-coulomb", like);
    const Motion motion = motion_of(0.01, -0.012, 1e-3, 3e-3, 0.02);
    sand.update(motion, start, end, 0, 1);
    SoilState other = start;
    reference.update(motion, start, other, 0, 1);
    CHECK(end.yielding(0) == 1);
    for (int k = 0; k < 4; ++k)
        CHECK(end.stress(0, k) == Approx(other.stress(0, k)).epsilon(1e-10));
    CHECK(end.void_ratio(0) == Approx((1 + e) * std::exp(-(0.01 - 0.012 + 1e-3)) - 1).epsilon(1e-14));
}

// Compaction in a held volume takes K d_eps of mean stress in the increment that follows, nothing else.
TEST_CASE("compaction in a held volume relaxes the stress") {
    BoltonSandParameters p;
    const BoltonSand sand(p);
    SoilState state = one_cell(sand, 100, 100, 100, 0, 0.84), next = state;
    for (double shear : {5e-4, -5e-4, 0.0}) {
        sand.update(motion_of(0, 0, 0, shear), state, next, 0, 1);
        std::swap(state, next);
    }
    const CyclicCompaction law(1, 5e-5, p.strength.e_max, p.strength.e_min);
    const double compaction = 0.5 * (5e-4 - 5e-5) * law.constant(0.84); // one half cycle, amplitude 0.05 %
    const double K = p.shear_modulus_kPa * 2 * 1.3 / (3 * 0.4);
    CHECK(compaction > 1e-4);
    CHECK(state.stress(0, 0) == Approx(100 - K * compaction).epsilon(1e-10));
    CHECK(state.stress(0, 2) == Approx(100 - K * compaction).epsilon(1e-10));
    CHECK(state.void_ratio(0) == Approx(0.84).epsilon(1e-14));
}

// In a held volume the mean stress rises by K times the dilation, and that much compaction is taken back.
TEST_CASE("dilation takes compaction back") {
    BoltonSandParameters p;
    p.stiffness_exponent = 0;
    const BoltonSand sand(p);
    SoilState state = one_cell(sand, 100, 100, 100, 0, 0.75), next = state;
    for (double shear : {2e-3, -2e-3, 2e-3, 0.0}) {
        sand.update(motion_of(0, 0, 0, shear), state, next, 0, 1);
        std::swap(state, next);
    }
    constexpr int compaction = 8; // column of the history
    REQUIRE(state.history(0, compaction) > 1e-4);
    sand.update(motion_of(0, 0, 0, 2e-3), state, next, 0, 1); // beyond the earlier range
    REQUIRE(next.yielding(0) == 1);
    const double K = p.shear_modulus_kPa * 2 * 1.3 / (3 * 0.4);
    const double rise = (next.stress.row(0).head(3) - state.stress.row(0).head(3)).mean();
    CHECK(rise > 0.5);
    CHECK(state.history(0, compaction) - next.history(0, compaction) == Approx(rise / K).epsilon(1e-9));
}

// A trial is undone by being forgotten: the same motion from the same start gives the same end.
TEST_CASE("a trial leaves no trace") {
    const BoltonSand sand({});
    SoilState start = one_cell(sand, 60, 60, 100, 0, 0.84), end = start, again = start;
    sand.update(motion_of(0, 0, 0, 2e-3), start, end, 0, 1);
    std::swap(start, end);
    sand.update(motion_of(0, 0, 0, -1e-3), start, again, 0, 1);
    sand.update(motion_of(0, 0, 0, 1e-3), start, end, 0, 1);
    sand.update(motion_of(0, 0, 0, -1e-3), start, end, 0, 1);
    CHECK((end.stress == again.stress).all());
    CHECK((end.history == again.history).all());
}

TEST_CASE("turning the axes, or the material during the steps, turns the answer") {
    const BoltonSand sand({});
    const auto turned = [](double xx, double yy, double xy, double angle) {
        const Eigen::Matrix2d r = Eigen::Rotation2Dd(angle).toRotationMatrix();
        Eigen::Matrix2d t;
        t << xx, xy, xy, yy;
        return Eigen::Matrix2d(r * t * r.transpose());
    };
    // The same course in its own axes, and in axes that turn by 0.3 at the start of every step.
    const double axes = 0.7, turn = 0.3;
    const Eigen::Matrix2d s0 = turned(90, 60, 8, axes);
    SoilState plain = one_cell(sand, 90, 60, 100, 8, 0.8), plain_end = plain;
    SoilState other = one_cell(sand, s0(0, 0), s0(1, 1), 100, s0(0, 1), 0.8), other_end = other;
    double angle = axes;
    for (const double size : {2e-3, 2e-3, -3e-3, -2e-3, 4e-3, 5e-3, -4e-3}) {
        sand.update(motion_of(size, -0.7 * size, 0.2 * size, 0.5 * size), plain, plain_end, 0, 1);
        std::swap(plain, plain_end);
        angle += turn;
        const Eigen::Matrix2d d = turned(size, -0.7 * size, 0.5 * size, angle);
        sand.update(motion_of(d(0, 0), d(1, 1), 0.2 * size, d(0, 1), turn), other, other_end, 0, 1);
        std::swap(other, other_end);
    }
    CHECK(plain.history(0, 8) > 1e-4); // compaction has happened
    const Eigen::Matrix2d expected =
        turned(plain.stress(0, 0), plain.stress(0, 1), plain.stress(0, 3), angle);
    CHECK(other.stress(0, 0) == Approx(expected(0, 0)).epsilon(1e-9));
    CHECK(other.stress(0, 1) == Approx(expected(1, 1)).epsilon(1e-9));
    CHECK(other.stress(0, 3) == Approx(expected(0, 1)).epsilon(1e-9));
    CHECK(other.stress(0, 2) == Approx(plain.stress(0, 2)).epsilon(1e-9));
    for (int k = 6; k < 11; ++k) // scalars of the memory
        CHECK(other.history(0, k) == Approx(plain.history(0, k)).epsilon(1e-9));
}

// Drained cycles of 0.05 % stay below yield. From the first reversal on: a first half cycle whose inner part has half the
// amplitude, then full ones. Byrne's recurrence, written out.
TEST_CASE("drained cyclic shear densifies by the recurrence") {
    BoltonSandParameters p;
    p.compaction_threshold = 0;
    const BoltonSand sand(p);
    constexpr double gamma = 5e-4;
    constexpr int cycles = 10;
    const auto end = cyclic_shear(sand, gamma, cycles, gamma / 200);
    const double C1 = 7600 * std::pow(45, -2.5), C2 = 0.4 / C1;
    double compaction = 0.5 * gamma / 2 * C1;
    for (int half = 2; half < 2 * cycles; ++half)
        compaction += 0.5 * gamma * C1 * std::exp(-C2 * compaction / gamma);
    // The compaction of the last step has not acted yet.
    CHECK(end.volumetric_strain == Approx(compaction).epsilon(1e-3));
    CHECK(end.void_ratio == Approx(1.806 * std::exp(-end.volumetric_strain) - 1).epsilon(1e-12));
}

// Strength and stiffness of the last kept state: first order in the step.
TEST_CASE("curves do not depend on the step") {
    const BoltonSand sand({});
    const auto cyclic = [&](double step) { return cyclic_shear(sand, 0.01, 4, step).volumetric_strain; };
    const double fine = cyclic(2e-5);
    CHECK(std::abs(fine) > 1e-3);
    CHECK(cyclic(2e-4) == Approx(fine).epsilon(0.02));
    LaboratoryTest test;
    test.void_ratio = 0.7;
    test.legs = {{LoadingLeg::Strain, 0.1}};
    test.strain_step = 1e-3;
    const auto coarse = run_laboratory_test(sand, test).points.back();
    test.strain_step = 1e-4;
    const auto smooth = run_laboratory_test(sand, test).points.back();
    CHECK(coarse.q_kPa == Approx(smooth.q_kPa).epsilon(5e-3));
    CHECK(coarse.volumetric_strain == Approx(smooth.volumetric_strain).epsilon(0.02));
}

// Shear to the end: volume stays when I_R is zero, whatever the density at the start.
TEST_CASE("long shearing ends at the critical state") {
    const BoltonSand sand({});
    LaboratoryTest test;
    test.void_ratio = GENERATE(0.7, 0.95);
    test.apparatus = Apparatus::Biaxial;
    test.strain_step = 1e-3;
    test.stop_strain = 10;
    test.legs = {{LoadingLeg::Strain, 3}};
    const auto end = run_laboratory_test(sand, test).points.back();
    CHECK(end.void_ratio == Approx(*sand.void_ratio_at_critical_state(end.mean_stress_kPa)).margin(2e-3));
    const double sin_phi = sine(33);
    CHECK(end.vertical_stress_kPa / end.lateral_stress_kPa ==
          Approx((1 + sin_phi) / (1 - sin_phi)).epsilon(0.01));
}

TEST_CASE("stress at rest must be admissible at the critical state") {
    const BoltonSand sand({});
    CHECK(sand.refuse_at_rest(100, 0.3).empty());
    CHECK_FALSE(sand.refuse_at_rest(100, 0.29).empty());
    CHECK_FALSE(sand.refuse_at_rest(100, 3.5).empty());
}
