#include "postprocess/color_bar.h"

#include "postprocess/color_map.h"
#include "postprocess/page.h"

namespace interpile::postprocess {

namespace {

constexpr double bar_width_pt = 12;
constexpr double point_pt = 9;    // height of a pointed end
constexpr double title_pt = 16;   // height of the title
constexpr double extreme_pt = 10; // room for the number at a pointed end

} // namespace

void draw_color_bar(Canvas& canvas, const BandScale& scale, const Vec2& upper_left_pt, double height_pt,
                    const Label& title) {
    canvas.text(title, upper_left_pt + Vec2(0, 7), {8, Align::Left, ink});
    const double left = upper_left_pt.x(), right = left + bar_width_pt, middle = 0.5 * (left + right);
    const double top = upper_left_pt.y() + title_pt + (scale.open_high ? point_pt + extreme_pt : 0);
    const double bottom = upper_left_pt.y() + height_pt - (scale.open_low ? point_pt + extreme_pt : 0);
    const int closed = static_cast<int>(scale.level.size()) - 1;
    const auto y = [&](std::size_t level) {
        return bottom - (bottom - top) * static_cast<double>(level) / closed;
    };
    const Pen edge{0.5, ink, {}};
    const TextStyle extreme{5.5, Align::Center, soft_ink};

    int band = 0;
    if (scale.open_low) {
        const Polyline point = {{left, bottom}, {right, bottom}, {middle, bottom + point_pt}};
        canvas.fill({point}, band_color(scale, band++));
        canvas.stroke(point, edge, true);
        canvas.text(plain("min " + rounded(scale.least)), {middle, bottom + point_pt + 7.5}, extreme);
    }
    for (int k = 0; k < closed; ++k) {
        const Polyline box = {{left, y(k)}, {right, y(k)}, {right, y(k + 1)}, {left, y(k + 1)}};
        canvas.fill({box}, band_color(scale, band++));
    }
    if (scale.open_high) {
        const Polyline point = {{left, top}, {right, top}, {middle, top - point_pt}};
        canvas.fill({point}, band_color(scale, band));
        canvas.stroke(point, edge, true);
        canvas.text(plain("max " + rounded(scale.most)), {middle, top - point_pt - 3}, extreme);
    }
    canvas.stroke({{left, top}, {right, top}, {right, bottom}, {left, bottom}}, edge, true);
    for (int k = 0; k <= closed; ++k) {
        canvas.stroke({{left, y(k)}, {right + 2, y(k)}}, {0.35, ink, {}});
        if (scale.name.empty())
            canvas.text(plain(number(scale.level[k], scale.decimals)), {right + 4, y(k) + 2.4},
                        {6.5, Align::Left, ink});
    }
    for (std::size_t k = 0; k < scale.name.size(); ++k)
        canvas.text(plain(scale.name[k]), {right + 4, 0.5 * (y(k) + y(k + 1)) + 2.4},
                    {6.5, Align::Left, ink});
}

} // namespace interpile::postprocess
