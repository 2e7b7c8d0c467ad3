// Groups in plastic soil: symmetry where there is symmetry, and that the order of work matters.

#include "support/verification.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace interpile;
using namespace interpile::test;

namespace {

/// Largest difference of a field between each cell and its mirror image, over the field's largest value.
double asymmetry(const CaseRun& run, const std::string& field, bool mirror_x, bool mirror_y) {
    const auto& f = run.last().fields.at(field);
    const int nx = run.grid.cells_x, ny = run.grid.cells_y;
    double worst = 0;
    for (int j = 0; j < ny; ++j)
        for (int i = 0; i < nx; ++i) {
            const int image = (mirror_y ? ny - 1 - j : j) * nx + (mirror_x ? nx - 1 - i : i);
            worst = std::max(worst, std::abs(f(j * nx + i) - f(image)));
        }
    return worst / f.abs().maxCoeff();
}

} // namespace

TEST_CASE("a symmetric group driven together stays symmetric") {
    const CaseRun run = run_case("symmetric-group");
    for (const char* field : {"void_ratio", "lateral_stress_kPa", "vertical_stress_kPa", "displacement_m"})
        for (const auto& [x, y] : {std::pair(true, false), std::pair(false, true), std::pair(true, true)}) {
            const double difference = asymmetry(run, field, x, y);
            std::printf("symmetric-group: %s, mirrored %s%s: %.1e\n", field, x ? "x" : "", y ? "y" : "",
                        difference);
            CHECK(difference < 1e-10);
        }
}

// Trend T11 of the trade's own findings: each later pile meets stiffer, more stressed ground, and the last row is not
// the first row mirrored. An elastic ground would give the same field for any order.
TEST_CASE("the order of work matters in plastic soil and hardly in elastic soil") {
    const auto difference = [](const std::string& name) {
        const CaseRun a = run_case(name), b = run_case(name, {{"sequence", "[4, 3, 2, 1]"}});
        const auto &ka = a.last().fields.at("lateral_stress_kPa"),
                   &kb = b.last().fields.at("lateral_stress_kPa");
        const auto ground =
            (a.last().fields.at("pile_share") == 0 && b.last().fields.at("pile_share") == 0).cast<double>();
        const double mean = (ka * ground).abs().sum() / ground.sum();
        return ((ka - kb) * ground).abs().sum() / ground.sum() / mean;
    };
    const double plastic = difference("order-of-work-plastic"), elastic = difference("order-of-work-elastic");
    std::printf("order-of-work: mean difference of lateral stress, order 1234 against 4321: plastic %.3f, "
                "elastic %.4f\n",
                plastic, elastic);
    CHECK(plastic > 0.05);
    CHECK(elastic < 0.1 * plastic);
}
