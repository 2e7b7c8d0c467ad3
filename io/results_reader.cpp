#include "io/results_reader.h"

#include "io/diagnostics.h"
#include "io/hdf5.h"
#include "io/results_layout.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>

namespace interpile::io {

namespace {

using hdf5::Dataset;

std::size_t as_size(Eigen::Index n) {
    return static_cast<std::size_t>(n);
}

/// A dataset whose shape must be the expected one, first axis aside where it grows.
Dataset open_with(const hdf5::File& file, const std::string& path, const Dataset::Shape& shape,
                  bool grows = false) {
    Dataset dataset = Dataset::open(file, path);
    const Dataset::Shape found = dataset.shape();
    const std::size_t first = grows ? 1 : 0;
    if (found.size() != shape.size() + first ||
        !std::equal(shape.begin(), shape.end(), found.begin() + first))
        file.fail("read, as it has an unexpected shape,", path);
    return dataset;
}

template <class Number>
void read_whole(const hdf5::File& file, const std::string& path, Number* values,
                const Dataset::Shape& shape) {
    open_with(file, path, shape).read_rows(values, 0, shape.at(0));
}

/// Row `index` of a dataset that grows with the stages.
template <class Number>
void read_row(const hdf5::File& file, const std::string& path, int index, Number* values,
              const Dataset::Shape& row = {}) {
    open_with(file, path, row, true).read_rows(values, static_cast<hsize_t>(index), 1);
}

double row_value(const hdf5::File& file, const std::string& path, int index) {
    double value = 0;
    read_row(file, path, index, &value);
    return value;
}

/// Rows that every dataset growing with `axis` has, up to the last whose commit mark is written.
hsize_t complete_rows(const hdf5::File& file, const std::string& axis, const char* commit_mark,
                      int not_written) {
    hsize_t rows = Dataset::open(file, commit_mark).shape().at(0);
    for (const auto& info : results_layout())
        if (info.grows_with(axis))
            rows = std::min(rows, Dataset::open(file, info.path).shape().at(0));
    std::vector<int> marks(rows);
    open_with(file, commit_mark, {}, true).read_rows(marks.data(), 0, rows);
    while (rows > 0 && marks[rows - 1] == not_written)
        --rows;
    return rows;
}

hdf5::File open_results(const std::filesystem::path& path) {
    std::error_code error;
    if (!std::filesystem::exists(path, error))
        throw FileTrouble(path.string() + ": there is no such file");
    if (std::filesystem::is_directory(path, error))
        throw FileTrouble(path.string() + ": is a folder, not a results file");
    if (!std::ifstream(path))
        throw FileTrouble(path.string() + ": cannot be read: " + std::strerror(errno));
    try {
        hdf5::File file = hdf5::File::open_to_read(path);
        if (hdf5::text_attribute(file, "/", "format") == results_format)
            return file;
    } catch (const FileTrouble&) { // the library's reason, such as a missing signature, helps nobody further
    }
    throw FileTrouble(path.string() + ": not a results file of this program, or damaged");
}

void refuse_unknown_version(const hdf5::File& file) {
    const auto version = hdf5::number_attribute(file, "/", "format_version");
    if (version > results_format_version)
        throw FileTrouble(file.path().string() + ": written by a newer version of the program (" +
                          hdf5::text_attribute(file, "/", "program_version") + "); read it with that one");
}

mesh::Grid read_grid(const hdf5::File& file) {
    mesh::Grid grid;
    grid.cells_x = static_cast<int>(hdf5::number_attribute(file, "/", "cells_x"));
    grid.cells_y = static_cast<int>(hdf5::number_attribute(file, "/", "cells_y"));
    const auto found = Dataset::open(file, "/mesh/node_m").shape();
    if (grid.cells_x < 1 || grid.cells_y < 1 || found.at(0) != static_cast<hsize_t>(grid.node_count()))
        file.fail("read, as its mesh does not fit its cell counts,", "/mesh/node_m");
    grid.node_m.resize(2, grid.node_count());
    read_whole(file, "/mesh/node_m", grid.node_m.data(), {as_size(grid.node_m.cols()), 2});
    return grid;
}

ResultsHeader read_header(const hdf5::File& file) {
    const auto text = [&file](const char* name) { return hdf5::text_attribute(file, "/", name); };
    const auto number = [&file](const char* name) { return hdf5::number_attribute(file, "/", name); };
    ResultsHeader header;
    header.case_name = text("case_name");
    header.title = text("title");
    header.program_version = text("program_version");
    header.started = text("started");
    header.finished = number("finished") != 0;
    header.monotonic_density = number("monotonic_density") != 0;
    header.seed_radius_m = number("seed_radius_m");
    header.initial_vertical_stress_kPa = number("initial_vertical_stress_kPa");
    header.initial_relative_density_pct = number("initial_relative_density_pct");
    header.depth_m = number("depth_m");

    header.case_text = Dataset::open(file, "/case_text").read_texts().at(0);
    const auto keys = Dataset::open(file, "/settings/key").read_texts();
    auto values = Dataset::open(file, "/settings/value").read_texts();
    std::vector<int> is_default(keys.size());
    read_whole(file, "/settings/is_default", is_default.data(), {keys.size()});
    values.resize(keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i)
        header.settings.emplace_back(keys[i], values[i] + (is_default[i] ? " (default)" : ""));

    header.grid = read_grid(file);
    const auto side = Dataset::open(file, "/mesh/side").read_texts();
    if (side.size() != header.side.size())
        file.fail("read four sides from", "/mesh/side");
    std::copy(side.begin(), side.end(), header.side.begin());

    const auto piles = Dataset::open(file, "/piles/diameter_m").shape().at(0);
    header.pile_center_m.resize(2, static_cast<Eigen::Index>(piles));
    header.pile_diameter_m.resize(static_cast<Eigen::Index>(piles));
    read_whole(file, "/piles/center_m", header.pile_center_m.data(), {piles, 2});
    read_whole(file, "/piles/diameter_m", header.pile_diameter_m.data(), {piles});
    header.order.resize(Dataset::open(file, "/piles/order").shape().at(0));
    read_whole(file, "/piles/order", header.order.data(), {header.order.size()});
    return header;
}

} // namespace

struct ResultsReader::Impl {
    hdf5::File file;
    ResultsHeader header;

    explicit Impl(const std::filesystem::path& path) : file(open_results(path)) {
        refuse_unknown_version(file);
        header = read_header(file);
    }
};

ResultsReader::ResultsReader(const std::filesystem::path& file) : impl_(std::make_unique<Impl>(file)) {}
ResultsReader::~ResultsReader() = default;
ResultsReader::ResultsReader(ResultsReader&&) noexcept = default;

const ResultsHeader& ResultsReader::header() const {
    return impl_->header;
}

int ResultsReader::stage_count() const {
    return static_cast<int>(complete_rows(impl_->file, "stage", last_of_stage, no_stage));
}

ResultsStage ResultsReader::stage(int index) const {
    const hdf5::File& file = impl_->file;
    if (const int count = stage_count(); index < 0 || index >= count)
        throw FileTrouble(file.path().string() + ": stage " + std::to_string(index) +
                          " is not there; it has " + std::to_string(count));
    const auto number = [&](const char* path) { return row_value(file, path, index); };
    const Eigen::Index piles = impl_->header.pile_diameter_m.size();
    const Eigen::Index cells = impl_->header.grid.cell_count();
    const Eigen::Index nodes = impl_->header.grid.node_count();

    ResultsStage stage;
    stage.stage = static_cast<int>(number(last_of_stage));
    stage.pile = static_cast<int>(number("/stage/pile"));
    stage.converged = number("/stage/converged") != 0;
    stage.residual = number("/stage/residual");
    stage.heave_strain = number("/stage/heave_strain");
    stage.injected_m3_m = number("/stage/injected_m3_m");
    stage.densified_m3_m = number("/stage/densified_m3_m");
    stage.heaved_m3_m = number("/stage/heaved_m3_m");
    stage.pushed_out_m3_m = number("/stage/pushed_out_m3_m");
    stage.mean_relative_density_pct = number("/stage/mean_relative_density_pct");
    stage.mean_void_ratio = number("/stage/mean_void_ratio");

    stage.node_m.resize(2, nodes);
    stage.disc_radius_m.resize(piles);
    stage.disc_center_m.resize(2, piles);
    read_row(file, "/mesh/moved_m", index, stage.node_m.data(), {as_size(nodes), 2});
    read_row(file, "/piles/radius_m", index, stage.disc_radius_m.data(), {as_size(piles)});
    read_row(file, "/piles/moved_center_m", index, stage.disc_center_m.data(), {as_size(piles), 2});
    for (const auto& info : mesh::field_table()) {
        auto& values = stage.fields[std::string(info.name)];
        values.resize(cells);
        read_row(file, "/fields/" + std::string(info.name), index, values.data(), {as_size(cells)});
    }
    return stage;
}

ResultsHistory ResultsReader::history() const {
    const hdf5::File& file = impl_->file;
    const hsize_t rows = complete_rows(file, "increment", last_of_increment, no_place);
    const auto read = [&](const char* path, auto& column) {
        column.resize(static_cast<Eigen::Index>(rows));
        open_with(file, path, {}, true).read_rows(column.data(), 0, rows);
    };
    ResultsHistory history;
    read("/history/pile", history.pile);
    read(last_of_increment, history.place_in_order);
    read("/history/stroke", history.stroke);
    read("/history/phase", history.phase);
    read("/history/iterations", history.iterations);
    read("/history/halvings", history.halvings);
    read("/history/disc_area_m2", history.disc_area_m2);
    read("/history/wall_pressure_kPa", history.wall_pressure_kPa);
    read("/history/disc_pressure_kPa", history.disc_pressure_kPa);
    read("/history/heave_strain", history.heave_strain);
    read("/history/mean_relative_density_pct", history.mean_relative_density_pct);
    read("/history/vertical_stress_kPa", history.vertical_stress_kPa);
    read("/history/residual", history.residual);
    return history;
}

std::vector<std::string> ResultsReader::warnings() const {
    auto texts = Dataset::open(impl_->file, "/warnings").read_texts();
    while (!texts.empty() && texts.back().empty())
        texts.pop_back(); // declared by a running writer, not yet written
    return texts;
}

} // namespace interpile::io
