#include "solver/slice.h"

#include <catch2/catch.hpp>

#include <stdexcept>

using namespace interpile::solver;

// By hand: sum of thickness x unit weight less gamma_w x depth below water.
TEST_CASE("effective overburden of layers, water below and above the ground surface") {
    const std::vector<OverburdenLayer> layers = {{2, 17}, {6, 19}};
    CHECK(effective_overburden_kPa(layers, 6, 2) == Approx(2 * 17 + 4 * 19 - 4 * 9.81));
    CHECK(effective_overburden_kPa(layers, 1, 2) == Approx(17));
    // Five meters of water on top press on both the grains and the pore water.
    CHECK(effective_overburden_kPa(layers, 6, -5) == Approx(2 * (17 - 9.81) + 4 * (19 - 9.81)));
    CHECK_THROWS_AS(effective_overburden_kPa(layers, 9, 2), std::invalid_argument);
}

TEST_CASE("relative density and void ratio are inverse") {
    Slice slice;
    slice.e_max = 0.98;
    slice.e_min = 0.45;
    // Class example after Han (2015): e 0.836 is D_r 27 %.
    CHECK(slice.relative_density_pct(0.836) == Approx(27.2).margin(0.05));
    CHECK(slice.void_ratio_at(slice.relative_density_pct(0.7)) == Approx(0.7));
}
