// Durations of the work, by hand.

#include "solver/work_calendar.h"

#include <catch2/catch.hpp>

using namespace interpile::solver;

namespace {

InstallationPlan plan_of(int piles) {
    InstallationPlan plan;
    plan.strokes = {0.4, 3, 0.2, 0.3, 0};
    plan.schedule = {12, 5, 15, 20 * 60, 10 * 60, 0, 3600, 0};
    for (int pile = 0; pile < piles; ++pile)
        plan.order.push_back({pile});
    return plan;
}

} // namespace

TEST_CASE("time past the slice: casing pass, strokes, relaxation") {
    auto plan = plan_of(1);
    CHECK(time_at_slice_s(plan.strokes, plan.schedule) == 12 + 3 * 20);
    plan.strokes.final_pressure_ratio = 4;
    CHECK(time_at_slice_s(plan.strokes, plan.schedule) == 12 + 3 * 20 + 5);
    plan.strokes = {0, 3, 0.2, 0.3, 0}; // no casing: the first stroke has nothing to withdraw
    CHECK(time_at_slice_s(plan.strokes, plan.schedule) == 3 * 20 - 5);
    plan.strokes.strokes = 0; // one growth
    CHECK(time_at_slice_s(plan.strokes, plan.schedule) == 12);
}

TEST_CASE("whole work: piles, moves, nights, final rest") {
    auto plan = plan_of(4);
    CHECK(work_duration_s(plan) == 4 * 1200 + 3 * 600 + 3600);
    plan.schedule.pile_s = 0; // no more than what passes here
    CHECK(work_duration_s(plan) == 4 * 72 + 3 * 600 + 3600);
    // Two piles and their moves take an hour; a third would end after 80 min and waits for the next day.
    plan = plan_of(4);
    plan.schedule.day_s = 70 * 60;
    CHECK(work_duration_s(plan) == 86400 + 1200 + 600 + 1200 + 3600);
    WorkCalendar calendar(plan.schedule);
    CHECK(calendar.rest_s(72, false) == 1200 - 72 + 600);
    CHECK(calendar.rest_s(72, false) == 1200 - 72 + 600 + 86400 - 3600);
    CHECK(calendar.rest_s(72, true) == 1200 - 72 + 3600);
}
