// The domain that follows from the layout.

#include "io/case_report.h"
#include "tests/support/case_text.h"
#include "tests/support/has_pattern.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace interpile;
using testing::changed;

namespace {

/// The sound case as a pattern-cell.
io::Case cell_case(const std::string& layout, const std::string& order, const std::string& more = {}) {
    auto text =
        changed(testing::sound_case, "pattern = \"square\"\nspacing_m = 1.7\nrows = 2\ncolumns = 2", layout);
    text = changed(text, "kind = \"listed\"\nsequence = [1, 4, 2, 3]", "kind = \"" + order + "\"");
    text = changed(text, "x_m = [-5, 7]\ny_m = [-5, 7]\nwest = \"rigid-smooth\"\neast = \"constant-stress\"",
                   "shape = \"pattern-cell\"\n" + more);
    return io::parse_case(text, "cell.toml");
}

const std::string triangle = "pattern = \"triangular\"\nspacing_m = 1.7\nrows = 1\ncolumns = 1";

} // namespace

TEST_CASE("a square pattern-cell takes its sides from the layout") {
    const auto c = cell_case("pattern = \"square\"\nspacing_m = 1.7\nrows = 2\ncolumns = 3", "row-by-row");
    CHECK((c.domain.low - mesh::Vec2(-0.85, -0.85)).norm() < 1e-12);
    CHECK((c.domain.high - mesh::Vec2(4.25, 2.55)).norm() < 1e-12);
    for (const auto side : c.domain.side)
        CHECK(side == mesh::BoundaryKind::Symmetry);
    CHECK(c.plan.piles.size() == 6);
    CHECK(c.plan.order.size() == 6);
    CHECK(c.grid.fine_margin_m == Approx(5.1)); // fine all over
    for (const auto& setting : c.settings)
        CHECK_FALSE((setting.key == "domain.west" || setting.key == "domain.margin_m"));
}

TEST_CASE("a quarter of one pile, and the cells of a triangular pattern") {
    const auto quarter = cell_case("pattern = \"square\"\nspacing_m = 1.7\nrows = 1\ncolumns = 1", "together",
                                   "part = \"quarter\"");
    CHECK(quarter.domain.low == mesh::Vec2(0, 0));
    CHECK(quarter.domain.inside_share(quarter.plan.piles[0].center_m) == 0.25);
    const auto whole = cell_case(triangle, "row-by-row");
    CHECK(whole.plan.piles.size() == 5);
    CHECK(whole.plan.order == std::vector<std::vector<int>>{{0}, {1, 2, 3, 4}});
    const auto smallest = cell_case(triangle, "together", "part = \"quarter\"");
    CHECK(smallest.plan.piles.size() == 2);
    CHECK(smallest.plan.order == std::vector<std::vector<int>>{{0, 1}});
    CHECK(smallest.domain.high.y() == Approx(1.7 * std::sqrt(3.0) / 2));
}

TEST_CASE("check tells one area replacement ratio for pattern and cell") {
    // pi d^2/(2 sqrt(3) s^2) = 0.1538, common practice, no source
    for (const char* part : {"part = \"whole\"", "part = \"quarter\""}) {
        const auto text = io::derived_numbers_text(cell_case(triangle, "together", part));
        CHECK_THAT(text, interpile::testing::HasPattern("area replacement ratio +0\\.1538\n"));
        CHECK_THAT(text, interpile::testing::HasPattern("piles over area of the domain +0\\.1538\n"));
    }
}

TEST_CASE("check tells what a cell means for the order of work") {
    const auto report = [](const std::string& layout, const std::string& order) {
        return io::case_report(cell_case(layout, order));
    };
    CHECK_THAT(report(triangle, "row-by-row"),
               Catch::Contains("every second row of the pattern is driven first"));
    CHECK_THAT(report(triangle, "together"),
               Catch::Contains("all piles of the pattern are driven at the same time"));
    CHECK_THAT(report("pattern = \"square\"\nspacing_m = 1.7\nrows = 2\ncolumns = 2", "alternating"),
               Catch::Contains("with a pile all its mirror images"));
    CHECK(io::case_report(io::parse_case(testing::sound_case, "four.toml")).find("endless") ==
          std::string::npos);
}
