// A case text with another value of one key: what changes, and that nothing else does.

#include "io/case_file.h"
#include "io/key_substitution.h"
#include "tests/support/case_text.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile;
using namespace interpile::testing;
using Catch::Contains;

TEST_CASE("a value is replaced where it stands, remarks stay", "[study]") {
    CHECK(io::with_value(sound_case, "ground.slice_depth_m", "7.5") ==
          changed(sound_case, "slice_depth_m = 6.0 ", "slice_depth_m = 7.5 "));
    CHECK(io::with_value(sound_case, "layout.pattern", "\"triangular\"") ==
          changed(sound_case, "pattern = \"square\"", "pattern = \"triangular\""));
    CHECK(io::with_value(sound_case, "domain.x_m", "[-6, 8]") ==
          changed(sound_case, "x_m = [-5, 7]", "x_m = [-6, 8]"));
    CHECK(io::with_value(sound_case, "layer[2].thickness_m", "9") ==
          changed(sound_case, "thickness_m = 8.5", "thickness_m = 9"));
}

TEST_CASE("letters beyond ASCII and lists over several lines do not move the place", "[study]") {
    const std::string text = "[case]\ntitle = \"Größe 7 µm\" # é\n[order]\nsequence = [1, # é\n  2,\n  3] # "
                             "end\nkind = 'listed'\n";
    CHECK(io::with_value(text, "case.title", "\"x\"") == changed(text, "\"Größe 7 µm\"", "\"x\""));
    CHECK(io::with_value(text, "order.sequence", "[3]") == changed(text, "[1, # é\n  2,\n  3]", "[3]"));
    CHECK(io::with_value("[a]\r\nb = 1\r\nc = 2\r\n", "a.b", "10") == "[a]\r\nb = 10\r\nc = 2\r\n");
    CHECK(io::with_value("[a]\nb = 1", "a.b", "10") == "[a]\nb = 10");
}

TEST_CASE("a key that is not there is added to its table, a table at the end", "[study]") {
    const auto with_key = io::with_value(sound_case, "layout.angle_deg", "30");
    CHECK(with_key == changed(sound_case, "[layout]\n", "[layout]\nangle_deg = 30\n"));
    CHECK(io::parse_case(with_key, "case.toml").layout.angle_deg == 30);
    CHECK(io::with_value(sound_case, "target.relative_density_pct", "70") ==
          sound_case + "[target]\nrelative_density_pct = 70\n");
    CHECK(io::with_value("[a]", "a.b", "1") == "[a]\nb = 1\n");
    CHECK(io::with_value("[a]\nc = 1", "b.d", "1") == "[a]\nc = 1\n[b]\nd = 1\n");
    CHECK(io::with_value(sound_case, "layer[1].unit_weight_kN_m3", "18") ==
          changed(sound_case, "unit_weight_kN_m3 = 17.0", "unit_weight_kN_m3 = 18"));
}

TEST_CASE("what cannot be set is told, not guessed", "[study]") {
    const auto refused = [](const std::string& text, const std::string& path) {
        try {
            return io::with_value(text, path, "1");
        } catch (const std::invalid_argument& error) {
            return std::string(error.what());
        }
    };
    CHECK_THAT(refused(sound_case, "spacing_m"), Contains("has no table"));
    CHECK_THAT(refused(sound_case, "layer.thickness_m"), Contains("layer[NUMBER].thickness_m"));
    CHECK_THAT(refused(sound_case, "layer[3].thickness_m"),
               Contains("number 3, which the case does not have"));
    CHECK_THAT(refused(sound_case, "layer[0].thickness_m"), Contains("from 1"));
    CHECK_THAT(refused(sound_case, "layer[x].thickness_m"), Contains("from 1"));
    CHECK_THAT(refused("a = {c = 1}\n", "a.b"), Contains("write [a] above its keys"));
    CHECK_THAT(refused("a.c = 1\n", "a.b"), Contains("write [a] above its keys"));
    CHECK_THAT(refused("[a\n", "a.b"), Contains("cannot be set"));
}
