// Dates of the work. Days of the week: GNU date.

#include "solver/calendar_date.h"

#include <catch2/catch.hpp>

using namespace interpile::solver;

TEST_CASE("dates are read, counted on and written") {
    const auto begin = local_time("2028-02-28T22:15:30");
    REQUIRE(begin);
    CHECK(iso_8601(*begin) == "2028-02-28T22:15:30");
    CHECK(in_words(*begin) == "Mon 2028-02-28 22:15");
    CHECK(weekday(*begin) == 0);
    CHECK(in_words(later(*begin, 2 * 3600)) == "Tue 2028-02-29 00:15"); // a leap year
    CHECK(iso_8601(later(*begin, 2 * 86400 + 0.4)) == "2028-03-01T22:15:30");
    CHECK(weekday(*local_time("2026-03-08T00:00:00")) == 6);
}

TEST_CASE("what is no date is not read") {
    for (const char* text :
         {"", "2026-03-02", "2026-03-02 07:30:00", "2026-02-29T07:30:00", "2026-03-02T24:00:00",
          "2026-03-02T07:30:00Z", "2026-3-02T07:30:000", "x026-03-02T07:30:00"})
        CHECK_FALSE(local_time(text));
}
