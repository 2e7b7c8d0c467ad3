#pragma once
// Plan of the piles before anything is computed.

#include "mesh/domain.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::postprocess {

struct LayoutDrawing {
    std::string title;
    std::vector<mesh::Vec2> centers_m; ///< by pile number, at least one
    std::vector<double> diameters_m;   ///< per pile
    std::vector<int> place_in_order; ///< per pile, 1..; piles driven together share a place; empty: not shown
    mesh::Domain domain;             ///< sides that lie near the piles are drawn
};

/// Piles to scale with their numbers, the order of work as a path of arrows with its places, spacing
/// dimensions, sides of the domain where near.
/// \param file  ending .pdf, .svg or .png
/// \throws io::FileTrouble
/// if the file cannot be written or has another ending; std::invalid_argument without piles or without a diameter of each
void draw_layout(const LayoutDrawing& layout, const std::filesystem::path& file);

} // namespace interpile::postprocess
