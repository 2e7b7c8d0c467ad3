// Regions of another density from the case file to the results file.

#include "io/results_reader.h"
#include "mesh/ground_area.h"
#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/program_run.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace interpile;
using namespace interpile::testing;

TEST_CASE("the density before treatment in the results file is that of the regions, and the balance closes") {
    const WorkingFolder folder;
    auto text = changed(sound_case, "rows = 2\ncolumns = 2", "rows = 1\ncolumns = 1");
    text = changed(text, "kind = \"listed\"\nsequence = [1, 4, 2, 3]", "kind = \"together\"");
    text = changed(text, "x_m = [-5, 7]\ny_m = [-5, 7]\nwest = \"rigid-smooth\"\neast = \"constant-stress\"",
                   "shape = \"pattern-cell\"");
    text = changed(text, "[soil]",
                   "[[region]]\nx_m = [-1, -0.1]\ny_m = [-1, 1]\nrelative_density_pct = 20\n"
                   "[[region]]\ncenter_m = [0, 0.5]\nradius_m = 0.3\nrelative_density_pct = 65\n[soil]");
    folder.write("lens.toml", text);
    const auto run = folder.run(program_file(), {"run", "lens.toml"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK_THAT(run.out, Catch::Contains("before in \"region 2\""));

    const io::ResultsReader results(folder.path() / "lens.h5");
    const auto before = results.stage(0);
    const auto& density = before.fields.at("relative_density_pct");
    const Eigen::Matrix2Xd middle = mesh::cell_middles(results.header().grid);
    REQUIRE(density.size() == middle.cols());
    int found[3] = {};
    for (Eigen::Index cell = 0; cell < density.size(); ++cell) {
        const mesh::Vec2 p = middle.col(cell);
        const int which = (p - mesh::Vec2(0, 0.5)).norm() < 0.3 ? 2 : p.x() < -0.1 ? 1 : 0;
        const double expected[] = {40, 20, 65};
        CHECK(density(cell) == Approx(expected[which])); // stored in single precision
        ++found[which];
    }
    CHECK(std::min({found[0], found[1], found[2]}) > 10);

    const auto after = results.stage(1);
    const double closing_error =
        after.injected_m3_m - after.densified_m3_m - after.heaved_m3_m - after.pushed_out_m3_m;
    CHECK(after.injected_m3_m > 0.3);
    CHECK(std::abs(closing_error) < 0.01 * after.injected_m3_m);
}
