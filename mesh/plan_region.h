#pragma once
// A rectangle or circle in plan.

#include "mesh/domain.h"

namespace interpile::mesh {

struct PlanRegion {
    enum class Shape { Rectangle, Circle };
    Shape shape = Shape::Rectangle;
    Vec2 low = {0, 0};  ///< of the rectangle, or of the square around the circle [m]
    Vec2 high = {0, 0}; ///< [m]

    static PlanRegion circle(const Vec2& center, double radius_m) {
        const Vec2 radius = Vec2::Constant(radius_m);
        return {Shape::Circle, center - radius, center + radius};
    }

    /// The border belongs to it.
    bool contains(const Vec2& p) const {
        if (shape == Shape::Circle)
            return (p - 0.5 * (low + high)).norm() <= 0.5 * (high.x() - low.x());
        return (p.array() >= low.array()).all() && (p.array() <= high.array()).all();
    }
};

} // namespace interpile::mesh
