// A case with the sand that cycles compact, from the file to the result.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <string>

using namespace interpile::testing;

namespace {

const std::string interpile_program = program_file();

/// Two piles on a coarse grid, with strokes.
std::string small_case(const std::string& more = "") {
    auto text = changed(sound_case, "rows = 2", "rows = 1");
    text = changed(text, "sequence = [1, 4, 2, 3]", "sequence = [2, 1]");
    text = changed(text, "tolerance = 2e-3",
                   "tolerance = 5e-3\nincrements_per_pile = 12\nincrements_per_half_stroke = 4");
    text = changed(text, "friction_angle_deg = 33", "critical_friction_angle_deg = 33\n" + more);
    return changed(text, "mohr-coulomb", "bolton-sand");
}

/// Void ratio between the piles after the last one; the file is NAME.h5.
double void_ratio_between(const WorkingFolder& folder, const std::string& name) {
    const auto sample =
        folder.run(interpile_program, {"sample", name + ".h5", "--at", "0.85,0", "--field", "void_ratio"});
    INFO(sample.err);
    REQUIRE(sample.exit_code == 0);
    return std::stod(sample.out.substr(sample.out.rfind(',') + 1));
}

} // namespace

TEST_CASE("strokes densify bolton-sand, and without compaction the program says that they cannot") {
    const WorkingFolder folder;
    folder.write("with.toml", small_case());
    folder.write("without.toml", small_case("compaction_factor = 0"));
    const auto with = folder.run(interpile_program, {"run", "with.toml"});
    INFO(with.err);
    REQUIRE(with.exit_code == 0);
    CHECK_THAT(with.out, !Catch::Contains("not a prediction"));
    const auto without = folder.run(interpile_program, {"run", "without.toml"});
    REQUIRE(without.exit_code == 0);
    CHECK_THAT(without.out, Catch::Contains("not a prediction"));
    CHECK(void_ratio_between(folder, "with") < void_ratio_between(folder, "without") - 1e-3);
}

// The relative density that the sand follows is that of [ground]: with another range the same void ratio is looser.
TEST_CASE("bolton-sand takes e_max and e_min from the ground") {
    const WorkingFolder folder;
    const std::string at_void_ratio = changed(small_case(), "relative_density_pct = 40", "void_ratio = 0.8");
    folder.write("first.toml", at_void_ratio);
    folder.write("second.toml", changed(at_void_ratio, "void_ratio = 0.8", "void_ratio = 0.8\ne_max = 0.9"));
    for (const char* file : {"first.toml", "second.toml"})
        REQUIRE(folder.run(interpile_program, {"run", file}).exit_code == 0);
    CHECK(std::abs(void_ratio_between(folder, "first") - void_ratio_between(folder, "second")) > 1e-3);
}
