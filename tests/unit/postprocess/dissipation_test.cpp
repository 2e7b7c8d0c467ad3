// Largest pressure at a point and time until a share of the mean pressure remains, by hand.

#include "postprocess/dissipation.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace interpile;

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

/// A rest between two piles has the lowest pressure of all: it does not count.
io::ResultsHalfStrokes record() {
    io::ResultsHalfStrokes r;
    r.phase = Eigen::ArrayXi{{0, io::rest_phase, 2, io::rest_phase, io::rest_phase, io::rest_phase}};
    r.time_s = Eigen::ArrayXd{{10, 60, 100, 160, 260, 460}};
    r.excess_pressure_kPa = Eigen::ArrayXd{{20, 0.5, 30, 12, 4, 2}};
    r.point_pressure_kPa.resize(2, 6);
    r.point_pressure_kPa << none, 3, 41, 25, none, 1, none, none, none, none, none, none;
    return r;
}

} // namespace

TEST_CASE("time to a remaining share counts from the last driving, linear between records") {
    // 10 % of 30 is 3 kPa, half way from 4 to 2: 360 s, 260 s after 100 s.
    CHECK(postprocess::time_to_remaining_s(record(), 0.1) == Approx(260));
    CHECK(postprocess::time_to_remaining_s(record(), 0.4) == Approx(60)); // 12 kPa, at a record
    CHECK(std::isnan(postprocess::time_to_remaining_s(record(), 0.05)));  // 1.5 kPa: not reached
    auto suction = record();
    suction.excess_pressure_kPa[2] = -1;
    CHECK(std::isnan(postprocess::time_to_remaining_s(suction, 0.1)));
}

TEST_CASE("largest pressure at a point skips times without ground") {
    CHECK(postprocess::largest_point_pressure_kPa(record(), 0) == 41);
    CHECK(std::isnan(postprocess::largest_point_pressure_kPa(record(), 1)));
}

TEST_CASE("without flow in time there is neither") {
    auto still = record();
    still.time_s.setZero();
    CHECK(std::isnan(postprocess::time_to_remaining_s(still, 0.1)));
    CHECK(std::isnan(postprocess::largest_point_pressure_kPa(still, 0)));
}
