#pragma once
// Where the piles stand and in which order they are driven.

#include "mesh/domain.h"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace interpile::mesh {

enum class Pattern { Square, Triangular, Rectangular, Listed };

/// RowByRow      each row from its first pile, rows in turn
/// Alternating   row by row, every second row backwards (the rig turns at the end of a row)
/// FromSide      whole rows, beginning with the one nearest the side `from` (a structure to be protected)
/// FromMiddle    by distance from the middle of the group, nearest first
/// Together      all at the same time (a symmetric cell, or a test)
/// Listed        the numbers given by the user
enum class OrderKind { RowByRow, Alternating, FromSide, FromMiddle, Together, Listed };

/// How much of the cell of an endless pattern is computed: all of it or its quarter x, y >= the pile.
enum class CellPart { Whole, Quarter };

/// The user's description of a layout. Angles counterclockwise from x.
struct LayoutSettings {
    Pattern pattern = Pattern::Square;
    double spacing_m = 0;       ///< center to center within a row
    double row_spacing_m = 0;   ///< Rectangular only; Square: spacing, Triangular: spacing sqrt(3)/2
    int rows = 1;               ///< along y before rotation
    int columns = 1;            ///< along x before rotation
    Vec2 origin_m = {0, 0};     ///< center of the first pile (row 1, column 1)
    double angle_deg = 0;       ///< rotation of the pattern about the origin
    std::vector<Vec2> listed_m; ///< Listed only
    /// The piles are those of a cell of the endless pattern (mesh/pattern_cell.h); empty: they stand alone.
    std::optional<CellPart> cell = {};
};

struct OrderSettings {
    OrderKind kind = OrderKind::RowByRow;
    Side from = West;        ///< FromSide only
    std::vector<int> listed; ///< Listed only: pile numbers 1..n, each once
};

/// Centers in the order of their numbers 1..n (row by row; of a triangular cell the middle, then the corners).
/// \throws std::invalid_argument  if a cell is asked for that does not exist
std::vector<Vec2> pile_centers(const LayoutSettings& layout);

/// Order of work: groups of pile indices 0..n-1; the piles of one group are driven together.
/// In a triangular cell the corners stand for the rows beside that of the middle pile, so RowByRow is the middle, then
/// all corners together.
/// \throws std::invalid_argument if a listed order does not name every pile exactly once; a triangular cell and another
/// order than RowByRow and Together
std::vector<std::vector<int>> installation_order(const std::vector<Vec2>& centers,
                                                 const LayoutSettings& layout, const OrderSettings& order);

/// Plan area that one pile of the pattern serves [m2]: s^2, s^2 sqrt(3)/2, s t. Empty for Listed.
std::optional<double> tributary_area_m2(const LayoutSettings& layout);

/// Area replacement ratio a_s = (pi d^2/4) / tributary area [-]. Empty for Listed.
/// Source: common practice; square a_s = pi d^2/(4 s^2), triangle a_s = pi d^2/(2 sqrt(3) s^2).
std::optional<double> area_replacement_ratio(const LayoutSettings& layout, double diameter_m);

/// Area of the piles inside a domain over its area [-]; a pile on a side of symmetry counts with its part inside.
double area_replacement_ratio_in(const Domain& domain, const std::vector<Vec2>& centers, double diameter_m);

/// Smallest center to center distance [m]; infinity for fewer than two piles.
double smallest_distance_m(const std::vector<Vec2>& centers);

} // namespace interpile::mesh
