// Courses of laboratory tests against closed forms of linear elasticity and Mohr-Coulomb strength.

#include "solver/laboratory_test.h"
#include "solver/soil_parameters.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace interpile::solver;

namespace {

constexpr double G = 10000, nu = 0.25; // kPa
constexpr double E = 2 * G * (1 + nu); // Young's modulus
constexpr double constrained = 2 * G * (1 - nu) / (1 - 2 * nu);

std::unique_ptr<SoilModel> elastic() {
    return make_soil_model({"elastic", {G, nu}});
}

LaboratoryPoint last_of(Apparatus apparatus, bool drained, double strain) {
    LaboratoryTest test;
    test.apparatus = apparatus;
    test.drained = drained;
    test.strain_step = 1e-3;
    test.legs = {{LoadingLeg::Strain, strain}};
    const auto result = run_laboratory_test(*elastic(), test);
    REQUIRE(result.end == TestEnd::Completed);
    return result.points.back();
}

} // namespace

// Hooke's law in logarithmic strain; e from (1+e) = (1+e0) exp(-eps_v). Held stresses are met within 1e-5 of the mean.
TEST_CASE("laboratory tests of an elastic soil follow Hooke's law") {
    constexpr double strain = 0.01;
    const auto triaxial = last_of(Apparatus::Triaxial, true, strain);
    CHECK(triaxial.q_kPa == Approx(E * strain).epsilon(1e-4));
    CHECK(triaxial.volumetric_strain == Approx((1 - 2 * nu) * strain).epsilon(1e-4));
    CHECK(triaxial.void_ratio == Approx(1.8 * std::exp(-triaxial.volumetric_strain) - 1).epsilon(1e-10));
    CHECK(triaxial.lateral_stress_kPa == Approx(100).epsilon(1e-4));

    const auto undrained = last_of(Apparatus::Triaxial, false, -strain); // extension
    CHECK(undrained.q_kPa == Approx(-3 * G * strain).epsilon(1e-10));
    CHECK(undrained.mean_stress_kPa == Approx(100).epsilon(1e-10));

    const auto constant_p = last_of(Apparatus::TriaxialConstantP, true, strain);
    CHECK(constant_p.mean_stress_kPa == Approx(100).epsilon(1e-4));
    CHECK(constant_p.q_kPa == Approx(3 * G * strain).epsilon(1e-4));

    const auto biaxial = last_of(Apparatus::Biaxial, true, strain);
    CHECK(biaxial.vertical_stress_kPa - 100 == Approx(E / (1 - nu * nu) * strain).epsilon(1e-4));
    CHECK(biaxial.lateral_stress_kPa == Approx(100).epsilon(1e-4));

    const auto oedometer = last_of(Apparatus::Oedometer, true, strain);
    CHECK(oedometer.vertical_stress_kPa - 100 == Approx(constrained * strain).epsilon(1e-10));

    for (const auto apparatus : {Apparatus::SimpleShear, Apparatus::TorsionalShear}) {
        const auto shear = last_of(apparatus, true, strain);
        CHECK(shear.shear_stress_kPa == Approx(G * strain).epsilon(1e-10));
        CHECK(shear.vertical_stress_kPa == Approx(100).epsilon(1e-4));
    }
}

// sigma_1 / sigma_3 at failure = (1 + sin phi)/(1 - sin phi): Mohr's circle.
TEST_CASE("a drained triaxial test of Mohr-Coulomb soil ends at its strength") {
    const auto soil = make_soil_model({"mohr-coulomb", {G, nu, 33, 3, 0, 0}});
    LaboratoryTest test;
    test.legs = {{LoadingLeg::Strain, 0.05}};
    const auto points = run_laboratory_test(*soil, test).points;
    const auto &end = points.back(), &before = points[points.size() - 101];
    const double sine = std::sin(33 * std::numbers::pi / 180);
    CHECK(end.vertical_stress_kPa == Approx(100 * (1 + sine) / (1 - sine)).epsilon(1e-4));
    // At constant stress all strain is plastic: d eps_v / d eps_1 = -2 sin psi / (1 - sin psi).
    const double sine_psi = std::sin(3 * std::numbers::pi / 180);
    CHECK((end.volumetric_strain - before.volumetric_strain) / (end.axial_strain - before.axial_strain) ==
          Approx(-2 * sine_psi / (1 - sine_psi)).epsilon(1e-3));
}

TEST_CASE("legs end on their stress, cycles return, limits end a test") {
    LaboratoryTest test;
    test.apparatus = Apparatus::SimpleShear;
    test.legs = {{LoadingLeg::Stress, 20}, {LoadingLeg::Stress, -20}, {LoadingLeg::Strain, 0}};
    auto result = run_laboratory_test(*elastic(), test);
    CHECK(result.end == TestEnd::Completed);
    double highest = 0, lowest = 0;
    for (const auto& point : result.points) {
        highest = std::max(highest, point.shear_stress_kPa);
        lowest = std::min(lowest, point.shear_stress_kPa);
    }
    CHECK(highest == Approx(20).epsilon(2e-4));
    CHECK(lowest == Approx(-20).epsilon(2e-4));
    CHECK(std::abs(result.points.back().shear_stress_kPa) < 1e-6);

    test.stop_strain = 0.001;
    result = run_laboratory_test(*elastic(), test);
    CHECK(result.end == TestEnd::StrainLimit);
    CHECK(std::abs(result.points.back().shear_strain) < 0.001 + 1.01 * test.strain_step);

    LaboratoryTest extension;
    extension.legs = {{LoadingLeg::Strain, -0.01}};
    extension.stop_mean_stress_kPa = 80;
    result = run_laboratory_test(*elastic(), extension);
    CHECK(result.end == TestEnd::MeanStressLimit);
    CHECK(result.points.back().mean_stress_kPa < 80);
}

// Hooke's law: tau = G gamma; undrained compression leaves the mean stress, so that the lateral stress loses q/3.
TEST_CASE("a test ends within a step of a double amplitude, a stress ratio, an excess pressure ratio") {
    LaboratoryTest cyclic;
    cyclic.apparatus = Apparatus::SimpleShear;
    cyclic.legs = {{LoadingLeg::Stress, 20}, {LoadingLeg::Stress, -20}, {LoadingLeg::Stress, 20}};
    cyclic.stop_double_amplitude = 0.0015; // less than the first leg: it does not count
    auto result = run_laboratory_test(*elastic(), cyclic);
    CHECK(result.end == TestEnd::DoubleAmplitude);
    CHECK(result.legs_begun == 2);
    CHECK(result.points.back().shear_strain == Approx(20 / G - 0.0015).margin(cyclic.strain_step));
    cyclic.stop_double_amplitude = 0.0041; // a cycle covers 0.004
    CHECK(run_laboratory_test(*elastic(), cyclic).end == TestEnd::Completed);

    LaboratoryTest shear;
    shear.apparatus = Apparatus::TorsionalShear;
    shear.legs = {{LoadingLeg::Strain, -0.01}};
    shear.stop_stress_ratio = 0.15;
    result = run_laboratory_test(*elastic(), shear);
    CHECK(result.end == TestEnd::StressRatio);
    CHECK(result.points.back().shear_strain == Approx(-0.15 * 100 / G).margin(shear.strain_step));

    LaboratoryTest undrained;
    undrained.drained = false;
    undrained.legs = {{LoadingLeg::Strain, 0.01}};
    undrained.stop_excess_pressure_ratio = 0.1;
    result = run_laboratory_test(*elastic(), undrained);
    CHECK(result.end == TestEnd::ExcessPressureRatio);
    CHECK(result.points.back().q_kPa == Approx(3 * 0.1 * 100).margin(3 * G * undrained.strain_step));
    CHECK(result.points.back().excess_pressure_ratio == Approx(0.1).margin(G * undrained.strain_step / 100));
}

// Tresca: q at most twice the undrained strength. A stress beyond it is never met, the strain limit ends the test.
TEST_CASE("a stress out of reach ends at the strain limit") {
    const auto soil = make_soil_model({"tresca", {G, nu, 10}});
    LaboratoryTest test;
    test.legs = {{LoadingLeg::Stress, 30}};
    const auto result = run_laboratory_test(*soil, test);
    CHECK(result.end == TestEnd::StrainLimit);
    CHECK(result.points.back().q_kPa == Approx(20).epsilon(1e-4));
}
