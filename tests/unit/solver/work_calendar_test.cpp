// Durations of the work, by hand.

#include "solver/rigs.h"
#include "solver/work_calendar.h"

#include <catch2/catch.hpp>

using namespace interpile::solver;

namespace {

InstallationPlan plan_of(int piles) {
    InstallationPlan plan;
    plan.strokes = {0.4, 3, 0.2, 0.3, 0};
    plan.schedule = {.casing_pass_s = 12,
                     .withdrawal_s = 5,
                     .redrive_s = 15,
                     .pile_s = 20 * 60,
                     .between_s = 10 * 60,
                     .final_rest_s = 3600};
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
    CHECK(calendar.rest_s(0, 0, 0, 72) == 1200 - 72 + 600);
    CHECK(calendar.rest_s(0, 0, 1800, 1872) == 1200 - 72 + 600 + 86400 - 3600);
    CHECK(calendar.rest_s(0, -1, 86400, 86472) == 1200 - 72 + 3600);
}

TEST_CASE("a work of five days a week rests over the weekend") {
    auto plan = plan_of(3); // one pile a day
    plan.schedule.day_s = 40 * 60;
    plan.schedule.days_per_week = 5;
    constexpr double day = 86400;
    CHECK(begins_s(plan) == std::vector<double>{0, day, 2 * day, 2 * day + 1200 + 3600}); // from a Monday on
    plan.schedule.begins = local_time("2026-03-05T07:30:00");                             // a Thursday
    CHECK(begins_s(plan) == std::vector<double>{0, day, 4 * day, 4 * day + 1200 + 3600});
}

TEST_CASE("two rigs in turn, each with its own clock") {
    auto plan = plan_of(4);
    plan.schedule.rigs = 2;
    plan.schedule.rig_offset_s = 700;
    share_among_rigs(plan, {0, 1, 0, 1});
    CHECK(plan.order == std::vector<std::vector<int>>{{0}, {1}, {2}, {3}});
    CHECK(plan.rig == std::vector<int>{0, 1, 0, 1});
    // Every 20 + 10 min a pile of each; the last one ends 20 min after its begin.
    CHECK(begins_s(plan) == std::vector<double>{0, 700, 1800, 2500, 2500 + 1200 + 3600});
}

TEST_CASE("a rig with more piles than the other goes on alone") {
    auto plan = plan_of(4);
    plan.schedule.rigs = 2;
    plan.schedule.rig_offset_s = 900;
    share_among_rigs(plan, {0, 0, 0, 1});
    CHECK(plan.order == std::vector<std::vector<int>>{{0}, {3}, {1}, {2}});
    CHECK(plan.rig == std::vector<int>{0, 1, 0, 0});
    CHECK(begins_s(plan) == std::vector<double>{0, 900, 1800, 3600, 3600 + 1200 + 3600});
}

TEST_CASE("a pile waits for one of another rig that passes the slice; its rig is late by that") {
    auto plan = plan_of(4); // 72 s past the slice
    plan.schedule.rigs = 2;
    plan.schedule.rig_offset_s = 30;
    share_among_rigs(plan, {0, 1, 0, 1});
    CHECK(plan.rig == std::vector<int>{0, 1, 0, 1});
    CHECK(begins_s(plan) == std::vector<double>{0, 72, 1800, 1872, 1872 + 1200 + 3600});
}

TEST_CASE("the nights of rigs: each has worked its own day") {
    auto plan = plan_of(4);
    plan.schedule.rigs = 2;
    plan.schedule.rig_offset_s = 900;
    plan.schedule.day_s = 40 * 60; // one pile a day and rig
    share_among_rigs(plan, {0, 1, 0, 1});
    CHECK(begins_s(plan) == std::vector<double>{0, 900, 86400, 86400 + 900, 86400 + 900 + 1200 + 3600});
}

TEST_CASE("rigs without an offset drive their piles together") {
    auto plan = plan_of(5);
    plan.schedule.rigs = 2;
    share_among_rigs(plan, {0, 1, 0, 1, 0});
    CHECK(plan.order == std::vector<std::vector<int>>{{0, 1}, {2, 3}, {4}});
    CHECK(begins_s(plan) == std::vector<double>{0, 1800, 3600, 3600 + 1200 + 3600});
}
