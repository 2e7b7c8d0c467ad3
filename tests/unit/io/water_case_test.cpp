// [water] and [schedule] of a case.

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "tests/support/case_text.h"
#include "tests/support/told_faults.h"

#include <catch2/catch.hpp>

using namespace interpile;
using testing::changed;

namespace {

/// The sound case with tables of water at its end.
std::string wet(const std::string& tables) {
    return testing::sound_case + "\n" + tables;
}

io::Case parsed(const std::string& tables) {
    return io::parse_case(wet(tables), "wet.toml");
}

std::string told(const std::string& text) {
    return testing::told(&io::parse_case, text, "wet.toml");
}

std::size_t fault_count(const std::string& text) {
    return testing::fault_count(&io::parse_case, text, "wet.toml");
}

const std::string coupled = R"([water]
drainage = "coupled"
permeability_m_s = 2e-5
saturation = 0.95
leak_length_m = 4

[schedule]
penetration_speed_m_min = 1.5
withdrawal_speed_m_min = 3
redrive_speed_m_min = 2
pile_length_m = 9
between_min = 15
work_h_per_day = 10
final_rest_h = 12
)";

} // namespace

TEST_CASE("a case without [water] is drained") {
    const auto c = io::parse_case(testing::sound_case, "dry.toml");
    CHECK(c.plan.water.drainage == solver::Drainage::Drained);
    CHECK(c.plan.schedule.pile_s == 0);
}

TEST_CASE("water and durations of a coupled case, by hand") {
    const auto c = parsed(coupled);
    const auto& water = c.plan.water;
    CHECK(water.drainage == solver::Drainage::Coupled);
    CHECK(water.permeability_m_s == 2e-5);
    CHECK(water.vertical_permeability_m_s == 2e-5); // as the horizontal one
    CHECK(water.saturation == 0.95);
    CHECK(water.static_pressure_kPa == Approx(9.81 * 4.5)); // 6 m deep, water at 1.5 m
    CHECK(water.open_sides);
    CHECK(water.leak_length_m == 4);
    CHECK(water.pile_permeability_m_s == 1e-4);
    CHECK(water.pile_leak_length_m == 6);

    // Withdrawal 0.6 m at 3 m/min, re-driving 0.4 m at 2 m/min: 12 s each. Two strokes at a depth (0.6/0.2 - 1), 9/0.2 =
    // 45 in the pile.
    const auto& schedule = c.plan.schedule;
    CHECK(c.plan.strokes.strokes == 2);
    CHECK(schedule.withdrawal_s == Approx(12));
    CHECK(schedule.redrive_s == Approx(12));
    CHECK(schedule.casing_pass_s == Approx(60 * 0.7 / 1.5));
    CHECK(schedule.pile_s == Approx(60 * 9 / 1.5 + 45 * 24));
    CHECK(schedule.between_s == 900);
    CHECK(schedule.day_s == 36000);
    CHECK(schedule.final_rest_s == 43200);
    CHECK(schedule.largest_step_s == 0);
}

TEST_CASE("durations given directly stand against derived ones") {
    const auto c =
        parsed(coupled + "stroke_s = 40\ncasing_pass_s = 30\npile_min = 25\nlargest_step_min = 2\n");
    CHECK(c.plan.schedule.withdrawal_s == Approx(20)); // shared as the ways are
    CHECK(c.plan.schedule.redrive_s == Approx(20));
    CHECK(c.plan.schedule.casing_pass_s == 30);
    CHECK(c.plan.schedule.pile_s == 1500);
    CHECK(c.plan.schedule.largest_step_s == 120);
}

TEST_CASE("a smeared ring is off by default; with a ring it needs its permeability") {
    CHECK(parsed(coupled).plan.water.smear_diameter_ratio == 1);
    const auto with = [](const std::string& keys) {
        return wet(changed(coupled, "saturation = 0.95", keys));
    };
    const auto ring =
        io::parse_case(with("smear_diameter_ratio = 1.5\nsmear_permeability_ratio = 0.25"), "wet.toml");
    CHECK(ring.plan.water.smear_diameter_ratio == 1.5);
    CHECK(ring.plan.water.smear_permeability_ratio == 0.25);
    CHECK_THAT(told(with("smear_diameter_ratio = 1.5")), Catch::Contains("smear_permeability_ratio"));
    CHECK(fault_count(with("smear_diameter_ratio = 1.5")) == 1);
    CHECK_THAT(told(with("smear_permeability_ratio = 0.25")),
               Catch::Contains("has no effect without a ring (smear_diameter_ratio = 1)"));
    CHECK_THAT(told(with("pile_permeability_m_s = 0\nsmear_diameter_ratio = 1.5")),
               Catch::Contains("has no effect where finished piles do not drain"));
    for (const char* bad : {"smear_diameter_ratio = 0.9", "smear_diameter_ratio = 5.1",
                            "smear_diameter_ratio = 2\nsmear_permeability_ratio = 0",
                            "smear_diameter_ratio = 2\nsmear_permeability_ratio = 1.1"})
        CHECK(fault_count(with(bad)) == 1);
}

TEST_CASE("undrained needs no more than the water") {
    const auto c = parsed("[water]\ndrainage = \"undrained\"\nsaturation = 0.9\n");
    CHECK(c.plan.water.drainage == solver::Drainage::Undrained);
    CHECK(c.plan.water.saturation == 0.9);
    CHECK(told(wet("[water]\ndrainage = \"undrained\"\npermeability_m_s = 1e-5\n"))
              .find("water.permeability_m_s = 1e-5 has no effect with drainage = \"undrained\"") !=
          std::string::npos);
}

TEST_CASE("coupled flow asks for its permeability and for the time of a pile") {
    const std::string text = told(wet("[water]\ndrainage = \"coupled\"\n"));
    CHECK_THAT(text, Catch::Contains("permeability_m_s") && Catch::Contains("coupled flow needs it"));
    CHECK_THAT(text, Catch::Contains("pile_min"));
    CHECK(fault_count(wet("[water]\ndrainage = \"coupled\"\n")) == 2);
}

TEST_CASE("keys without effect in a drained case are told, all of them") {
    const std::string text =
        told(wet("[water]\nsaturation = 0.9\nsides = \"closed\"\n[schedule]\npile_min = 20\n"));
    CHECK_THAT(text, Catch::Contains("water.saturation = 0.9 has no effect with drainage = \"drained\""));
    CHECK_THAT(text, Catch::Contains("water.sides"));
    CHECK_THAT(text, Catch::Contains("schedule.pile_min = 20 has no effect without drainage = \"coupled\""));
}

TEST_CASE("strokes longer than the pile are refused") {
    // 28 s of casing pass and two strokes of 24 s are 1.27 min.
    CHECK(fault_count(wet(coupled + "pile_min = 1.2\n")) == 1);
    CHECK_THAT(told(wet(coupled + "pile_min = 1.2\n")),
               Catch::Contains("pile_min") && Catch::Contains("2 strokes at this depth take 1.3 min"));
    CHECK(fault_count(wet(coupled + "pile_min = 1.3\n")) == 0);
}

TEST_CASE("strokes given by number need their duration") {
    const auto text = changed(wet(changed(coupled, "pile_length_m = 9", "pile_min = 20")),
                              "withdrawal_m = 0.6\nredrive_m = 0.4", "strokes = 3");
    CHECK_THAT(told(text), Catch::Contains("stroke_s") && Catch::Contains("pile.strokes is given directly"));
    CHECK(fault_count(text) == 1);
    const auto sound = io::parse_case(text + "stroke_s = 30\n", "wet.toml");
    CHECK(sound.plan.schedule.withdrawal_s + sound.plan.schedule.redrive_s == Approx(30));
}

TEST_CASE("a pile without strokes has none to time") {
    const auto text =
        changed(changed(wet(changed(coupled, "pile_length_m = 9", "pile_min = 20\nstroke_s = 5")),
                        "withdrawal_m = 0.6\nredrive_m = 0.4", "strokes = 0"),
                "casing_diameter_m = 0.4\n", "");
    CHECK_THAT(told(text), Catch::Contains("schedule.stroke_s = 5 has no effect without strokes"));
}

TEST_CASE("water values outside their range are refused with it") {
    const auto [from, to] = GENERATE(table<std::string, std::string>({
        {"saturation = 0.95", "saturation = 0"},
        {"saturation = 0.95", "saturation = 1.1"},
        {"permeability_m_s = 2e-5", "permeability_m_s = -2e-5"},
        {"leak_length_m = 4", "leak_length_m = -1"},
        {"drainage = \"coupled\"", "drainage = \"wet\""},
        {"withdrawal_speed_m_min = 3", "withdrawal_speed_m_min = 0"},
        {"work_h_per_day = 10", "work_h_per_day = 25"},
    }));
    const auto text = wet(changed(coupled, from, to));
    const std::string message = told(text);
    INFO(message);
    CHECK_THAT(message, Catch::Contains(to.substr(0, to.find(' '))));
    CHECK_THAT(message, Catch::Contains("wet.toml:"));
    CHECK(fault_count(text) == 1);
}

TEST_CASE("the work has dates where its begin is given") {
    CHECK_FALSE(parsed(coupled).plan.schedule.begins);
    const auto dated =
        parsed(coupled + "begins = 2026-03-05T07:30:00 # a Thursday\nwork_days_per_week = 5\n");
    REQUIRE(dated.plan.schedule.begins);
    CHECK(solver::iso_8601(*dated.plan.schedule.begins) == "2026-03-05T07:30:00");
    CHECK(dated.plan.schedule.days_per_week == 5);
    for (const auto& [line, message] : std::vector<std::pair<std::string, std::string>>{
             {"begins = 2026-03-07T07:30:00\nwork_days_per_week = 5", "is Sat 2026-03-07 07:30, on which"},
             {"begins = 2026-03-05", "has no time of day"},
             {"begins = 07:30:00", "has no date"},
             {"begins = \"2026-03-05T07:30:00\"", "is text; a date and time is needed"},
             {"begins = 2026-03-05T07:30:00Z", "has a zone"},
             {"begins = 1026-03-05T07:30:00", "is outside years 1950 .. 2200"}}) {
        INFO(line);
        const auto text = wet(coupled + line + "\n");
        CHECK_THAT(told(text), Catch::Contains("schedule.begins") && Catch::Contains(message));
        CHECK(fault_count(text) == 1);
    }
    CHECK_THAT(told(wet(changed(coupled, "work_h_per_day = 10", "work_days_per_week = 5"))),
               Catch::Contains("work_days_per_week = 5 has no effect without work_h_per_day"));
}

TEST_CASE("piles go to rigs in turn, by list or by table") {
    // Listed order 1, 4, 2, 3.
    CHECK(parsed(coupled).plan.rig.empty());
    const auto in_turn = parsed(coupled + "rigs = 2\n").plan;
    CHECK(in_turn.order == std::vector<std::vector<int>>{{0}, {3}, {1}, {2}});
    CHECK(in_turn.rig == std::vector<int>{0, 1, 0, 1});
    CHECK(in_turn.schedule.rig_offset_s == Approx((in_turn.schedule.pile_s + 900) / 2));
    const auto listed = parsed(coupled + "rigs = 2\nrig_of_pile = [1, 1, 2, 1]\n").plan;
    CHECK(listed.order == std::vector<std::vector<int>>{{0}, {2}, {3}, {1}});
    CHECK(listed.rig == std::vector<int>{0, 1, 0, 0});
    const auto together = parsed(coupled + "rigs = 2\nrig_offset_min = 0\n").plan;
    CHECK(together.order == std::vector<std::vector<int>>{{0, 3}, {1, 2}});
}

TEST_CASE("rigs that cannot be are refused") {
    for (const auto& [lines, message] : std::vector<std::pair<std::string, std::string>>{
             {"rigs = 0", "schedule.rigs = 0 is outside 1 .. 20"},
             {"rigs = 5", "schedule.rigs = 5 leaves rig 5 without a pile"},
             {"rig_offset_min = 5", "rig_offset_min = 5 has no effect with one rig"},
             {"rigs = 2\nrig_of_pile = [1, 2, 1]", "has 3 numbers for 4 piles"},
             {"rigs = 2\nrig_of_pile = [1, 2, 3, 1]", "rig 3 is not there, schedule.rigs is 2"},
             {"rigs = 2\nrig_of_pile = [1, 1, 1, 1]", "leaves rig 2 without a pile"}}) {
        INFO(lines);
        const auto text = wet(coupled + lines + "\n");
        CHECK_THAT(told(text), Catch::Contains(message));
        CHECK(fault_count(text) == 1);
    }
    const auto together =
        changed(changed(wet(coupled + "rigs = 2\n"), "kind = \"listed\"", "kind = \"together\""),
                "sequence = [1, 4, 2, 3]\n", "");
    CHECK_THAT(told(together),
               Catch::Contains("schedule.rigs = 2 does not go with piles that [order] drives together"));
}
