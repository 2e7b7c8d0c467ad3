// What `check` says about the pore water of a case, by hand.

#include "io/case_report.h"
#include "io/water_report.h"
#include "tests/support/case_text.h"
#include "tests/support/has_pattern.h"

#include <catch2/catch.hpp>

using namespace interpile;
using testing::changed;
using testing::sound_case;

namespace {

/// G 8000 kPa and the default nu of 0.3: M = 2 G (1 - nu)/(1 - 2 nu) = 28 MPa.
std::string wet_case(const std::string& water,
                     const std::string& schedule = "pile_min = 20\nfinal_rest_h = 24\n") {
    return changed(sound_case, "[output]", "[water]\n" + water + "\n[schedule]\n" + schedule + "[output]");
}

std::string coupled(const std::string& more = "") {
    return wet_case("drainage = \"coupled\"\npermeability_m_s = 1e-5\n" + more);
}

} // namespace

TEST_CASE("numbers of a coupled case by hand") {
    const auto run_case = io::parse_case(coupled("pile_permeability_m_s = 1e-4\n"), "wet.toml");
    CHECK(io::elastic_modulus_kPa(run_case) == Approx(28000));
    const double c_h = io::consolidation_coefficient_m2_s(1e-5, 28000);
    CHECK(c_h == Approx(0.02854).epsilon(1e-3)); // 1e-5 x 28000/9.81
    // T 0.848 for 90 %: from memory of Terzaghi's theory as in Taylor (1948), drainage at one end.
    CHECK(io::time_to_90_percent_s(0.85, c_h) == Approx(0.848 * 0.7225 / 0.02854).epsilon(1e-3)); // 21.5 s
    const std::string text = io::case_report(run_case);
    CHECK_THAT(text, Catch::Contains("28 MPa"));
    CHECK_THAT(text, Catch::Contains("c_h 0.0285 m2/s"));
    CHECK_THAT(text, Catch::Contains("21 s over half the spacing, 0.85 m"));
    // 0.6 m at 4 m/min, 9 s, and 0.4 m at 2 m/min, 12 s.
    CHECK_THAT(text, interpile::testing::HasPattern("a stroke +21 s, of it 9 s withdrawal\n"));
    CHECK_THAT(text, Catch::Contains("1 h 50 min, then 24 h 00 min of rest")); // 4 x 20 min, 3 x 10 min
    CHECK_THAT(text, Catch::Contains("Water flows horizontally"));
    CHECK_THAT(text, Catch::Contains("Finished piles drain along 6 m"));
    CHECK_THAT(text, !Catch::Contains("it is drained") && !Catch::Contains("by the leak"));
}

TEST_CASE("the rate of the first mode: e-folding time 4 gamma_w H^2/(pi^2 k M)") {
    // H 5 m, k 1e-5, M 28 MPa: 4 x 9.81 x 25/(9.8696 x 0.28) = 355 s, 90 % after ln(10) of it: 817 s.
    const auto text = io::case_report(io::parse_case(coupled("leak_length_m = 5\n"), "wet.toml"));
    CHECK_THAT(text, Catch::Contains("13 min 37 s over 5 m"));
    CHECK_THAT(text, Catch::Contains("water.leak_length_m stands for vertical flow"));
}

TEST_CASE("a smeared ring thinner than a cell is said to be coarse") {
    // Cells 0.7/6 = 0.117 m; ring (d_s - d_w)/2: 0.07 m at a ratio of 1.2, 0.175 m at 1.5.
    const auto text = [](const char* ratio) {
        return io::case_report(io::parse_case(
            coupled(std::string("smear_permeability_ratio = 0.2\nsmear_diameter_ratio = ") + ratio + "\n"),
            "wet.toml"));
    };
    CHECK_THAT(text("1.2"),
               Catch::Contains("ring is 0.07 m thick") && !Catch::Contains("smear are left out"));
    CHECK_THAT(text("1.5"), !Catch::Contains("m thick, less than a cell"));
}

TEST_CASE("remarks follow the drainage") {
    const auto remarks_of = [](const std::string& text) {
        std::string all;
        for (const auto& sentence : io::remarks(io::parse_case(text, "wet.toml")))
            all += sentence + "\n";
        return all;
    };
    CHECK_THAT(remarks_of(sound_case), Catch::Contains("it is drained"));
    const auto undrained =
        remarks_of(changed(sound_case, "[output]", "[water]\ndrainage = \"undrained\"\n[output]"));
    CHECK_THAT(undrained, Catch::Contains("No water flows") && !Catch::Contains("it is drained"));
    CHECK(io::water_numbers(io::parse_case(sound_case, "dry.toml")).empty());
    CHECK_THAT(remarks_of(coupled()), !Catch::Contains("Nothing drains"));
    const std::string shut = "sides = \"closed\"\npile_permeability_m_s = 0\n";
    CHECK_THAT(remarks_of(coupled(shut)), Catch::Contains("Nothing drains this slice"));
}

TEST_CASE("the report tells rigs and dates") {
    const std::string water = "drainage = \"coupled\"\npermeability_m_s = 1e-5\n";
    const auto report = [&](const std::string& more, const std::string& schedule) {
        return io::case_report(
            io::parse_case(wet_case(water + more, "pile_min = 20\n" + schedule), "wet.toml"));
    };
    // Two piles of each rig: 20 + 10 + 20 min, the second rig 15 min later.
    const auto two = report("", "begins = 2026-03-05T23:00:00\nrigs = 2\nfinal_rest_h = 2\n");
    CHECK_THAT(two, Catch::Contains("2, each begins 15 min 00 s after the one before it"));
    CHECK_THAT(two, Catch::Contains("1 h 05 min, then 2 h 00 min of rest"));
    CHECK_THAT(two, Catch::Contains(
                        "Thu 2026-03-05 23:00 to Fri 2026-03-06 00:05, rest until Fri 2026-03-06 02:05"));
    CHECK_THAT(two, !Catch::Contains("pass the slice at the same time"));
    // 21 s of casing pass and 2 strokes of 21 s at the depth of the slice take longer than half a minute.
    CHECK_THAT(report("", "rigs = 2\nrig_offset_min = 0.5\n"),
               Catch::Contains("pass the slice at the same time: they are driven one after the other"));
    CHECK_THAT(report("", "rigs = 2\nrig_offset_min = 0\n"),
               Catch::Contains("2, driving their piles together"));
}
