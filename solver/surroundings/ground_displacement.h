#pragma once
// How far piles push the ground around them, if it keeps its volume: an upper bound in sand.

#include "mesh/domain.h"

#include <vector>

namespace interpile::solver {

using mesh::Vec2;

/// A round body that took the place of ground. 0 <= top < bottom, radius > 0.
struct PileBody {
    double radius_m = 0;
    double top_depth_m = 0;    ///< below the surface
    double bottom_depth_m = 0; ///< below the surface
};

/// Displacement of the surface beside one pile.
struct SurfaceDisplacement {
    double outward_m = 0; ///< away from the pile
    double heave_m = 0;   ///< upward
};

/// Displacement of the surface beside a group.
struct GroupDisplacement {
    Vec2 shift_m = {0, 0}; ///< in plan: vector sum of what the piles push outward
    double heave_m = 0;    ///< upward
};

/// Surface of an incompressible half-space with a line of sources from top to bottom of the body.
/// For a line from the surface to depth L:
///   outward R^2 L / (2 r sqrt(r^2 + L^2)),  heave (R^2/2) (1/r - 1/sqrt(r^2 + L^2)).
/// The volume of the heave is the volume of the body. Small displacements: meant for r of several R.
/// Source: from memory of Sagaseta & Whittle (2001), point source with image; integrated over the depth here.
/// \param distance_m  from the axis of the pile, >= radius
/// \throws std::invalid_argument  a number out of range
SurfaceDisplacement surface_displacement(double distance_m, const PileBody& body);

/// Outward displacement [m] far below the surface and above the tip: plane strain without change of area,
/// sqrt(r^2 + R^2) - r, large displacements included.
/// Source: derived; the ring between r and r + u keeps the area pi R^2.
/// \param distance_m  of the ground from the axis before the pile was made, >= 0
/// \param radius_m    of the pile, > 0
/// \throws std::invalid_argument  a number out of range
double deep_displacement_m(double distance_m, double radius_m);

/// Sum over equal piles, times the share of their volume that does not densify the ground.
/// Source: superposition; factor 1 - efficiency common practice, no source (sand: efficiency 0.5 .. 0.9). One factor
/// for outward and upward is a simplification of our own; order of work and earlier piles are left out.
/// \param at_m        place at the surface, at least one radius from every axis
/// \param centers_m   axes of the piles
/// \param efficiency  0 (upper bound: no densification) .. 1 (nothing is pushed out)
/// \throws std::invalid_argument  a number out of range, or a place inside a pile
GroupDisplacement group_displacement(const Vec2& at_m, const std::vector<Vec2>& centers_m,
                                     const PileBody& body, double efficiency);

} // namespace interpile::solver
