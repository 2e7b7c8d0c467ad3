#pragma once
// The ground between the piles, over which density and stress are judged, and the images of piles beyond its sides.

#include "mesh/domain.h"

#include <vector>

namespace interpile::mesh {

/// A convex polygon in plan, fixed in space.
class TreatedArea {
public:
    TreatedArea() = default;
    /// \param corners_m  counterclockwise; fewer than three: no treated area
    explicit TreatedArea(std::vector<Vec2> corners_m) : corners_(std::move(corners_m)) {}

    const std::vector<Vec2>& corners_m() const { return corners_; }
    bool empty() const { return corners_.size() < 3; }
    bool contains(const Vec2& point) const; ///< the border belongs to it
    double area_m2() const;

private:
    std::vector<Vec2> corners_;
};

/// A rigid smooth side acts on the ground like a line of symmetry. This near to a pile it is taken for the border of
/// the cell of a pattern, farther away for the end of the computed ground (own choice: a round cell of radius
/// 2.24 d has a replacement ratio of 0.05, the least in use).
constexpr double cell_side_in_diameters = 2.5;

/// Sides of a domain that act as lines of symmetry of the layout: symmetry sides, and rigid smooth ones near a pile.
/// Of a round domain only its straight edges.
std::array<bool, 4> mirror_sides(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m);

/// The layout is one pile in the middle of a round domain that is the cell of a pattern.
bool is_round_cell(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m);

/// The centers themselves, by number, then their images at the mirror sides; no two of them coincide.
std::vector<Vec2> centers_with_images(const std::vector<Vec2>& centers, const Domain& domain,
                                      double diameter_m);

/// Smallest distance between piles, images included [m]; of a round cell its diameter; infinity where there is no
/// neighbor.
double neighbor_distance_m(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m);

/// Convex hull of the centers and their images at mirror sides; what of it lies in the domain is the treated ground.
/// A round cell as a whole. Where the centers span no area (a row): the hull of squares about them, as wide as the
/// smallest spacing. Empty for one pile without neighbor or near side.
TreatedArea treated_area(const std::vector<Vec2>& centers, const Domain& domain, double diameter_m);

} // namespace interpile::mesh
