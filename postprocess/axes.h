#pragma once
// Where data coordinates lie on the page, and the frame with ticks around them.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// A rectangle of the page and the range of values it shows.
struct Axes {
    /// Values at the lower left and upper right corner; low.y > high.y for an axis downward (depth).
    Vec2 low = {0, 0}, high = {1, 1};
    Vec2 upper_left_pt = {0, 0}, size_pt = {100, 100}; ///< on the page
    bool log_x = false; ///< x values are logarithms to the base 10; ticks say the numbers themselves

    Vec2 to_page(const Vec2& value) const;
    Polyline line_to_page(const std::vector<Vec2>& values) const;
    double pt_per_unit_x() const { return size_pt.x() / (high.x() - low.x()); }
    Vec2 lower_right_pt() const { return upper_left_pt + size_pt; }
};

/// Axes with the same scale in x and y, as large as fits into the given size.
Axes equal_scale_axes(const Vec2& low, const Vec2& high, const Vec2& upper_left_pt, const Vec2& largest_pt);

/// Which sides carry ticks; a neighbor that shares the range may carry the numbers.
struct AxesMarks {
    bool x_ticks = true;
    bool y_numbers = true;
};

/// Frame, ticks with numbers and axis titles; drawn last so that it lies over the data.
void draw_axes(Canvas& canvas, const Axes& axes, const Label& x_title, const Label& y_title,
               const AxesMarks& marks = {});

/// Where draw_axes sets ticks on the y axis.
std::vector<double> y_tick_values(const Axes& axes);

/// Height below the axes and width left of them that numbers and titles take [pt].
constexpr double axis_height_pt = 25;
constexpr double axis_width_pt = 36;

} // namespace interpile::postprocess
