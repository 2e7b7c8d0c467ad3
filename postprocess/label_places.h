#pragma once
// Places for words beside marks of a plan, so that they cover little.

#include "postprocess/canvas.h"

#include <optional>

namespace interpile::postprocess {

/// Upright rectangle on the page [pt].
struct PageBox {
    Vec2 low = {0, 0}, high = {0, 0};

    Vec2 nearest(const Vec2& point) const { return point.cwiseMax(low).cwiseMin(high); }
};

double overlap_area(const PageBox& a, const PageBox& b);

/// Gives places one by one; each place given, and the line that leads to it, counts as taken for the next.
class LabelPlaces {
public:
    /// \param frame  no word reaches beyond it
    /// \param marks  what words should leave visible
    LabelPlaces(const PageBox& frame, std::vector<PageBox> marks) : frame_(frame), marks_(std::move(marks)) {}

    /// The least covered place around a circle, the nearest among equals; none where words would lie over each other or
    /// hide marks.
    std::optional<PageBox> place(const Vec2& center_pt, double radius_pt, const Vec2& size_pt);

private:
    PageBox frame_;
    std::vector<PageBox> marks_, taken_;
};

/// From the rim of a circle to the nearest point of a box.
Polyline leading_line(const Vec2& center_pt, double radius_pt, const PageBox& box);

} // namespace interpile::postprocess
