#include "mesh/domain.h"

#include <cmath>
#include <numbers>

namespace interpile::mesh {

double Domain::area_m2() const {
    if (shape == DomainShape::Rectangle)
        return (high - low).prod();
    const double disc = std::numbers::pi * high.x() * high.x();
    return low.x() < 0 ? disc : disc / 4;
}

double Domain::inside_share(const Vec2& p) const {
    const double tolerance = 1e-9 * (high - low).norm();
    if (shape == DomainShape::Round) {
        if (p.norm() > high.x())
            return 0;
        if (low.x() < 0)
            return 1;
        if (p.x() < -tolerance || p.y() < -tolerance)
            return 0;
        return (p.x() < tolerance ? 0.5 : 1.0) * (p.y() < tolerance ? 0.5 : 1.0);
    }
    double share = 1;
    for (int axis = 0; axis < 2; ++axis) {
        if (p[axis] < low[axis] - tolerance || p[axis] > high[axis] + tolerance)
            return 0;
        if (p[axis] < low[axis] + tolerance || p[axis] > high[axis] - tolerance)
            share /= 2;
    }
    return share;
}

} // namespace interpile::mesh
