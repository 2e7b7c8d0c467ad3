// Two-surface sand in undrained cycles, against curves of an independent code (tests/sources/sand-element): the strains of
// the reference are imposed, turning points included, and stresses compared point by point. With imposed strains this has a
// meaning through liquefaction too (mean stress down to 1.2 kPa): the state cannot run away along the strain.

#include "sand_element_curves.h"

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
