#include "solver/pore_flow.h"

#include "solver/momentum.h"
#include "solver/slice.h"

#include <algorithm>
#include <optional>

namespace interpile::solver {

namespace {

using mesh::Vec2;

Vec2 mirrored(const Vec2& point, const Vec2& from, const Vec2& to) {
    const Vec2 along = (to - from).normalized();
    const Vec2 foot = from + along * along.dot(point - from);
    return 2 * foot - point;
}

/// Middles of cells and what stands beyond the sides of the domain, places -1 .. count.
class Places {
public:
    explicit Places(const FlowGround& ground) : ground_(ground), grid_(ground.grid) {}

    int owner(int i, int j) const {
        return std::clamp(j, 0, grid_.cells_y - 1) * grid_.cells_x + std::clamp(i, 0, grid_.cells_x - 1);
    }
    std::optional<mesh::Side> side_x(int i) const {
        return i < 0               ? std::optional(mesh::West)
               : i < grid_.cells_x ? std::nullopt
                                   : std::optional(mesh::East);
    }
    std::optional<mesh::Side> side_y(int j) const {
        return j < 0               ? std::optional(mesh::South)
               : j < grid_.cells_y ? std::nullopt
                                   : std::optional(mesh::North);
    }
    bool open(std::optional<mesh::Side> side) const {
        return side && ground_.open_sides && ground_.domain.side[*side] != mesh::BoundaryKind::Symmetry;
    }
    /// The cell whose pressure stands at a place; -1: none.
    int cell(int i, int j) const { return open(side_x(i)) || open(side_y(j)) ? -1 : owner(i, j); }

    Vec2 place(int i, int j) const {
        const auto c = grid_.corners(owner(i, j));
        const auto x = side_x(i), y = side_y(j);
        if (open(x) && open(y)) // the corner of the domain
            return c[i < 0 ? (j < 0 ? 0 : 3) : (j < 0 ? 1 : 2)];
        Vec2 at = open(x) ? middle(c, *x) : open(y) ? middle(c, *y) : 0.25 * (c[0] + c[1] + c[2] + c[3]);
        for (const auto& side : {x, y})
            if (side && !open(side))
                at = mirrored(at, c[first(*side)], c[(first(*side) + 1) % 4]);
        return at;
    }
    /// Permeabilities of neighbors in series.
    double between(int a, int b) const {
        const auto& k = ground_.permeability_m_s;
        if (a == b)
            return k(a);
        const bool beside = std::abs(a - b) == 1;
        const auto corners = grid_.corners(std::min(a, b)), other = grid_.corners(std::max(a, b));
        const Vec2 face = middle(corners, beside ? mesh::East : mesh::North);
        const auto distance = [&](const std::array<Vec2, 4>& c) {
            return (0.25 * (c[0] + c[1] + c[2] + c[3]) - face).norm();
        };
        const double near = distance(corners), far = distance(other);
        return (near + far) / (near / k(std::min(a, b)) + far / k(std::max(a, b)));
    }

private:
    /// The first corner of a side, counterclockwise.
    static int first(mesh::Side side) {
        return side == mesh::South ? 0 : side == mesh::East ? 1 : side == mesh::North ? 2 : 3;
    }
    static Vec2 middle(const std::array<Vec2, 4>& c, mesh::Side side) {
        return 0.5 * (c[first(side)] + c[(first(side) + 1) % 4]);
    }
    const FlowGround& ground_;
    const mesh::Grid& grid_;
};

} // namespace

std::vector<FlowQuad> flow_quads(const FlowGround& ground) {
    const mesh::Grid& grid = ground.grid;
    const Places places(ground);
    std::vector<FlowQuad> quads;
    for (int j = 0; j <= grid.cells_y; ++j)
        for (int i = 0; i <= grid.cells_x; ++i) {
            const std::array<std::array<int, 2>, 4> at = {{{i - 1, j - 1}, {i, j - 1}, {i, j}, {i - 1, j}}};
            std::array<int, 4> owner;
            std::array<Vec2, 4> x;
            FlowQuad quad;
            double thickness = 0;
            for (int n = 0; n < 4; ++n) {
                owner[n] = places.owner(at[n][0], at[n][1]);
                quad.cell[n] = places.cell(at[n][0], at[n][1]);
                x[n] = places.place(at[n][0], at[n][1]);
                thickness += 0.25 * ground.thickness(owner[n]);
            }
            if (owner[0] == owner[2] && quad.cell[0] >= 0 && quad.cell[0] == quad.cell[2] &&
                quad.cell[1] == quad.cell[3])
                continue; // a corner between closed sides
            quad.node_x = i;
            quad.node_y = j;
            double part = thickness; // of mirrored quads one half is ground
            for (const auto side : {places.side_x(i == 0 ? -1 : i), places.side_y(j == 0 ? -1 : j)})
                if (side && !places.open(side))
                    part *= 0.5;

            const Vec2 a = 0.5 * (x[1] - x[0] + x[2] - x[3]), b = 0.5 * (x[3] - x[0] + x[2] - x[1]);
            const double area = a.x() * b.y() - a.y() * b.x();
            const double aa = b.squaredNorm() / area, bb = a.squaredNorm() / area, ab = -a.dot(b) / area;
            const double south = places.between(owner[0], owner[1]),
                         north = places.between(owner[3], owner[2]),
                         west = places.between(owner[0], owner[3]), east = places.between(owner[1], owner[2]);
            // Differences along a and b, and the mode that no linear pressure has.
            const Eigen::Vector4d along_a = 0.5 * Eigen::Vector4d(-1, 1, 1, -1),
                                  along_b = 0.5 * Eigen::Vector4d(-1, -1, 1, 1);
            const auto pattern = hourglass_pattern(x);
            const Eigen::Vector4d twice_mode = 2 * Eigen::Map<const Eigen::Vector4d>(pattern.data());
            const auto square = [](const Eigen::Vector4d& v) -> Eigen::Matrix4d { return v * v.transpose(); };
            // The least permeability where directions mix: the sum stays positive for every contrast.
            const double least = std::min({south, north, west, east});
            const Eigen::Matrix4d mixed = along_a * along_b.transpose();
            quad.conductance =
                part / gamma_w *
                (0.5 * aa * (south * square(along_a - twice_mode) + north * square(along_a + twice_mode)) +
                 0.5 * bb * (west * square(along_b - twice_mode) + east * square(along_b + twice_mode)) +
                 ab * least * (mixed + mixed.transpose()));
            const Eigen::RowVector4d flow_a =
                0.5 * (south + north) * aa * along_a.transpose() + least * ab * along_b.transpose();
            const Eigen::RowVector4d flow_b =
                0.5 * (west + east) * bb * along_b.transpose() + least * ab * along_a.transpose();
            quad.discharge = -(a * flow_a + b * flow_b) / (area * gamma_w);
            quads.push_back(quad);
        }
    return quads;
}

} // namespace interpile::solver
