#pragma once
// The straight line that runs through the centers of the most piles, and values of the ground along it.

#include "io/results_reader.h"

#include <string>
#include <vector>

namespace interpile::postprocess {

/// A line parallel to x or y, fixed in space.
struct PileLine {
    bool along_x = true;
    double at_m = 0;        ///< y of a line along x, x of a line along y
    std::vector<int> piles; ///< on it as planned, ascending along it

    mesh::Vec2 place(double along_m) const {
        return along_x ? mesh::Vec2(along_m, at_m) : mesh::Vec2(at_m, along_m);
    }
    double along(const mesh::Vec2& place) const { return along_x ? place.x() : place.y(); }
    double across(const mesh::Vec2& place) const { return along_x ? place.y() : place.x(); }
};

/// Through the center of a pile and of all others within a quarter of its diameter of the line. Most piles first; among
/// equals the line nearest the middle of the layout, then one along x.
/// \throws std::invalid_argument without piles
PileLine fullest_pile_line(const io::ResultsHeader& header);

/// A field of the ground at places of the line, as the contours of a plan show it; not a number outside the grid and in
/// cells with pile material.
/// \param along_m  places (n) [m]
/// \return values (n), in the unit of the field
/// \throws std::out_of_range if the stage has no such field
Eigen::ArrayXd ground_along(const PileLine& line, const io::ResultsHeader& header,
                            const io::ResultsStage& stage, const std::string& field,
                            const Eigen::ArrayXd& along_m);

/// The stretch of the line that the disc of a pile covers at a stage [m]; empty (from >= to) where it does not.
struct Stretch {
    double from_m = 0, to_m = 0;
};
Stretch covered_by(const PileLine& line, const io::ResultsStage& stage, int pile);

} // namespace interpile::postprocess
