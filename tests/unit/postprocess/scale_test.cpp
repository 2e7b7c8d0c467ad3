#include "postprocess/color_map.h"
#include "postprocess/label.h"
#include "postprocess/scale.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace interpile::postprocess;

namespace {

using Triple = std::array<double, 3>;

double linear(double c) {
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

Triple linear(const Color& color) {
    return {linear(color.red), linear(color.green), linear(color.blue)};
}

/// CIELAB of linear sRGB, white D65. From memory of IEC 61966-2-1 (matrix) and CIE 15 (formulas).
Triple lab(const Triple& c) {
    const double x = (0.4124 * c[0] + 0.3576 * c[1] + 0.1805 * c[2]) / 0.9505;
    const double y = 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
    const double z = (0.0193 * c[0] + 0.1192 * c[1] + 0.9505 * c[2]) / 1.0890;
    const auto f = [](double t) { return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116; };
    return {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
}

double distance(const Triple& a, const Triple& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// Red-green blindness as a projection of linear RGB: from memory of Vienot, Brettel & Mollon (1999), Color
/// Research and Application 24(4), matrices for protanopia and deuteranopia.
Triple protan(const Triple& c) {
    const double rg = 0.11238 * c[0] + 0.88762 * c[1];
    return {rg, rg, std::max(0.0, 0.00401 * c[0] - 0.00401 * c[1] + c[2])};
}
Triple deutan(const Triple& c) {
    const double rg = 0.29275 * c[0] + 0.70725 * c[1];
    return {rg, rg, std::max(0.0, -0.02234 * c[0] + 0.02234 * c[1] + c[2])};
}

} // namespace

TEST_CASE("colors get evenly darker and stay apart for every eye", "[color]") {
    constexpr int steps = 10;
    double least = 1e9, most = 0;
    for (int k = 0; k < steps; ++k) {
        const auto a = linear(band_color(k, steps + 1)), b = linear(band_color(k + 1, steps + 1));
        const double darker = lab(a)[0] - lab(b)[0]; // what a gray print keeps
        CHECK(darker > 5);
        CHECK(darker < 9);
        CHECK(distance(lab(protan(a)), lab(protan(b))) > 5);
        CHECK(distance(lab(deutan(a)), lab(deutan(b))) > 5);
        least = std::min(least, distance(lab(a), lab(b)));
        most = std::max(most, distance(lab(a), lab(b)));
    }
    CHECK(most / least < 1.5); // perceptually even
}

TEST_CASE("colors stay inside the screen's range", "[color]") {
    for (int k = 0; k <= 100; ++k) {
        const auto color = magnitude_color(k / 100.0);
        for (double part : {color.red, color.green, color.blue}) {
            CHECK(part > 0.01); // a clipped channel would be exactly 0 or 1
            CHECK(part < 0.99);
        }
    }
}

TEST_CASE("ticks are round and inside", "[scale]") {
    const auto ticks = round_ticks(-2.6, 5.9, 8);
    CHECK(ticks.value == std::vector<double>{-2, 0, 2, 4});
    CHECK(ticks.decimals == 0);
    const auto fine = round_ticks(0, 0.1, 5);
    REQUIRE(fine.value.size() == 6);
    CHECK(fine.value[1] == Approx(0.02));
    CHECK(fine.decimals == 2);
    CHECK(round_ticks(1e-4, 9e-4, 10).decimals == 4);
}

TEST_CASE("a few extreme cells do not flatten the bands", "[scale]") {
    Eigen::ArrayXd value = Eigen::ArrayXd::LinSpaced(1000, 35, 80), weight = Eigen::ArrayXd::Ones(1000);
    value[0] = -5000;
    value[999] = 1e5;
    const auto scale = band_scale(value, weight);
    CHECK(scale.level.front() == Approx(35));
    CHECK(scale.level.back() == Approx(80));
    CHECK(scale.band_count() >= 8); // six to ten and two open ends
    CHECK(scale.band_count() <= 12);
    CHECK(scale.open_low);
    CHECK(scale.open_high);
    CHECK(scale.band(-5000) == 0);
    CHECK(scale.band(1e5) == scale.band_count() - 1);
    CHECK(scale.band(36) == 1);
}

TEST_CASE("a uniform field is one band", "[scale]") {
    for (double constant : {35.0, 0.0, -0.8}) {
        const Eigen::ArrayXd value = Eigen::ArrayXd::Constant(10, constant);
        const auto scale = band_scale(value, Eigen::ArrayXd::Ones(10));
        CHECK(scale.level.front() <= constant);
        CHECK(scale.level.back() >= constant);
        CHECK_FALSE(scale.open_low);
        CHECK_FALSE(scale.open_high);
    }
    CHECK_THROWS_AS(band_scale(Eigen::ArrayXd::Constant(3, NAN), Eigen::ArrayXd::Ones(3)),
                    std::invalid_argument);
}

TEST_CASE("symbols become subscripts and primes, titles stay as they are", "[label]") {
    using Script = Run::Script;
    CHECK(symbol("D_r") == Label{{"D", Script::Italic}, {"r", Script::Subscript}});
    CHECK(symbol("σ_h1'") ==
          Label{{"σ", Script::Italic}, {"\u2032", Script::Prime}, {"h1", Script::Subscript}});
    CHECK(symbol("p'") == Label{{"p", Script::Italic}, {"\u2032", Script::Prime}});
    CHECK(symbol("γ") == Label{{"γ", Script::Italic}});
    CHECK(symbol("").empty());
    CHECK(sentence("F_L = 1") ==
          Label{{"F", Script::Italic}, {"L", Script::Subscript}, {" = 1", Script::Upright}});
    CHECK(sentence("area_s of yard_F_L") == plain("area_s of yard_F_L")); // names of files stay
    CHECK(plain("fine_sand") == Label{{"fine_sand", Script::Upright}});
    CHECK(number(-1.25, 1) == "\u22121.2");
    CHECK(number(-0.001, 1) == "0.0");
    CHECK(rounded(66.84) == "66.8");
    CHECK(rounded(2345.6) == "2346");
    CHECK(rounded(0) == "0");
}
