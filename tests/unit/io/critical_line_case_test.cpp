// The critical state line of a site's sand in a case: where it comes from, what is said about it.

#include "io/case_report.h"
#include "solver/soil_models/critical_line.h"
#include "tests/support/case_text.h"
#include "tests/support/has_pattern.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile;
using testing::changed;
using testing::sound_case;

namespace {

const std::string mohr_coulomb =
    "model = \"mohr-coulomb\"\nshear_modulus_kPa = 8000\nfriction_angle_deg = 33\n";

/// The sound case in two-surface sand of other void ratios than Toyoura sand, with further lines in [soil].
io::Case case_of(const std::string& soil, const std::string& ground = "e_max = 0.85\ne_min = 0.5\n") {
    return io::parse_case(
        changed(changed(sound_case, mohr_coulomb, "model = \"two-surface-sand\"\n" + soil + "\n"),
                "[ground]\n", "[ground]\n" + ground),
        "site.toml");
}

bool remarks_on_toyoura(const io::Case& run_case) {
    const auto all = io::remarks(run_case);
    return std::any_of(all.begin(), all.end(), [](const std::string& sentence) {
        return sentence.starts_with("The critical state line is that of Toyoura sand");
    });
}

} // namespace

TEST_CASE("the line of a rule stands in place of the defaults, own constants before it") {
    const auto expected = solver::line_after_bolton(0.85, 0.5, 10, 1);
    const auto site = case_of("critical_line = \"bolton\"");
    CHECK(parameter_value(site.soil, "critical_line_void_ratio") == expected.e0);
    CHECK(parameter_value(site.soil, "critical_line_slope") == expected.lambda_c);
    CHECK(parameter_value(site.soil, "critical_line_exponent") == expected.xi);
    CHECK_THAT(io::configuration_text(site),
               interpile::testing::HasPattern(
                   "soil.critical_line_slope +(=) 0\\.030[0-9]+ +default: e_max, e_min and I_D = 1/.10 - "
                   "ln p'.; from memory of Bolton"));
    const auto own =
        case_of("critical_line = \"bolton\"\ncrushing_constant = 11\ncritical_line_slope = 0.04");
    CHECK(parameter_value(own.soil, "critical_line_slope") == 0.04);
    CHECK(parameter_value(own.soil, "critical_line_void_ratio") ==
          solver::line_after_bolton(0.85, 0.5, 11, 1).e0);
    const auto density = case_of("critical_line = \"toyoura-density\"");
    CHECK(parameter_value(density.soil, "critical_line_slope") == Approx(0.019 * 0.35 / 0.38));
}

TEST_CASE("check tells the line and its density, and where it is that of another sand") {
    const auto site = case_of("critical_line = \"toyoura-density\"");
    const std::string text = io::derived_numbers_text(site);
    CHECK_THAT(text,
               Catch::Contains("e_c = 0.8104 - 0.0175 (p'/p_a)^0.7")); // 0.85 - 0.35 (0.977 - 0.934)/0.38
    CHECK_THAT(text, interpile::testing::HasPattern(
                         "critical state at p' [0-9.]+ kPa +void ratio 0\\.[0-9]+, relative density"));
    CHECK_FALSE(remarks_on_toyoura(site));
    CHECK(remarks_on_toyoura(case_of("")));
    CHECK_FALSE(remarks_on_toyoura(case_of("", "")));
    CHECK_FALSE(
        remarks_on_toyoura(case_of("", "e_max = 0.988\ne_min = 0.616\n"))); // Toyoura sand too, of others
    CHECK_FALSE(remarks_on_toyoura(case_of("critical_line_void_ratio = 0.8")));
}
