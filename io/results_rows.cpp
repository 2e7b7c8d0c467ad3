#include "io/results_rows.h"

#include "io/results_layout.h"

#include <vector>

namespace interpile::io {

using hdf5::Dataset;

hdf5::Dataset open_with(const hdf5::File& file, const std::string& path, const Dataset::Shape& shape,
                        bool grows) {
    Dataset dataset = Dataset::open(file, path);
    const Dataset::Shape found = dataset.shape();
    const std::size_t first = grows ? 1 : 0;
    if (found.size() != shape.size() + first ||
        !std::equal(shape.begin(), shape.end(), found.begin() + first))
        file.fail("read, as it has an unexpected shape,", path);
    return dataset;
}

double row_value(const hdf5::File& file, const std::string& path, int index) {
    double value = 0;
    read_row(file, path, index, &value);
    return value;
}

hsize_t complete_rows(const hdf5::File& file, const std::string& axis, const char* commit_mark,
                      int not_written) {
    hsize_t rows = Dataset::open(file, commit_mark).shape().at(0);
    for (const auto& info : results_layout())
        if (info.grows_with(axis) && file.has(info.path))
            rows = std::min(rows, Dataset::open(file, info.path).shape().at(0));
    std::vector<int> marks(rows);
    open_with(file, commit_mark, {}, true).read_rows(marks.data(), 0, rows);
    while (rows > 0 && marks[rows - 1] == not_written)
        --rows;
    return rows;
}

} // namespace interpile::io
