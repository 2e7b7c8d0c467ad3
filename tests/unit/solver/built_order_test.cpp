// The order in which invented piles were made, worked by hand.

#include "solver/works/built_order.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

using namespace interpile::solver;

namespace {

using Spans = std::vector<std::optional<TimeSpan>>;

/// Piles of half an hour that start at these hours, in the order of work.
Spans started_at(const std::vector<double>& hours) {
    Spans spans;
    for (const double hour : hours)
        spans.push_back(TimeSpan{3600 * hour, 3600 * (hour + 0.5)});
    return spans;
}

std::vector<bool> in_turn(const BuiltOrder& order) {
    std::vector<bool> all;
    for (const auto& pile : order.piles)
        all.push_back(pile.value().in_turn);
    return all;
}

} // namespace

TEST_CASE("piles made in the order of work are in turn, with the rest between them", "[works]") {
    const auto order = built_order(started_at({8, 8.75, 10}));
    CHECK_FALSE(order.overlap);
    CHECK(in_turn(order) == std::vector<bool>{true, true, true});
    CHECK_FALSE(order.piles[0]->rest_before_h);
    CHECK(*order.piles[1]->rest_before_h == Approx(0.25));
    CHECK(*order.piles[2]->rest_before_h == Approx(0.75));
    CHECK(order.piles[2]->place == 3);
}

TEST_CASE("one pile made late is out of turn, not those that moved up", "[works]") {
    const auto order = built_order(started_at({12, 8, 9, 10, 11})); // the first was made last
    CHECK(in_turn(order) == std::vector<bool>{false, true, true, true, true});
    CHECK(order.piles[0]->place == 5);
    CHECK(order.piles[1]->place == 1);
    CHECK(*order.piles[0]->rest_before_h == Approx(0.5));
    CHECK(in_turn(built_order(started_at({9, 10, 11, 8, 12}))) ==
          std::vector<bool>{true, true, true, false, true}); // made early
}

TEST_CASE("piles without record have no place and are passed over", "[works]") {
    Spans spans = started_at({8, 9, 10});
    spans[1].reset();
    const auto order = built_order(spans);
    CHECK_FALSE(order.piles[1]);
    CHECK(order.piles[2]->place == 2);
    CHECK(*order.piles[2]->rest_before_h == Approx(1.5));
    CHECK(built_order({}).piles.empty());
    CHECK_FALSE(built_order({std::nullopt}).piles[0]);
}

TEST_CASE("times that overlap leave the order open", "[works]") {
    const auto order = built_order(started_at({8, 10, 9.9}));
    REQUIRE(order.overlap);
    CHECK(*order.overlap == std::pair<std::size_t, std::size_t>{2, 1});
    for (const auto& pile : order.piles)
        CHECK_FALSE(pile);
    CHECK(built_order({TimeSpan{0, 0}, TimeSpan{0, 0}}).overlap); // a clock that starts anew
    CHECK_FALSE(built_order({TimeSpan{0, 10}, TimeSpan{10, 20}}).overlap);
}

TEST_CASE("times that cannot be are refused", "[works]") {
    CHECK_THROWS_AS(built_order({TimeSpan{10, 9}}), std::invalid_argument);
    CHECK_THROWS_AS(built_order({TimeSpan{std::nan(""), 9}}), std::invalid_argument);
}
