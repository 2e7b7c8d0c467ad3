#include "invented_result.h"
#include "postprocess/sample.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <sstream>

using namespace interpile;
using namespace interpile::postprocess;

namespace {

/// A bent grid with f = 2 + 3 x - 5 y at the middles of its cells.
struct Linear {
    mesh::Grid grid{12, 7, {}};
    io::ResultsStage stage;

    Linear() {
        stage.node_m.resize(2, grid.node_count());
        for (int j = 0; j <= 7; ++j)
            for (int i = 0; i <= 12; ++i)
                stage.node_m.col(grid.node_index(i, j)) = mesh::Vec2(
                    0.5 * i + 0.1 * std::sin(j) * std::sin(0.5 * i), 0.6 * j + 0.12 * std::sin(i * 0.8));
        grid.node_m = Eigen::Matrix2Xd::Zero(2, grid.node_count()); // the initial place must not matter
        auto& value = stage.fields["void_ratio"];
        value.resize(grid.cell_count());
        for (int cell = 0; cell < grid.cell_count(); ++cell) {
            mesh::Vec2 middle(0, 0);
            for (int node : grid.cell_nodes(cell))
                middle += stage.node_m.col(node) / 4;
            value[cell] = exact(middle);
        }
    }
    static double exact(const mesh::Vec2& at) { return 2 + 3 * at.x() - 5 * at.y(); }
};

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
        lines.push_back(line);
    return lines;
}

} // namespace

TEST_CASE("a linear field is sampled exactly, up to the rim", "[sample]") {
    const Linear field;
    std::ostringstream csv;
    const postprocess::SampleLine line{{0.03, 0.2}, {5.9, 4.0}, 60};
    sample_line(field.stage, field.grid, line, {"void_ratio"}, csv);
    const auto lines = lines_of(csv.str());
    REQUIRE(lines.size() == 61);
    CHECK(lines[0] == "distance_m,x_m,y_m,void_ratio");
    for (std::size_t k = 1; k < lines.size(); ++k) {
        double distance = 0, x = 0, y = 0, value = 0;
        REQUIRE(std::sscanf(lines[k].c_str(), "%lf,%lf,%lf,%lf", &distance, &x, &y, &value) == 4);
        CHECK(value == Approx(Linear::exact({x, y})).margin(1e-7));
        CHECK(distance == Approx(std::hypot(x - 0.03, y - 0.2)).margin(1e-8));
    }
}

TEST_CASE("points outside the grid have empty values", "[sample]") {
    const Linear field;
    std::ostringstream csv;
    sample_points(field.stage, field.grid, {{3, 2}, {-1, 2}, {3, 50}}, {}, csv);
    const auto lines = lines_of(csv.str());
    REQUIRE(lines.size() == 4);
    CHECK(lines[1].back() != ',');
    CHECK(lines[2] == "4,-1,2,");
    CHECK(lines[3].back() == ',');
}

TEST_CASE("a grid of one row of cells is constant across", "[sample]") {
    mesh::Grid grid{3, 1, {}};
    io::ResultsStage stage;
    stage.node_m.resize(2, 8);
    stage.node_m << 0, 1, 2, 3, 0, 1, 2, 3, 0, 0, 0, 0, 1, 1, 1, 1;
    stage.fields["void_ratio"] = Eigen::ArrayXd::LinSpaced(3, 10, 30);
    std::ostringstream csv;
    sample_points(stage, grid, {{1, 0.1}, {1, 0.9}}, {"void_ratio"}, csv);
    const auto lines = lines_of(csv.str());
    CHECK(lines[1] == "0,1,0.1,15");
    CHECK(lines[2] == "0.8,1,0.9,15");
}

TEST_CASE("an unknown field is named with those there are, and nothing is written", "[sample]") {
    const Linear field;
    std::ostringstream csv;
    CHECK_THROWS_WITH(sample_points(field.stage, field.grid, {{1, 1}}, {"density"}, csv),
                      Catch::Contains("\"density\"") && Catch::Contains("void_ratio"));
    CHECK_THROWS_AS(sample_line(field.stage, field.grid, {{0, 0}, {1, 1}, 1}, {}, csv),
                    std::invalid_argument);
    CHECK(csv.str().empty());
}
