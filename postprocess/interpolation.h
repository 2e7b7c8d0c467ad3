#pragma once
// Values between cell middles.

#include "mesh/grid.h"

#include <array>
#include <optional>
#include <vector>

namespace interpile::postprocess {

/// Bilinear interpolation between the middles of the cells of a structured grid, at its current place. In the
/// outer half of the outermost cells it continues linearly. Exact for fields linear in x and y.
class CellInterpolation {
public:
    explicit CellInterpolation(const mesh::Grid& grid);

    struct Weights {
        std::array<int, 4> cell = {0, 0, 0, 0};
        std::array<double, 4> weight = {0, 0, 0, 0}; ///< sum 1
        double apply(const Eigen::ArrayXd& values) const;
    };
    /// Empty outside the grid.
    std::optional<Weights> at(const mesh::Vec2& point) const;

private:
    std::optional<int> cell_with(const mesh::Vec2& point) const;
    bool contains(int cell, const mesh::Vec2& point) const;

    mesh::Grid grid_;
    Eigen::Matrix2Xd middle_m_;
    mutable int last_cell_ = 0; ///< neighbors in a line of points are neighbors in the grid
};

} // namespace interpile::postprocess
