#pragma once
// Flow of pore water between cells: conductances of the four cells around each node.

#include "mesh/domain.h"
#include "mesh/grid.h"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace interpile::solver {

/// Where water flows. Cell sides at an open side of the domain have no excess pressure, other sides no flow.
struct FlowGround {
    const mesh::Domain& domain;
    const mesh::Grid& grid;
    bool open_sides;
    Eigen::ArrayXd permeability_m_s; ///< per cell
    Eigen::ArrayXd thickness;        ///< per cell, over the initial one
};

/// The four cells around a node, counterclockwise from the low one. Beyond a closed side stands the mirror image of the
/// cell before it, beyond an open one the middle of its side without pressure.
struct FlowQuad {
    std::array<int, 4> cell; ///< -1: no excess pressure
    int node_x, node_y;
    Eigen::Matrix4d conductance;           ///< outflow of each by the pressures of all [m3/(m s kPa)]
    Eigen::Matrix<double, 2, 4> discharge; ///< specific, at the node, by the pressures of all [m/(s kPa)]
};

/// Bilinear finite elements of one point between the middles of cells, with the mode the one point does not see. On equal
/// rectangles this is the flow between neighbors through permeabilities in series; a linear pressure flows exactly on
/// cells of any form, so that the error falls with the square of the cell size on distorted grids too. Two-point fluxes
/// do not converge there. The matrices are symmetric, not negative, and lose no water.
/// Source: one-point element with stabilization in the form of Flanagan & Belytschko (1981), IJNME 17, from memory; the
/// permeabilities in series are an own choice.
std::vector<FlowQuad> flow_quads(const FlowGround& ground);

} // namespace interpile::solver
