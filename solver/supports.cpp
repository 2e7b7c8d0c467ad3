#include "solver/supports.h"

#include <cmath>

namespace interpile::solver {
namespace {

/// Normals of the held sides that meet at each node.
std::vector<std::vector<Eigen::Vector2d>> held_normals(const mesh::Grid& grid, const mesh::Domain& domain) {
    static const Eigen::Vector2d outward[] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
    std::vector<std::vector<Eigen::Vector2d>> normals(grid.node_count());
    const bool round = domain.shape == mesh::DomainShape::Round;
    const bool quarter = round && domain.low.x() == 0;
    for (int side = 0; side < 4; ++side) {
        if (domain.side[side] == mesh::BoundaryKind::ConstantStress)
            continue;
        const bool straight = !round || (quarter && (side == mesh::West || side == mesh::South));
        for (int node : grid.side_nodes(static_cast<mesh::Side>(side))) {
            const Eigen::Vector2d normal =
                straight ? outward[side] : Eigen::Vector2d(grid.node_m.col(node).normalized());
            bool known = false;
            for (const auto& other : normals[node])
                known = known || std::abs(other.dot(normal)) > 1 - 1e-9;
            if (!known)
                normals[node].push_back(normal);
        }
    }
    return normals;
}

} // namespace

Supports::Supports(const mesh::Grid& grid, const mesh::Domain& domain) {
    const auto normals = held_normals(grid, domain);
    for (int node = 0; node < grid.node_count(); ++node) {
        first_.push_back(count());
        if (normals[node].empty()) {
            freedoms_.push_back({node, {1, 0}});
            freedoms_.push_back({node, {0, 1}});
        } else if (normals[node].size() == 1) {
            const auto& n = normals[node].front();
            freedoms_.push_back({node, {-n.y(), n.x()}});
        }
    }
    first_.push_back(count());
}

void Supports::expand(const Eigen::VectorXd& unknowns, Eigen::Matrix2Xd& displacement) const {
    displacement.setZero();
    for (int k = 0; k < count(); ++k)
        displacement.col(freedoms_[k].node) += unknowns(k) * freedoms_[k].direction;
}

void Supports::project(const Eigen::Matrix2Xd& nodal, Eigen::Ref<Eigen::VectorXd> components) const {
    for (int k = 0; k < count(); ++k)
        components(k) = freedoms_[k].direction.dot(nodal.col(freedoms_[k].node));
}

} // namespace interpile::solver
