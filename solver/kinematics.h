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

/// Polar decomposition f = v r of f = I + [da db] [a_n b_n]^-1, closed in two dimensions. det f is the area ratio
/// exactly, so the sum of the strains over a path gives the area. The change of the diagonals enters, not their new
/// length: small increments of long thin cells keep their digits.
/// \param change  diagonals now minus diagonals at the start
/// \return strains not a number if the cell has turned inside out
inline CellStretch stretch(const Diagonals& change, const Diagonals& start) {
    const double inverse = 1 / start.twice_area();
    const double hxx = (change.ax * start.by - change.bx * start.ay) * inverse;
    const double hxy = (change.bx * start.ax - change.ax * start.bx) * inverse;
    const double hyx = (change.ay * start.by - change.by * start.ay) * inverse;
    const double hyy = (change.by * start.ax - change.ay * start.bx) * inverse;

    const double c = 2 + hxx + hyy, s = hyx - hxy;
    const double scale = 1 / std::sqrt(c * c + s * s);

    // ln v = ln(b)/2 with b = f f^T: eigenvalues m +- d, so ln b = ln det(f) I + atanh(d/m)/d dev(b).
    const double bxx = 2 * hxx + hxx * hxx + hxy * hxy; // of b - I
    const double byy = 2 * hyy + hyx * hyx + hyy * hyy;
    const double bxy = hxy + hyx + hxx * hyx + hxy * hyy;
    const double m = 1 + 0.5 * (bxx + byy), half = 0.5 * (bxx - byy);
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
    const double log_area = std::log1p(hxx + hyy + hxx * hyy - hxy * hyx);
    const double deviator = 0.5 * factor / m;
    return {c * scale, s * scale, 0.5 * log_area + deviator * half, 0.5 * log_area - deviator * half,
            deviator * bxy};
}

} // namespace interpile::solver
