#pragma once
// The piece of an endless pattern between lines of symmetry, which stands for the whole of it.

#include "mesh/domain.h"
#include "mesh/pile_layout.h"

#include <string>
#include <vector>

namespace interpile::mesh {

/// Why a layout has no cell with sides of symmetry, and which of its settings is in the way.
struct CellObstacle {
    enum class Setting { Pattern, Angle, Count, Part };
    Setting setting;
    std::string why; ///< a sentence without point
};

/// All of them; none: the layout has a cell. It needs a repeating pattern with its rows along x. Lines of symmetry run
/// square, rectangular: half a spacing outside the outer piles, for any number of rows and columns;
/// triangular: along the rows through the piles and across them through piles and middles between piles, so that whole
/// piles alone never fill a cell; one pile and its neighbors do (rows and columns 1).
/// A quarter exists of one pile only.
std::vector<CellObstacle> cell_obstacles(const LayoutSettings& layout);

/// Extent of the cell of layout.cell; all sides are of symmetry:
/// square, rectangular: the tributary areas of all piles; Quarter: the part x, y >= the pile;
/// triangular: s by s sqrt(3) with one pile in the middle and a quarter pile in every corner; Quarter: the part x, y >=
/// the pile, s/2 by s sqrt(3)/2, with quarter piles in two opposite corners.
/// Its area replacement ratio is that of the pattern.
/// \throws std::invalid_argument  if there are obstacles or a spacing is not positive
Domain pattern_cell(const LayoutSettings& layout);

/// Piles of a triangular cell: the one in the middle, then the corners by rows.
/// \throws std::invalid_argument  as pattern_cell
std::vector<Vec2> triangular_cell_centers(const LayoutSettings& layout);

} // namespace interpile::mesh
