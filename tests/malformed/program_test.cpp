// Bad cases through the real program: exit code, message, and an earlier result that stays as it was.

#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

using namespace interpile::testing;

namespace {
const std::string interpile_program = program_file();
}

TEST_CASE("a bad case is refused before anything is written") {
    const WorkingFolder folder;
    folder.write("bad.h5", "an earlier result");
    const auto refused = [&](const std::string& text, const std::string& part) {
        folder.write("bad.toml", text);
        const auto run = folder.run(interpile_program, {"run", "bad.toml", "--overwrite"});
        INFO(run.err);
        CHECK(run.exit_code == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Catch::StartsWith("bad.toml:") && Catch::Contains(part) &&
                                Catch::Contains("nothing was computed, earlier results are untouched"));
        CHECK(folder.files() == std::vector<std::string>{"bad.h5", "bad.toml"});
        CHECK(content_of(folder.path() / "bad.h5") == "an earlier result");
    };
    refused(changed(sound_case, "diameter_m = 0.7", "diameter_m = inf"), "is not a finite number");
    refused(changed(sound_case, "[soil]", "[%soil]"), "bad.toml:"); // the header-only parser would abort here
    refused(changed(sound_case, "x_m = [-5, 7]", "x_m = [-5, 1]"), "lies outside");
    refused(std::string(100000, '['), "bad.toml:");
    refused(std::string("\0\0\0", 3), "bad.toml:");
    refused("", "slice_depth_m");
}

TEST_CASE("a result that cannot be written is file trouble before anything is computed") {
    const WorkingFolder folder;
    folder.write("four.toml", sound_case);
    folder.write("four.h5", "an earlier result");
    const auto earlier = folder.run(interpile_program, {"run", "four.toml"});
    CHECK(earlier.exit_code == 3);
    CHECK(earlier.out.empty());
    CHECK_THAT(earlier.err, Catch::Contains("four.h5") && Catch::Contains("--overwrite"));
    const auto nowhere = folder.run(interpile_program, {"run", "four.toml", "-o", "none/four.h5"});
    CHECK(nowhere.exit_code == 3);
    CHECK_THAT(nowhere.err, Catch::Contains("none"));
    CHECK(folder.run(interpile_program, {"run", "four.toml", "-o", "four.toml/x.h5"}).exit_code == 3);
    CHECK(content_of(folder.path() / "four.h5") == "an earlier result");
    CHECK(content_of(folder.path() / "four.toml") == sound_case);
    CHECK(folder.files() == std::vector<std::string>{"four.h5", "four.toml"});
}
