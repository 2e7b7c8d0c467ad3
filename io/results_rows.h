#pragma once
// Whole datasets and single rows of a results file, with the shape they must have.

#include "io/hdf5.h"

#include <Eigen/Core>

#include <algorithm>
#include <string>

namespace interpile::io {

inline hsize_t as_size(Eigen::Index n) {
    return static_cast<hsize_t>(n);
}

/// A dataset whose shape must be the expected one, first axis aside where it grows.
/// \throws FileTrouble
hdf5::Dataset open_with(const hdf5::File& file, const std::string& path, const hdf5::Dataset::Shape& shape,
                        bool grows = false);

template <class Number>
void read_whole(const hdf5::File& file, const std::string& path, Number* values,
                const hdf5::Dataset::Shape& shape) {
    open_with(file, path, shape).read_rows(values, 0, shape.at(0));
}

/// Row `index` of a dataset that grows.
template <class Number>
void read_row(const hdf5::File& file, const std::string& path, int index, Number* values,
              const hdf5::Dataset::Shape& row = {}) {
    open_with(file, path, row, true).read_rows(values, static_cast<hsize_t>(index), 1);
}

double row_value(const hdf5::File& file, const std::string& path, int index);

/// Rows that every dataset growing with `axis` has, up to the last whose commit mark is written.
/// \param not_written  the mark of a row that is declared only
hsize_t complete_rows(const hdf5::File& file, const std::string& axis, const char* commit_mark,
                      int not_written);

} // namespace interpile::io
