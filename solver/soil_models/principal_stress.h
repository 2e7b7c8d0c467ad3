#pragma once
// Principal stresses of a slice: two in plan, the third vertical (no shear on the slice).

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace interpile::solver {

/// Stress of one cell, compression positive [kPa].
struct PlaneStress {
    double xx, yy, zz, xy;
};

/// Sorted principal stresses s[0] >= s[1] >= s[2], and the way back to x, y, z. Fixed-size, no allocation.
class PrincipalStress {
public:
    explicit PrincipalStress(const PlaneStress& t) {
        const double half_difference = 0.5 * (t.xx - t.yy);
        const double radius = std::sqrt(half_difference * half_difference + t.xy * t.xy);
        const double center = 0.5 * (t.xx + t.yy);
        cos_2 = radius > 0 ? half_difference / radius : 1;
        sin_2 = radius > 0 ? t.xy / radius : 0;
        s = {center + radius, center - radius, t.zz};
        // In plan the major comes before the minor; only the vertical has to find its place.
        if (s[2] > s[1]) {
            std::swap(s[1], s[2]);
            vertical = 1;
            if (s[1] > s[0]) {
                std::swap(s[0], s[1]);
                vertical = 0;
            }
        }
    }

    /// Stress in x, y, z for new principal values in the same directions and the same order.
    PlaneStress restore(const std::array<double, 3>& values) const {
        const double major = values[vertical == 0 ? 1 : 0];
        const double minor = values[vertical == 2 ? 1 : 2];
        const double center = 0.5 * (major + minor), radius = 0.5 * (major - minor);
        return {center + radius * cos_2, center - radius * cos_2, values[vertical], radius * sin_2};
    }

    std::array<double, 3> s;

private:
    double cos_2, sin_2; ///< of twice the angle from x to the major direction in plan
    int vertical = 2;    ///< place of the vertical stress among the three
};

} // namespace interpile::solver
