#pragma once
// The piece of ground that is computed: its extent in plan and what happens at its sides.

#include <Eigen/Core>

#include <array>

namespace interpile::mesh {

using Vec2 = Eigen::Vector2d; ///< x, y [m]

/// What holds a side of the domain. RigidSmooth and Symmetry act alike on the ground (no normal movement, no
/// shear); they differ in meaning: a pile centered on a symmetry line is a full pile of which a part is
/// computed.
enum class BoundaryKind { RigidSmooth, Symmetry, ConstantStress };

enum class DomainShape { Rectangle, Round };

/// The four sides of a rectangle, in the order of Domain::side.
enum Side : int { West = 0, East = 1, South = 2, North = 3 };

/// Extent in plan. A Round domain is the disc of radius high.x() about the origin, or its quarter x, y >= 0
/// when low is the origin; West and South are then the two straight edges (Symmetry) and East and North the
/// arc.
struct Domain {
    DomainShape shape = DomainShape::Rectangle;
    Vec2 low = {0, 0};  ///< [m]
    Vec2 high = {0, 0}; ///< [m]
    std::array<BoundaryKind, 4> side = {BoundaryKind::RigidSmooth, BoundaryKind::RigidSmooth,
                                        BoundaryKind::RigidSmooth, BoundaryKind::RigidSmooth};

    /// Area in plan [m2]; for a Round domain that of the exact disc or quarter disc.
    double area_m2() const;

    /// Share (1, 1/2, 1/4) of a small disc centered at p that lies inside: a pile on a symmetry line counts
    /// half. Points further outside than a rounding error give 0.
    double inside_share(const Vec2& p) const;
};

} // namespace interpile::mesh
