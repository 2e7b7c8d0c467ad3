// Two-surface sand in laboratory tests, against curves of an independent code (tests/sources/sand-element), whose own
// accuracy is 2e-5 to 7e-4 of the largest q and 8e-6 in volumetric strain. Cycles at constant volume: sand_cycles_test.cpp.

#include "sand_element_curves.h"

using namespace interpile::solver;
using namespace interpile::test;

TEST_CASE("triaxial tests of the two-surface sand") {
    const auto [name, p0, e0, drained] = GENERATE(table<std::string, double, double, bool>({
        {"drained_tc_p100_e0.735", 100, 0.735, true},
        {"drained_tc_p100_e0.831", 100, 0.831, true},
        {"drained_tc_p100_e0.997", 100, 0.997, true},
        {"drained_tc_p500_e0.735", 500, 0.735, true},
        {"drained_tc_p500_e0.810", 500, 0.810, true},
        {"drained_tc_p500_e0.886", 500, 0.886, true},
        {"drained_tc_p500_e0.997", 500, 0.997, true},
        {"drained_te_p100_e0.735", 100, 0.735, true},
        {"undrained_tc_p100_e0.735", 100, 0.735, false},
        {"undrained_tc_p100_e0.907", 100, 0.907, false},
        {"undrained_tc_p1000_e0.735", 1000, 0.735, false},
        {"undrained_tc_p1000_e0.833", 1000, 0.833, false},
        {"undrained_tc_p2000_e0.833", 2000, 0.833, false},
        {"undrained_tc_p2000_e0.907", 2000, 0.907, false},
        {"undrained_tc_p3000_e0.735", 3000, 0.735, false},
        {"undrained_te_p100_e0.833", 100, 0.833, false},
        {"undrained_te_p1000_e0.833", 1000, 0.833, false},
    }));
    const auto rows = curve(name); // eps_axial, eps_vol, q, eta, p, e
    const double largest_q = largest_of(rows, 2);
    const TwoSurfaceSand soil(published());
    ElementTest test(soil, {p0, p0, p0, 0}, e0);
    CurveError error;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], [&](double axial) {
            if (drained)
                return test.step(Control{{{stress, p0}, {like_xx, 0}, {strain, axial}, {strain, 0}}});
            return test.step(
                Control{{{strain, -axial / 2}, {strain, -axial / 2}, {strain, axial}, {strain, 0}}});
        });
        const auto s = test.stress();
        error.see((s[2] - s[0] - rows[k][2]) / largest_q, test.volumetric_strain() - rows[k][1]);
    }
    error.check(name, "q", 1e-3, 1e-5);
}

TEST_CASE("biaxial tests of the two-surface sand, monotonic and with unloading") {
    const auto [name, e0] = GENERATE(table<std::string, double>({{"biaxial_p100_e0.70", 0.70},
                                                                 {"biaxial_p100_e0.90", 0.90},
                                                                 {"biaxial_cycles_p100_e0.80", 0.80},
                                                                 {"biaxial_cycles_p100_e0.90", 0.90}}));
    const auto rows = curve(name); // eps_1, eps_vol, sig1, sig3, p, e
    const double largest = largest_of(rows, 2);
    const TwoSurfaceSand soil(published());
    ElementTest test(soil, {100, 100, 100, 0}, e0);
    CurveError error;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], [&](double axial) {
            return test.step(Control{{{strain, axial}, {stress, 100}, {strain, 0}, {strain, 0}}});
        });
        error.see((test.stress()[0] - rows[k][2]) / largest, test.volumetric_strain() - rows[k][1]);
    }
    error.check(name, "sigma_1", 1e-3, 1e-5);
}

TEST_CASE("cyclic shear at constant normal stress densifies the two-surface sand") {
    const auto [name, e0] = GENERATE(table<std::string, double>({{"cyclic_shear_p100_e0.70_g0.001", 0.70},
                                                                 {"cyclic_shear_p100_e0.70_g0.010", 0.70},
                                                                 {"cyclic_shear_p100_e0.80_g0.001", 0.80},
                                                                 {"cyclic_shear_p100_e0.80_g0.003", 0.80},
                                                                 {"cyclic_shear_p100_e0.90_g0.003", 0.90},
                                                                 {"cyclic_shear_p100_e0.90_g0.010", 0.90}}));
    const auto rows = curve(name); // gamma, eps_vol, tau, tau/p, p, e
    const double largest = largest_of(rows, 2);
    const TwoSurfaceSand soil(published());
    ElementTest test(soil, {100, 100, 100, 0}, e0);
    CurveError error;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], [&](double gamma) {
            return test.step(Control{{{stress, 100}, {stress, 100}, {stress, 100}, {strain, gamma / 2}}});
        });
        error.see((test.stress()[3] - rows[k][2]) / largest, test.volumetric_strain() - rows[k][1]);
    }
    error.check(name, "tau", 1e-3, 3e-5);    // 2e-5 at 1 %, whatever the step and the tolerance here
    CHECK(test.volumetric_strain() > 0.002); // it densifies
}

TEST_CASE("oedometer test of the two-surface sand, loading, unloading, reloading") {
    const auto [name, e0] =
        GENERATE(table<std::string, double>({{"oedometer_e0.70", 0.70}, {"oedometer_e0.90", 0.90}}));
    const auto rows = curve(name); // eps_1, eps_vol, sig1, sig_lat, p, e
    const TwoSurfaceSand soil(published());
    ElementTest test(soil, {rows[0][3], rows[0][3], rows[0][2], 0}, e0);
    CurveError error;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], [&](double axial) {
            return test.step(Control{{{strain, 0}, {strain, 0}, {strain, axial}, {strain, 0}}});
        });
        error.see((test.stress()[2] - rows[k][2]) / largest_of(rows, 2), 0);
    }
    error.check(name, "sigma_1", 1e-4);
}
