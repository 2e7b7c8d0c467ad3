#pragma once
// The layout as plain text.

#include "mesh/domain.h"

#include <string>
#include <vector>

namespace interpile::io {

/// A map with the number of every pile and, in brackets below it, its place in the order of work; y upward.
/// Where the piles would not fit on a page of 110 x 90 characters, a sentence instead.
/// \param centers  by
/// number [m]
/// \param order    groups of indices; the piles of a group share one place
std::string layout_map(const std::vector<mesh::Vec2>& centers, const std::vector<std::vector<int>>& order);

/// "1, 2, 4+5, 3": the groups in turn, the piles of a group joined; broken into lines.
std::string order_of_work(const std::vector<std::vector<int>>& order);

} // namespace interpile::io
