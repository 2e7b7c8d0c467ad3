#pragma once
// Every dataset of a results file: path, axes, meaning. The writer declares the file from this table, the
// reader knows from it what one stage or one increment is made of.

#include "io/hdf5.h"

#include <algorithm>
#include <string>
#include <vector>

namespace interpile::io {

/// Version of the layout; a reader refuses a higher one.
// 1: without half strokes, points and treated area; 2: without time and pore pressure
constexpr int results_format_version = 3;
/// Root attribute `format` of every results file of this program.
constexpr const char* results_format = "interpile results";

enum class Storage {
    Text,    ///< fixed-length UTF-8 (text of variable length cannot be appended while readers look on)
    Integer, ///< 32 bit
    Real,    ///< 64 bit
    Single   ///< 32 bit floating point, enough for a figure and half the size
};

struct DatasetInfo {
    std::string path;              ///< "/stage/residual"
    std::vector<std::string> axes; ///< names or fixed extents: {"stage", "node", "2"}; empty: one value
    Storage storage = Storage::Real;
    std::string symbol;
    std::string unit;
    std::string long_name;
    std::string sign; ///< which way is positive, or what the numbers stand for

    bool grows_with(const std::string& axis) const { return !axes.empty() && axes.front() == axis; }
    bool has_axis(const std::string& axis) const {
        return std::find(axes.begin(), axes.end(), axis) != axes.end();
    }
};

/// In the order of the file; those with the axis "point" or "corner" are left out of a file that has none of them (an
/// axis of a growing dataset cannot be empty). Cell fields from mesh::field_table() under /fields.
const std::vector<DatasetInfo>& results_layout();

/// Written last for a stage, a half stroke and a batch of increments: a row counts once these are there. None holds
/// the value in a complete row that fills a row not yet written.
constexpr const char* last_of_stage = "/stage/number";
constexpr int no_stage = -1;
constexpr const char* last_of_increment = "/history/place_in_order";
constexpr const char* last_of_half_stroke = "/half_strokes/place_in_order";
constexpr int no_place = 0;

/// Store the meaning of a dataset with it: unit, symbol, long_name, sign, axes.
void describe(const hdf5::File& file, const DatasetInfo& info);

} // namespace interpile::io
