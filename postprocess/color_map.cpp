#include "postprocess/color_map.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::postprocess {

namespace {

/// sRGB transfer function, IEC 61966-2-1.
double encoded(double linear) {
    linear = std::clamp(linear, 0.0, 1.0);
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

/// OKLab lightness, chroma and hue to sRGB; matrices from memory of Ottosson (2020), "A perceptual color
/// space for image processing".
Color from_oklch(double L, double C, double hue_deg) {
    const double h = hue_deg * std::numbers::pi / 180;
    const double a = C * std::cos(h), b = C * std::sin(h);
    const double l = std::pow(L + 0.3963377774 * a + 0.2158037573 * b, 3);
    const double m = std::pow(L - 0.1055613458 * a - 0.0638541728 * b, 3);
    const double s = std::pow(L - 0.0894841775 * a - 1.2914855480 * b, 3);
    return {encoded(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
            encoded(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
            encoded(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)};
}

} // namespace

Color magnitude_color(double share) {
    const double t = std::clamp(share, 0.0, 1.0);
    const double L = 0.965 - 0.605 * t;                                         // even steps of lightness
    const double C = 0.055 + 0.025 * std::sin(std::numbers::pi * t) + 0.03 * t; // inside sRGB all along
    const double hue_deg = 108 + 160 * t;                                       // yellow, green, teal, blue
    return from_oklch(L, C, hue_deg);
}

Color band_color(int band, int count) {
    return magnitude_color(count > 1 ? static_cast<double>(band) / (count - 1) : 0.5);
}

Color difference_color(double share) {
    const double t = std::clamp(share, -1.0, 1.0), size = std::abs(t);
    const double L = 0.975 - 0.55 * size;
    const double C =
        0.10 * std::sin(0.5 * std::numbers::pi * std::min(1.0, 1.25 * size)); // inside sRGB all along
    return from_oklch(L, C, t > 0 ? 252 : 55);
}

Color band_color(const BandScale& scale, int band) {
    if (!scale.about_zero)
        return band_color(band, scale.band_count());
    const int half = static_cast<int>(scale.level.size()) / 2; // closed bands to each side and an open end
    const int steps = band - scale.open_low - (half - 1);
    return difference_color(static_cast<double>(steps) / half);
}

} // namespace interpile::postprocess
