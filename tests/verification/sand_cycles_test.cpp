// Two-surface sand in undrained cycles, against curves of an independent code (tests/sources/sand-element): the strains of
// the reference are imposed, turning points included, and stresses compared point by point. With imposed strains this has a
// meaning through liquefaction too (mean stress down to 1.2 kPa): the state cannot run away along the strain.

#include "sand_element_curves.h"
#include "solver/laboratory_test.h"

using namespace interpile::solver;
using namespace interpile::test;

TEST_CASE("undrained cyclic simple shear of the two-surface sand") {
    const auto [name, K, e0] = GENERATE(table<std::string, double, double>({
        {"simple_shear_cv_e0.70_K1.0_csr0.20", 1.0, 0.70},
        {"simple_shear_cv_e0.80_K0.5_csr0.15", 0.5, 0.80},
        {"simple_shear_cv_e0.80_K1.0_csr0.15", 1.0, 0.80},
        {"simple_shear_cv_e0.80_K1.0_csr0.20", 1.0, 0.80},
    }));
    const auto rows = curve(name); // gamma, 0, tau, sig_v, sig_h, p
    const TwoSurfaceSand soil(published());
    ElementTest test(soil, {100 * K, 100, 100 * K, 0}, e0);
    CurveError shear, vertical;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], [&](double gamma) {
            return test.step(Control{{{strain, 0}, {strain, 0}, {strain, 0}, {strain, gamma / 2}}});
        });
        shear.see((test.stress()[3] - rows[k][2]) / largest_of(rows, 2), 0);
        vertical.see((test.stress()[1] - rows[k][3]) / 100, 0);
    }
    shear.check(name, "tau", 2e-5);
    vertical.check(name, "sigma_v", 2e-5);
}

TEST_CASE("undrained cyclic triaxial test of the two-surface sand") {
    const std::string name = "undrained_cyclic_tx_p294_e0.808_q114.2";
    const auto rows = curve(name); // eps_axial, eps_vol, q, eta, p, e
    const TwoSurfaceSand soil(published());
    ElementTest test(soil, {294, 294, 294, 0}, 0.808);
    CurveError deviator, mean;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], [&](double axial) {
            return test.step(
                Control{{{strain, -axial / 2}, {strain, -axial / 2}, {strain, axial}, {strain, 0}}});
        });
        const auto s = test.stress();
        deviator.see((s[2] - s[0] - rows[k][2]) / largest_of(rows, 2), 0);
        mean.see((test.mean_stress_kPa() - rows[k][4]) / 294, 0);
    }
    deviator.check(name, "q", 2e-5);
    mean.check(name, "p", 2e-5);
}

namespace {

/// Finished half cycles of a curve before the first row for which `met` holds.
template <class Met>
std::size_t half_cycles_before(const std::vector<std::vector<double>>& rows, Met met) {
    std::size_t turns = 0;
    for (std::size_t k = 1; k < rows.size() && !met(rows[k]); ++k)
        if (k + 1 < rows.size() && (rows[k][0] - rows[k - 1][0]) * (rows[k + 1][0] - rows[k][0]) < 0)
            ++turns;
    return turns;
}

LaboratoryTest undrained_cycles(Apparatus apparatus, double stress_kPa, double amplitude_kPa, double e0) {
    LaboratoryTest test;
    test.apparatus = apparatus;
    test.drained = false;
    test.vertical_stress_kPa = stress_kPa;
    test.void_ratio = e0;
    test.strain_step = 2e-5;
    for (int n = 0; n < 20; ++n)
        for (const double sign : {1.0, -1.0})
            test.legs.push_back({LoadingLeg::Stress, sign * amplitude_kPa});
    return test;
}

} // namespace

// Here the shear stress is controlled, as in a laboratory, and strains are free: they drift where a turning point is a
// little off, so that cycles to a condition are counted. The reference turns at the first step of 1e-5 beyond the amplitude.
TEST_CASE("cycles to a condition in undrained tests of the two-surface sand") {
    const TwoSurfaceSand soil(published());
    const auto [name, K, e0, amplitude] = GENERATE(table<std::string, double, double, double>({
        {"simple_shear_cv_e0.80_K0.5_csr0.15", 0.5, 0.80, 15},
        {"simple_shear_cv_e0.80_K1.0_csr0.15", 1.0, 0.80, 15},
        {"simple_shear_cv_e0.80_K1.0_csr0.20", 1.0, 0.80, 20},
    }));
    const auto rows = curve(name); // gamma, 0, tau, sig_v, sig_h, p
    auto test = undrained_cycles(Apparatus::SimpleShear, 100, amplitude, e0);
    test.K0 = K;
    test.stop_excess_pressure_ratio = 0.7;
    const auto result = run_laboratory_test(soil, test);
    CHECK(result.end == TestEnd::ExcessPressureRatio);
    const auto expected = half_cycles_before(rows, [](const auto& row) { return row[3] <= 30; });
    std::printf("%-40s r_u 0.7 after %.1f cycles, reference %.1f\n", name.c_str(),
                0.5 * (result.legs_begun - 1.0), 0.5 * static_cast<double>(expected));
    CHECK(result.legs_begun - 1 == expected);
}

TEST_CASE("cycles to a double amplitude in an undrained triaxial test of the two-surface sand") {
    const TwoSurfaceSand soil(published());
    const auto rows = curve("undrained_cyclic_tx_p294_e0.808_q114.2"); // eps_axial, eps_vol, q, eta, p, e
    auto test = undrained_cycles(Apparatus::Triaxial, 294, 114.2, 0.808);
    test.stop_strain = 0.05;
    auto result = run_laboratory_test(soil, test);
    CHECK(result.end == TestEnd::StrainLimit);
    const auto to_strain = half_cycles_before(rows, [](const auto& row) { return std::abs(row[0]) >= 0.05; });
    CHECK(result.legs_begun - 1 == to_strain);
    test.stop_mean_stress_kPa = 0.05 * 294;
    result = run_laboratory_test(soil, test);
    CHECK(result.end == TestEnd::MeanStressLimit);
    const auto to_stress = half_cycles_before(rows, [](const auto& row) { return row[4] < 0.05 * 294; });
    CHECK(result.legs_begun - 1 == to_stress);
    std::printf("triaxial: reference: strain 5 %% after %.1f cycles, p' 5 %% after %.1f\n", 0.5 * to_strain,
                0.5 * to_stress);
}
