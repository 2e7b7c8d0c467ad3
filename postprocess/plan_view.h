#pragma once
// What of a field a plan shows, and on which scale of colors.

#include "io/results_reader.h"
#include "postprocess/label.h"
#include "postprocess/scale.h"

#include <string>
#include <vector>

namespace interpile::postprocess {

/// A rectangle of the ground [m].
struct PlanView {
    mesh::Vec2 low = {0, 0}, high = {0, 0};
    bool contains(const mesh::Vec2& at) const {
        return (at.array() >= low.array()).all() && (at.array() <= high.array()).all();
    }
};

/// The piles and a margin of ground around them, as far as there is ground.
/// \param margin_m  negative: 1.5 spacings, 4 diameters around one pile
PlanView visible_part(const io::ResultsHeader& header, const mesh::Grid& grid, double margin_m = -1);

/// Fields of the pore water, on which the nearly liquefied ground is shown.
bool is_excess_pressure(const std::string& field);

/// States and directions have no values in between.
bool is_stepwise(const std::string& field);

/// What is left of a pressure after a long rest is not worth a scale of its own (own choice).
double least_range(const std::string& field);

/// Values in the visible ground and the areas they stand for.
struct ShownValues {
    std::vector<double> value, area_m2;

    void add(const ShownValues& others);
};

/// Of a smoothed field at the nodes with ground all around, so that the ends of a scale are those of the picture; else,
/// also on a grid so coarse that no node is clear of piles, those of the cells.
/// \param value  per cell  \param ground  which cells are ground
ShownValues shown_values(const std::string& field, const mesh::Grid& grid, const Eigen::ArrayXd& value,
                         const std::vector<bool>& ground, const PlanView& view);

/// Bands for the values of one plan, or of several that are to be compared.
/// \throws std::invalid_argument if there is no finite value
BandScale plan_scale(const std::string& field, const ShownValues& shown);

/// "D_r (%)", "K (–)".
Label symbol_with_unit(const mesh::FieldInfo& info);

/// "Relative density D_r".
Label name_with_symbol(const mesh::FieldInfo& info);

} // namespace interpile::postprocess
