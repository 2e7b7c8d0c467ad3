#pragma once
// What the comparisons of the two-surface sand with the curves of tests/sources/sand-element share.

#include "solver/element_test.h"
#include "solver/soil_models/two_surface_sand.h"
#include "support/csv_numbers.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace interpile::test {

using Control = std::array<solver::ElementControl, 4>;
inline constexpr auto strain = solver::ElementControl::Strain;
inline constexpr auto stress = solver::ElementControl::Stress;
inline constexpr auto like_xx = solver::ElementControl::LikeXX;

/// The constants of the curves; the program's own cone and floor of the mean stress are larger.
inline solver::TwoSurfaceConstants published() {
    solver::TwoSurfaceConstants k;
    k.m = 0.01;
    k.p_min = 0.5;
    return k;
}

/// Step of the driven strain, with the program's own tolerance of the integration: as soil-test does unless told.
inline constexpr double production_step = 1e-4;

inline std::vector<std::vector<double>> curve(const std::string& file) {
    return csv_numbers("sand-element/" + file + ".csv");
}

/// Go to the next abscissa of the reference in equal steps.
template <class Step>
void advance(double from, double to, Step step) {
    const int count = std::max(1, static_cast<int>(std::ceil(std::abs(to - from) / production_step - 1e-9)));
    for (int n = 0; n < count; ++n)
        REQUIRE(step((to - from) / count));
}

inline double largest_of(const std::vector<std::vector<double>>& rows, std::size_t column) {
    double largest = 0;
    for (const auto& row : rows)
        largest = std::max(largest, std::abs(row[column]));
    return largest;
}

/// Largest differences from a curve: of a stress over its largest value, of the volumetric strain.
struct CurveError {
    double stress = 0, volume = 0;

    void see(double stress_difference, double volume_difference) {
        stress = std::max(stress, std::abs(stress_difference));
        volume = std::max(volume, std::abs(volume_difference));
    }
    void check(const std::string& name, const char* of, double allowed) const {
        std::printf("%-40s %s %.1e, volume %.1e\n", name.c_str(), of, stress, volume);
        CHECK(stress < allowed);
    }
    void check(const std::string& name, const char* of, double allowed, double allowed_in_volume) const {
        check(name, of, allowed);
        CHECK(volume < allowed_in_volume);
    }
};

} // namespace interpile::test
