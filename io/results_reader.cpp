#include "io/results_reader.h"

#include "io/diagnostics.h"
#include "io/hdf5.h"
#include "io/results_header_reader.h"
#include "io/results_layout.h"
#include "io/results_rows.h"
#include "solver/run_observer.h"

#include <cerrno>
#include <cstring>
#include <fstream>

namespace interpile::io {

namespace {

using hdf5::Dataset;

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

} // namespace

struct ResultsReader::Impl {
    hdf5::File file;
    ResultsHeader header;

    explicit Impl(const std::filesystem::path& path) : file(open_results(path)) {
        refuse_unknown_version(file);
        header = read_results_header(file);
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

namespace {

template <class Column>
void read_column(const hdf5::File& file, const char* path, hsize_t rows, Column& column) {
    column.resize(static_cast<Eigen::Index>(rows));
    open_with(file, path, {}, true).read_rows(column.data(), 0, rows);
}

/// Stages after a rest end with a step of it; those after a pile with its last half stroke.
bool ends_in_rest(const hdf5::File& file, double time_s) {
    if (time_s == 0)
        return false;
    const hsize_t rows = complete_rows(file, "half_stroke", last_of_half_stroke, no_place);
    Eigen::ArrayXi phase;
    Eigen::ArrayXd at_s;
    read_column(file, "/half_strokes/phase", rows, phase);
    read_column(file, "/half_strokes/time_s", rows, at_s);
    return (at_s == time_s && phase == rest_phase).any();
}

} // namespace

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
    if (file.has("/stage/time_s")) { // from version 3
        stage.time_s = number("/stage/time_s");
        stage.mean_excess_pressure_kPa = number("/stage/mean_excess_pressure_kPa");
        stage.nearly_liquefied_cells = static_cast<int>(number("/stage/nearly_liquefied_cells"));
        stage.water_squeezed_m3_m = number("/stage/water_squeezed_m3_m");
        stage.water_stored_m3_m = number("/stage/water_stored_m3_m");
        stage.water_drained_m3_m = number("/stage/water_drained_m3_m");
        stage.water_error_m3_m = number("/stage/water_error_m3_m");
    }

    stage.after_rest = ends_in_rest(file, stage.time_s);

    stage.node_m.resize(2, nodes);
    stage.disc_radius_m.resize(piles);
    stage.disc_center_m.resize(2, piles);
    read_row(file, "/mesh/moved_m", index, stage.node_m.data(), {as_size(nodes), 2});
    read_row(file, "/piles/radius_m", index, stage.disc_radius_m.data(), {as_size(piles)});
    read_row(file, "/piles/moved_center_m", index, stage.disc_center_m.data(), {as_size(piles), 2});
    for (const auto& info : mesh::field_table()) {
        if (!file.has("/fields/" + std::string(info.name))) // of a later version
            continue;
        auto& values = stage.fields[std::string(info.name)];
        values.resize(cells);
        read_row(file, "/fields/" + std::string(info.name), index, values.data(), {as_size(cells)});
    }
    return stage;
}

ResultsHistory ResultsReader::history() const {
    const hdf5::File& file = impl_->file;
    const hsize_t rows = complete_rows(file, "increment", last_of_increment, no_place);
    const auto read = [&](const char* path, auto& column) { read_column(file, path, rows, column); };
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
    if (file.has("/history/time_s")) { // from version 3
        read("/history/time_s", history.time_s);
        read("/history/mean_excess_pressure_kPa", history.mean_excess_pressure_kPa);
        read("/history/largest_excess_pressure_ratio", history.largest_excess_pressure_ratio);
    }
    return history;
}

ResultsHalfStrokes ResultsReader::half_strokes() const {
    const hdf5::File& file = impl_->file;
    ResultsHalfStrokes record;
    if (!file.has(last_of_half_stroke)) // version 1
        return record;
    const hsize_t rows = complete_rows(file, "half_stroke", last_of_half_stroke, no_place);
    const auto read = [&](const char* path, auto& column) { read_column(file, path, rows, column); };
    read("/half_strokes/pile", record.pile);
    read(last_of_half_stroke, record.place_in_order);
    read("/half_strokes/stroke", record.stroke);
    read("/half_strokes/phase", record.phase);
    read("/half_strokes/injected_area_m2", record.injected_area_m2);
    read("/half_strokes/disc_pressure_kPa", record.disc_pressure_kPa);
    read("/half_strokes/wall_pressure_kPa", record.wall_pressure_kPa);
    read("/half_strokes/heave_strain", record.heave_strain);
    read("/half_strokes/relative_density_pct", record.relative_density_pct);
    read("/half_strokes/lateral_stress_ratio", record.lateral_stress_ratio);
    read("/half_strokes/total_injected_m2", record.total_injected_m2);
    read("/half_strokes/densified_m3_m", record.densified_m3_m);
    read("/half_strokes/efficiency", record.efficiency);

    const auto points = static_cast<Eigen::Index>(impl_->header.points.size());
    const auto read_points = [&](const char* path, Eigen::ArrayXXd& values) {
        values.resize(points, static_cast<Eigen::Index>(rows)); // a column holds a row of the file
        if (points > 0)
            open_with(file, path, {as_size(points)}, true).read_rows(values.data(), 0, rows);
    };
    read_points("/points/relative_density_pct", record.point_density_pct);
    read_points("/points/lateral_stress_ratio", record.point_stress_ratio);
    if (file.has("/half_strokes/time_s")) { // from version 3
        read("/half_strokes/time_s", record.time_s);
        read("/half_strokes/excess_pressure_kPa", record.excess_pressure_kPa);
        read_points("/points/excess_pressure_kPa", record.point_pressure_kPa);
    }
    return record;
}

std::string_view phase_in_words(int phase) {
    return solver::in_words(static_cast<solver::Phase>(phase));
}

std::vector<std::string> ResultsReader::warnings() const {
    auto texts = Dataset::open(impl_->file, "/warnings").read_texts();
    while (!texts.empty() && texts.back().empty())
        texts.pop_back(); // declared by a running writer, not yet written
    return texts;
}

} // namespace interpile::io
