#include "postprocess/soil_column.h"

#include "postprocess/hatch.h"
#include "postprocess/line_breaks.h"
#include "postprocess/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::postprocess {

namespace {

constexpr double name_size_pt = 6.5, name_line_pt = 7.2;
constexpr Color sand_color{0.98, 0.95, 0.86}, other_color{0.80, 0.80, 0.80};
const Pen hatch_pen{0.4, {0.45, 0.45, 0.45}};
const Pen layer_pen{0.5, ink};
constexpr Color water_blue{0.10, 0.32, 0.58};

/// Lines of a name inside its band; none where it does not fit.
std::vector<Label> name_lines(const ProfileBand& band, double pt_per_m) {
    const std::size_t letters = letters_within(soil_column_pt - 3, name_size_pt);
    const auto lines = worded_lines(own_words(band.name), letters);
    const bool narrow = std::all_of(lines.begin(), lines.end(),
                                    [&](const Label& line) { return length_of(line) <= letters; });
    const double height_pt = std::abs(band.bottom_m - band.top_m) * pt_per_m;
    if (!narrow || name_line_pt * static_cast<double>(lines.size()) > height_pt)
        return {};
    return lines;
}

void fill_ground(Canvas& canvas, const Vec2& low, const Vec2& high, bool sand) {
    canvas.fill({{low, {high.x(), low.y()}, high, {low.x(), high.y()}}}, sand ? sand_color : other_color);
    if (!sand)
        hatch_rectangle(canvas, low, high, 2.6, hatch_pen);
}

/// Triangle on its tip with a short line below, as on borehole logs; open for the earthquake.
void draw_water_mark(Canvas& canvas, const Vec2& tip, bool open) {
    const Polyline triangle = {tip, tip + Vec2(-3.4, -5.6), tip + Vec2(3.4, -5.6)};
    canvas.fill({triangle}, open ? Color{1, 1, 1} : water_blue);
    canvas.stroke(triangle, {0.7, water_blue}, true);
    canvas.stroke({tip + Vec2(-4, 0), tip + Vec2(4, 0)}, {0.8, water_blue});
    canvas.stroke({tip + Vec2(-2, 1.6), tip + Vec2(2, 1.6)}, {0.6, water_blue});
}

KeyEntry water_entry(const std::string& name, double depth_m, bool open) {
    return {fmt::format("{}, {:.2f} m {} ground", name, std::abs(depth_m), depth_m < 0 ? "above" : "below"),
            [open](Canvas& canvas, const Vec2& left) {
                draw_water_mark(canvas, left + Vec2(0.5 * key_symbol_pt, 2.4), open);
            }};
}

KeyEntry ground_entry(bool sand) {
    return {sand ? "sand" : "not sand", [sand](Canvas& canvas, const Vec2& left) {
                const Vec2 low = left + Vec2(2, -3.4), high = left + Vec2(key_symbol_pt - 2, 3.4);
                fill_ground(canvas, low, high, sand);
                canvas.stroke({low, {high.x(), low.y()}, high, {low.x(), high.y()}}, layer_pen, true);
            }};
}

} // namespace

void draw_soil_column(Canvas& canvas, const ProfileFigure& figure, const Axes& axes) {
    const double left = axes.upper_left_pt.x(), right = axes.lower_right_pt().x();
    const auto height = [&](double depth_m) { return axes.to_page({0, depth_m}).y(); };
    const double pt_per_m = height(1) - height(0);
    canvas.clipped(axes.upper_left_pt, axes.lower_right_pt(), [&] {
        for (const auto& band : figure.bands) {
            const Vec2 low(left, height(band.top_m)), high(right, height(band.bottom_m));
            fill_ground(canvas, low, high, band.sand);
            canvas.stroke({low, {right, low.y()}}, layer_pen);
            canvas.stroke({{left, high.y()}, high}, layer_pen);
            const auto lines = name_lines(band, pt_per_m);
            double base = 0.5 * (low.y() + high.y()) -
                          0.5 * name_line_pt * (static_cast<double>(lines.size()) - 1) + 2.3;
            TextStyle style{name_size_pt, Align::Center, ink};
            style.halo_pt = band.sand ? 0 : 1.2;
            for (const auto& line : lines) {
                canvas.text(line, {0.5 * (left + right), base}, style);
                base += name_line_pt;
            }
        }
    });
    // Side by side, so that equal levels do not cover each other.
    const double deepest = std::max(axes.low.y(), axes.high.y());
    if (figure.water_depth_m <= deepest)
        draw_water_mark(canvas, {right + 0.28 * water_marks_pt, height(figure.water_depth_m)}, false);
    if (figure.quake_water_depth_m <= deepest)
        draw_water_mark(canvas, {right + 0.74 * water_marks_pt, height(figure.quake_water_depth_m)}, true);
}

std::vector<KeyEntry> soil_column_key(const ProfileFigure& figure) {
    std::vector<KeyEntry> key = {water_entry("water level", figure.water_depth_m, false),
                                 water_entry("in the earthquake", figure.quake_water_depth_m, true)};
    for (const bool sand : {true, false})
        if (std::any_of(figure.bands.begin(), figure.bands.end(),
                        [&](const ProfileBand& band) { return band.sand == sand; }))
            key.push_back(ground_entry(sand));
    return key;
}

std::string unnamed_layers(const ProfileFigure& figure, double pt_per_m) {
    std::string text;
    for (const auto& band : figure.bands)
        if (!band.name.empty() && name_lines(band, pt_per_m).empty())
            text += fmt::format("{}{:.1f} to {:.1f} m {}", text.empty() ? "" : ", ", band.top_m,
                                band.bottom_m, band.name);
    return text;
}

} // namespace interpile::postprocess
