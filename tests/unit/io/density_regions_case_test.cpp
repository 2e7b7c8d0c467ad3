// Ground of another density in parts of the domain.

#include "io/case_report.h"
#include "tests/support/case_text.h"
#include "tests/support/has_pattern.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace interpile;
using testing::changed;

namespace {

io::Case with_regions(const std::string& regions) {
    return io::parse_case(changed(testing::sound_case, "[soil]", regions + "\n[soil]"), "lens.toml");
}

const std::string two_regions = R"([[region]]
name = "old channel"
x_m = [-5, 1]
y_m = [-1, 2]
relative_density_pct = 20

[[region]]
center_m = [1.7, 1.7]
radius_m = 0.8
void_ratio = 0.7
)";

} // namespace

TEST_CASE("regions are read as rectangles and circles, in their order") {
    const auto c = with_regions(two_regions);
    REQUIRE(c.slice.regions.size() == 2);
    const auto& [channel, round] = std::tie(c.slice.regions[0], c.slice.regions[1]);
    CHECK(channel.name == "old channel");
    CHECK(channel.place.low == mesh::Vec2(-5, -1));
    CHECK(channel.place.high == mesh::Vec2(1, 2));
    CHECK(channel.void_ratio == Approx(0.977 - 0.2 * 0.380)); // D_r 20 %, definition
    CHECK(round.name == "region 2");
    CHECK(round.place.shape == mesh::PlanRegion::Shape::Circle);
    CHECK(round.place.contains({1.7, 2.49}));
    CHECK_FALSE(round.place.contains({2.4, 2.4}));
    CHECK(round.void_ratio == 0.7);
    CHECK(c.slice.void_ratio == Approx(0.977 - 0.4 * 0.380)); // elsewhere
    const auto stored = std::count_if(c.settings.begin(), c.settings.end(),
                                      [](const auto& s) { return s.key.starts_with("region["); });
    CHECK(stored == 8); // name and three more, twice
}

TEST_CASE("check tells density and extent of every region") {
    const auto text = io::derived_numbers_text(with_regions(two_regions));
    // 6 m by 3 m; cells near its borders count whole, the cells there are up to 0.4 m.
    CHECK_THAT(text, interpile::testing::HasPattern(
                         "before in \"old channel\" +relative density 20 %, void ratio 0\\.901, "
                         "over 1[789](\\.[0-9]+)? m2\n"));
    CHECK_THAT(
        text,
        interpile::testing::HasPattern("before in \"region 2\" +relative density 72\\.89 %")); // 0.277/0.38
}

TEST_CASE("without regions nothing is told of them") {
    CHECK(io::case_report(io::parse_case(testing::sound_case, "four.toml")).find("before in") ==
          std::string::npos);
}
