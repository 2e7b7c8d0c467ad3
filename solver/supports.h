#pragma once
// Degrees of freedom: which way each node may move.

#include "mesh/grid.h"

#include <Eigen/Core>

#include <vector>

namespace interpile::solver {

/// Unknown displacements. A free node has two (x and y); a node on a rigid smooth or symmetry side has one,
/// along the side; a node in the corner of two such sides has none. On the rim of a round domain the
/// direction is the tangent at the initial position.
class Supports {
public:
    Supports(const mesh::Grid& grid, const mesh::Domain& domain);

    struct Freedom {
        int node;
        Eigen::Vector2d direction;
    };
    int count() const { return static_cast<int>(freedoms_.size()); }
    const std::vector<Freedom>& freedoms() const { return freedoms_; }
    /// Index of the first freedom of a node; those of node n are first(n) .. first(n+1)-1.
    int first(int node) const { return first_[node]; }

    /// 2 x nodes displacement from the unknowns.
    void expand(const Eigen::VectorXd& unknowns, Eigen::Matrix2Xd& displacement) const;
    /// Components of nodal vectors along the freedoms.
    void project(const Eigen::Matrix2Xd& nodal, Eigen::Ref<Eigen::VectorXd> components) const;

private:
    std::vector<Freedom> freedoms_;
    std::vector<int> first_;
};

} // namespace interpile::solver
