// Members of a study: all combinations, and samples that fill the space of the factors.

#include "io/study_design.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace interpile;

TEST_CASE("a grid has every combination once, the last factor fastest", "[study]") {
    const auto grid = io::grid_design({2, 3, 2});
    REQUIRE(grid.size() == 12);
    CHECK(grid[0] == std::vector<std::size_t>{0, 0, 0});
    CHECK(grid[1] == std::vector<std::size_t>{0, 0, 1});
    CHECK(grid[2] == std::vector<std::size_t>{0, 1, 0});
    CHECK(grid[11] == std::vector<std::size_t>{1, 2, 1});
    CHECK(std::set<std::vector<std::size_t>>(grid.begin(), grid.end()).size() == 12);
}

// What makes a Latin hypercube: McKay, Beckman & Conover (1979), Technometrics 21(2), from memory.
TEST_CASE("a sample has one value of every factor in each of its equal parts", "[study]") {
    for (const std::uint32_t seed : {1u, 2u, 4000000000u}) {
        const auto sample = io::latin_hypercube(50, 3, seed);
        REQUIRE(sample.size() == 50);
        for (std::size_t factor = 0; factor < 3; ++factor) {
            std::set<int> parts;
            for (const auto& member : sample) {
                REQUIRE(member.size() == 3);
                CHECK(member[factor] >= 0);
                CHECK(member[factor] < 1);
                parts.insert(static_cast<int>(std::floor(50 * member[factor])));
            }
            CHECK(parts.size() == 50);
        }
    }
}

// Its purpose (the same paper): the mean of an additive function scatters far less than that of random points, whose
// mean over 50 points of the sum of 3 uniform numbers has the variance 3/12/50 = 0.005.
TEST_CASE("the mean of a sum over the sample scatters less than over random points", "[study]") {
    double variance = 0;
    for (std::uint32_t seed = 1; seed <= 200; ++seed) {
        double mean = 0;
        for (const auto& member : io::latin_hypercube(50, 3, seed))
            mean += (member[0] + member[1] + member[2]) / 50;
        variance += (mean - 1.5) * (mean - 1.5) / 200;
    }
    CHECK(variance < 0.005 / 100);
    CHECK(variance > 0);
}

TEST_CASE("a sample depends on its seed alone, and factors are not bound to each other", "[study]") {
    CHECK(io::latin_hypercube(20, 2, 7) == io::latin_hypercube(20, 2, 7));
    CHECK(io::latin_hypercube(20, 2, 7) != io::latin_hypercube(20, 2, 8));
    double sum = 0;
    const auto sample = io::latin_hypercube(400, 2, 1);
    for (const auto& member : sample)
        sum += (member[0] - 0.5) * (member[1] - 0.5) * 12 / 400;
    CHECK(std::abs(sum) < 0.15); // correlation; its scatter is 1/sqrt(400)
}
