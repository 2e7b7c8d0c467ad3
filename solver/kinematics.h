#pragma once
// Motion of one quadrilateral from its diagonals: rotation and logarithmic stretch.

#include <cmath>

namespace interpile::solver {

/// The diagonals 1-3 and 2-4 of a cell [m]. The contour-integral gradient of a quadrilateral (from memory of
/// Wilkins 1964, Methods in Computational Physics 3) depends on the nodes through them alone.
struct Diagonals {
    double ax, ay, bx, by;
    double twice_area() const { return ax * by - ay * bx; }
};

/// Rotation, logarithmic strain of the left stretch (lengthening positive) and log area ratio of an
/// increment.
struct CellStretch {
    double cos_r, sin_r;
    double xx, yy, xy;
};

/// Polar decomposition f = v r of f = [a b] [a_n b_n]^-1, closed in two dimensions. det f is the area ratio
/// exactly, so the sum of the strains over a path gives the area exactly. \return strains not a number if a
/// cell has turned inside out
inline CellStretch stretch(const Diagonals& now, const Diagonals& start) {
    const double inverse = 1 / start.twice_area();
    const double fxx = (now.ax * start.by - now.bx * start.ay) * inverse;
    const double fxy = (now.bx * start.ax - now.ax * start.bx) * inverse;
    const double fyx = (now.ay * start.by - now.by * start.ay) * inverse;
    const double fyy = (now.by * start.ax - now.ay * start.bx) * inverse;

    const double c = fxx + fyy, s = fyx - fxy;
    const double scale = 1 / std::sqrt(c * c + s * s);

    // ln v = ln(b)/2 with b = f f^T: eigenvalues m +- d, so ln b = ln det(f) I + atanh(d/m)/d dev(b).
    const double bxx = fxx * fxx + fxy * fxy, byy = fyx * fyx + fyy * fyy, bxy = fxx * fyx + fxy * fyy;
    const double m = 0.5 * (bxx + byy), half = 0.5 * (bxx - byy);
    const double ratio2 = (half * half + bxy * bxy) / (m * m);
    double factor = 1; // atanh(x)/x, x = d/m
    if (ratio2 < 0.01)
        factor +=
            ratio2 *
            (1. / 3 +
             ratio2 * (1. / 5 + ratio2 * (1. / 7 + ratio2 * (1. / 9 + ratio2 * (1. / 11 + ratio2 / 13)))));
    else {
        const double x = std::sqrt(ratio2);
        factor = std::atanh(x) / x;
    }
    const double log_area = std::log(fxx * fyy - fxy * fyx);
    const double deviator = 0.5 * factor / m;
    return {c * scale, s * scale, 0.5 * log_area + deviator * half, 0.5 * log_area - deviator * half,
            deviator * bxy};
}

} // namespace interpile::solver
