// Two-surface sand in laboratory tests, against curves of an independent code (tests/sources/sand-element), whose own
// accuracy is 2e-5 to 7e-4 of the largest q and 8e-6 in volumetric strain.

#include "solver/element_test.h"
#include "solver/soil_models/two_surface_sand.h"
#include "support/csv_numbers.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>

using namespace interpile::solver;

namespace {

using Control = std::array<ElementControl, 4>;
constexpr auto strain = ElementControl::Strain;
constexpr auto stress = ElementControl::Stress;
constexpr auto like_xx = ElementControl::LikeXX;

TwoSurfaceConstants published() {
    TwoSurfaceConstants k;
    k.m = 0.01;
    k.p_min = 0.5;
    return k;
}

std::vector<std::vector<double>> curve(const std::string& file) {
    return interpile::test::csv_numbers("sand-element/" + file + ".csv");
}

/// Go to the next abscissa of the reference in equal steps of at most `largest`.
template <class Step>
void advance(double from, double to, double largest, Step step) {
    const int count = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / largest)));
    for (int n = 0; n < count; ++n)
        REQUIRE(step((to - from) / count));
}

struct Errors {
    double first = 0, second = 0; ///< over the largest value of the reference; volumetric strain absolute
    void print(const std::string& name, const char* of) const {
        std::printf("%s: %s %.1e, volume %.1e\n", name.c_str(), of, first, second);
    }
};

} // namespace

TEST_CASE("triaxial tests of the two-surface sand") {
    const auto [name, p0, e0, drained] = GENERATE(table<std::string, double, double, bool>({
        {"drained_tc_p100_e0.735", 100, 0.735, true},
        {"drained_tc_p100_e0.831", 100, 0.831, true},
        {"drained_tc_p500_e0.886", 500, 0.886, true},
        {"drained_te_p100_e0.735", 100, 0.735, true},
        {"undrained_tc_p100_e0.735", 100, 0.735, false},
        {"undrained_tc_p100_e0.907", 100, 0.907, false},
        {"undrained_tc_p1000_e0.833", 1000, 0.833, false},
        {"undrained_te_p100_e0.833", 100, 0.833, false},
    }));
    const auto rows = curve(name); // eps_axial, eps_vol, q, eta, p, e
    const TwoSurfaceSand soil(published(), {1e-6, 1e-6, 2});
    ElementTest test(soil, {p0, p0, p0, 0}, e0);
    Errors error;
    double largest_q = 0;
    for (const auto& row : rows)
        largest_q = std::max(largest_q, std::abs(row[2]));
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], 5e-4, [&](double axial) {
            if (drained)
                return test.step(Control{{{stress, p0}, {like_xx, 0}, {strain, axial}, {strain, 0}}});
            return test.step(
                Control{{{strain, -axial / 2}, {strain, -axial / 2}, {strain, axial}, {strain, 0}}});
        });
        const auto s = test.stress();
        error.first = std::max(error.first, std::abs(s[2] - s[0] - rows[k][2]) / largest_q);
        error.second = std::max(error.second, std::abs(test.volumetric_strain() - rows[k][1]));
    }
    error.print(name, "q");
    CHECK(error.first < 1e-3);
    CHECK(error.second < 1e-5);
}

TEST_CASE("biaxial tests of the two-surface sand, monotonic and with unloading") {
    const auto [name, e0] = GENERATE(table<std::string, double>({{"biaxial_p100_e0.70", 0.70},
                                                                 {"biaxial_p100_e0.90", 0.90},
                                                                 {"biaxial_cycles_p100_e0.80", 0.80},
                                                                 {"biaxial_cycles_p100_e0.90", 0.90}}));
    const auto rows = curve(name); // eps_1, eps_vol, sig1, sig3, p, e
    const TwoSurfaceSand soil(published(), {1e-6, 1e-6, 2});
    ElementTest test(soil, {100, 100, 100, 0}, e0);
    Errors error;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], 2e-4, [&](double axial) {
            return test.step(Control{{{strain, axial}, {stress, 100}, {strain, 0}, {strain, 0}}});
        });
        error.first = std::max(error.first, std::abs(test.stress()[0] - rows[k][2]) / 400);
        error.second = std::max(error.second, std::abs(test.volumetric_strain() - rows[k][1]));
    }
    error.print(name, "sigma_1");
    CHECK(error.first < 1e-3);
    CHECK(error.second < 1e-5);
}

TEST_CASE("cyclic shear at constant normal stress densifies the two-surface sand") {
    const auto [name, e0] = GENERATE(table<std::string, double>(
        {{"cyclic_shear_p100_e0.80_g0.003", 0.80}, {"cyclic_shear_p100_e0.90_g0.010", 0.90}}));
    const auto rows = curve(name); // gamma, eps_vol, tau, tau/p, p, e
    const TwoSurfaceSand soil(published(), {1e-6, 1e-6, 2});
    ElementTest test(soil, {100, 100, 100, 0}, e0);
    Errors error;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], 4e-4, [&](double gamma) {
            return test.step(Control{{{stress, 100}, {stress, 100}, {stress, 100}, {strain, gamma / 2}}});
        });
        error.first = std::max(error.first, std::abs(test.stress()[3] - rows[k][2]) / 50);
        error.second = std::max(error.second, std::abs(test.volumetric_strain() - rows[k][1]));
    }
    error.print(name, "tau");
    CHECK(error.first < 1e-3);
    CHECK(error.second < 1e-5);
    CHECK(test.volumetric_strain() > 0.01); // it densifies
}

TEST_CASE("oedometer test of the two-surface sand, loading, unloading, reloading") {
    const auto rows = curve("oedometer_e0.90"); // eps_1, eps_vol, sig1, sig_lat, p, e
    const TwoSurfaceSand soil(published(), {1e-6, 1e-6, 2});
    ElementTest test(soil, {rows[0][3], rows[0][3], rows[0][2], 0}, 0.90);
    double worst = 0;
    for (std::size_t k = 1; k < rows.size(); ++k) {
        advance(rows[k - 1][0], rows[k][0], 5e-5, [&](double axial) {
            return test.step(Control{{{strain, 0}, {strain, 0}, {strain, axial}, {strain, 0}}});
        });
        worst = std::max(worst, std::abs(test.stress()[2] - rows[k][2]) / 1000);
    }
    std::printf("oedometer_e0.90: sigma_1 %.1e\n", worst);
    CHECK(worst < 1e-4);
}
