#pragma once
// Named arrays of results and the table that tells what each name means.

#include <Eigen/Core>

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace interpile::mesh {

/// One value per cell (or node, or step) under a name of field_table().
using Fields = std::map<std::string, Eigen::ArrayXd>;

/// What a name means wherever it appears: HDF5 attributes, axis labels, VTK arrays, CSV heads.
struct FieldInfo {
    std::string_view name;      ///< dataset name, e.g. "relative_density_pct"
    std::string_view symbol;    ///< UTF-8, e.g. "D_r", sigma as the Greek letter, prime for effective
    std::string_view unit;      ///< "%", "kPa", "m", "-", "deg"
    std::string_view long_name; ///< label in words, without unit
    std::string_view sign;      ///< which way is positive, or "" where it cannot be negative
};

/// All cell fields that a run records, in a fixed order.
const std::vector<FieldInfo>& field_table();

/// \throws std::out_of_range naming the field if it is not in the table
const FieldInfo& field_info(std::string_view name);

} // namespace interpile::mesh
