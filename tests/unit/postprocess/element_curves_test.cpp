// The page of element curves: critical state lines and measured points, counted in its SVG.

#include "postprocess/figures/element_curves.h"
#include "temporary_folder.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace interpile::postprocess;
using namespace interpile::tests;

namespace {

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++n;
    return n;
}

std::string svg_of(const ElementFigure& figure) {
    const TemporaryFolder folder("interpile_element_curves");
    const auto file = folder.path() / "page.svg";
    save(element_curves(figure), file, FigureFormat::Svg);
    return bytes_of(file);
}

/// Undrained compression along q = p' - 50 kPa.
ElementFigure one_test() {
    ElementFigure figure;
    figure.title = "invented";
    figure.curves.push_back({"a test", {}, {}, {}});
    for (const double q : {0.0, 20.0, 40.0})
        figure.curves[0].computed.push_back({q / 10, q, q + 50, 0, q + 50, 0.8});
    return figure;
}

} // namespace

TEST_CASE("the critical state is drawn in the stress path and over the logarithm of the mean stress") {
    auto figure = one_test();
    CHECK(count(svg_of(figure), "stroke-dasharray") == 0);
    figure.critical_line = {{40, 0.82}, {60, 0.81}, {80, 0.805}, {100, 0.8}};
    CHECK(count(svg_of(figure), "stroke-dasharray") == 2); // panel and legend
    figure.critical_stress_ratios = {1.25, -0.89};
    CHECK(count(svg_of(figure), "stroke-dasharray") == 4);
    figure.shear = true; // shear stress over vertical stress has no such line
    CHECK(count(svg_of(figure), "stroke-dasharray") == 2);
}

TEST_CASE("measured points appear in every panel that they have values for, and in the legend") {
    auto figure = one_test();
    const auto without = count(svg_of(figure), "<path");
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    figure.curves[0].measured = {{1, 10, unknown, 0, unknown, unknown}};
    figure.curves[0].measured_label = "a test";           // no further letters, which are paths too
    CHECK(count(svg_of(figure), "<path") == without + 3); // stress, volume; legend
}
