#include "io/results_copy.h"

#include "io/diagnostics.h"
#include "io/results_layout.h"
#include "io/results_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace interpile::io {

namespace {

using hdf5::Dataset;

constexpr std::size_t block_bytes = 1 << 20; ///< copied at a time

hdf5::Handle memory_type_of(const hdf5::File& file, const DatasetInfo& info) {
    switch (info.storage) {
    case Storage::Text:
        return hdf5::text_type(file, warning_bytes);
    case Storage::Integer:
        return hdf5::Handle(file.check(H5Tcopy(H5T_STD_I32LE), "describe numbers"));
    case Storage::Real:
        return hdf5::Handle(file.check(H5Tcopy(H5T_IEEE_F64LE), "describe numbers"));
    case Storage::Single:
        break;
    }
    return hdf5::Handle(file.check(H5Tcopy(H5T_IEEE_F32LE), "describe numbers"));
}

void copy_dataset(const hdf5::File& file, const DatasetInfo& info, hsize_t rows, const Dataset& to) {
    const Dataset from = Dataset::open(file, info.path);
    const hdf5::Handle type = memory_type_of(file, info);
    std::size_t row_bytes = H5Tget_size(type.get());
    const Dataset::Shape shape = from.shape();
    for (std::size_t axis = 1; axis < shape.size(); ++axis)
        row_bytes *= shape[axis];
    const hsize_t block = std::max<hsize_t>(1, block_bytes / std::max<std::size_t>(1, row_bytes));
    std::vector<char> bytes;
    for (hsize_t first = 0; first < rows; first += block) {
        const hsize_t count = std::min(block, rows - first);
        bytes.resize(count * row_bytes);
        from.read_rows(type.get(), bytes.data(), first, count);
        to.append(type.get(), bytes.data(), count);
    }
}

} // namespace

void copy_rows(const std::filesystem::path& from, const ResultsRows& rows, const GrowingDatasets& to) {
    std::error_code ignored;
    if (!std::filesystem::exists(from, ignored))
        throw FileTrouble(
            fmt::format("{}: is not there; its run cannot go on without it. Begin it anew.", from.string()));
    const hdf5::File file = hdf5::File::open_to_read(from);
    if (hdf5::text_attribute(file, "/", "started") != rows.started)
        throw FileTrouble(fmt::format(
            "{}: is of another run than its restart file; begin it anew with --overwrite.", from.string()));
    const auto kept = [&](const DatasetInfo& info) {
        return static_cast<hsize_t>(info.grows_with("stage")         ? rows.stages
                                    : info.grows_with("half_stroke") ? rows.half_strokes
                                    : info.grows_with("increment")   ? rows.increments
                                                                     : rows.warnings);
    };
    if (complete_rows(file, "stage", last_of_stage, no_stage) < static_cast<hsize_t>(rows.stages) ||
        complete_rows(file, "half_stroke", last_of_half_stroke, no_place) <
            static_cast<hsize_t>(rows.half_strokes) ||
        complete_rows(file, "increment", last_of_increment, no_place) <
            static_cast<hsize_t>(rows.increments) ||
        Dataset::open(file, "/warnings").shape().at(0) < static_cast<hsize_t>(rows.warnings))
        throw FileTrouble(
            fmt::format("{}: holds less than its restart file counts on; begin the run anew with "
                        "--overwrite.",
                        from.string()));
    for (const auto& info : results_layout())
        if (const auto dataset = to.find(info.path); dataset != to.end())
            copy_dataset(file, info, kept(info), dataset->second);
}

} // namespace interpile::io
