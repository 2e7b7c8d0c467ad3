#include "io/results_writer.h"

#include "io/diagnostics.h"
#include "io/hdf5.h"
#include "io/results_copy.h"
#include "io/results_header.h"
#include "io/results_layout.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <ctime>
#include <stdexcept>
#include <tuple>

namespace interpile::io {

namespace {

namespace fs = std::filesystem;
using hdf5::Dataset;
using Clock = std::chrono::steady_clock;

constexpr auto batch_time = std::chrono::seconds(1); // a flush of 14 columns costs about 1 ms

/// At most `bytes` bytes of a text, cut between characters.
std::string cut_utf8(std::string text, std::size_t bytes) {
    if (text.size() <= bytes)
        return text;
    constexpr std::string_view mark = "...";
    std::size_t end = bytes - mark.size();
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80)
        --end; // a continuation byte
    return text.substr(0, end).append(mark);
}

/// Where the file grows until its header is complete.
fs::path part_of(fs::path file) {
    return file += ".part";
}

void refuse_bad_place(const fs::path& file, bool overwrite) {
    std::error_code ignored;
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (!fs::is_directory(folder, ignored))
        throw FileTrouble(
            fmt::format("{}: the folder {} does not exist; create it first", file.string(), folder.string()));
    if (fs::is_directory(file, ignored))
        throw FileTrouble(fmt::format("{}: is a folder; name a file in it", file.string()));
    if (!overwrite && fs::exists(file, ignored))
        throw FileTrouble(
            fmt::format("{}: holds an earlier result, which was left untouched; choose another name or "
                        "allow it to be overwritten",
                        file.string()));
}

// One column of /history or /half_strokes and where its numbers come from.
template <class Record, class Number>
struct Column {
    const char* dataset;
    Number Record::*member;
    Number of(const Record& record) const { return record.*member; }
};
template <class Record>
struct PhaseColumn {
    const char* dataset;
    int of(const Record& record) const { return static_cast<int>(record.phase); }
};

using Increment = solver::IncrementRecord;
constexpr std::tuple increment_columns = {
    Column{"/history/pile", &Increment::pile},
    Column{"/history/stroke", &Increment::stroke},
    PhaseColumn<Increment>{"/history/phase"},
    Column{"/history/iterations", &Increment::iterations},
    Column{"/history/halvings", &Increment::halvings},
    Column{"/history/disc_area_m2", &Increment::disc_area_m2},
    Column{"/history/wall_pressure_kPa", &Increment::wall_pressure_kPa},
    Column{"/history/disc_pressure_kPa", &Increment::disc_pressure_kPa},
    Column{"/history/heave_strain", &Increment::heave_strain},
    Column{"/history/mean_relative_density_pct", &Increment::mean_relative_density_pct},
    Column{"/history/vertical_stress_kPa", &Increment::vertical_stress_kPa},
    Column{"/history/residual", &Increment::residual},
    Column{"/history/share_done", &Increment::share_done},
    Column{"/history/time_s", &Increment::time_s},
    Column{"/history/mean_excess_pressure_kPa", &Increment::mean_excess_pressure_kPa},
    Column{"/history/largest_excess_pressure_ratio", &Increment::largest_excess_pressure_ratio},
    Column{last_of_increment, &Increment::place_in_order},
};

using HalfStroke = solver::HalfStrokeRecord;
constexpr std::tuple half_stroke_columns = {
    Column{"/half_strokes/pile", &HalfStroke::pile},
    Column{"/half_strokes/stroke", &HalfStroke::stroke},
    PhaseColumn<HalfStroke>{"/half_strokes/phase"},
    Column{"/half_strokes/injected_area_m2", &HalfStroke::injected_area_m2},
    Column{"/half_strokes/disc_pressure_kPa", &HalfStroke::disc_pressure_kPa},
    Column{"/half_strokes/wall_pressure_kPa", &HalfStroke::wall_pressure_kPa},
    Column{"/half_strokes/heave_strain", &HalfStroke::heave_strain},
    Column{"/half_strokes/relative_density_pct", &HalfStroke::relative_density_pct},
    Column{"/half_strokes/lateral_stress_ratio", &HalfStroke::lateral_stress_ratio},
    Column{"/half_strokes/total_injected_m2", &HalfStroke::total_injected_m2},
    Column{"/half_strokes/densified_m3_m", &HalfStroke::densified_m3_m},
    Column{"/half_strokes/efficiency", &HalfStroke::efficiency},
    Column{"/half_strokes/time_s", &HalfStroke::time_s},
    Column{"/half_strokes/excess_pressure_kPa", &HalfStroke::excess_pressure_kPa},
    Column{last_of_half_stroke, &HalfStroke::place_in_order},
};

} // namespace

struct ResultsWriter::Impl {
    hdf5::File file;
    Eigen::Index nodes, cells, piles, points;
    GrowingDatasets growing;
    std::vector<Increment> batch; ///< increments not yet in the file
    ResultsRows rows;             ///< with those of the batch
    Clock::time_point batch_written = Clock::now();

    Impl(const fs::path& part, const Case& run_case, const mesh::Grid& grid, bool densifies_by_cycles,
         const std::string& started)
        : file(hdf5::File::create(part)), nodes(grid.node_count()), cells(grid.cell_count()),
          piles(static_cast<Eigen::Index>(run_case.plan.piles.size())),
          points(static_cast<Eigen::Index>(run_case.plan.record.points.size())),
          growing(write_results_header(file, run_case, grid, densifies_by_cycles, started)) {
        rows.started = started;
    }

    void begin() {
        file.start_swmr_write();
        file.sync();
        file.claim();
    }

    /// Write, and if that fails keep what was written before.
    template <class Write>
    void or_abandon(const Write& write) {
        try {
            write();
        } catch (const FileTrouble&) {
            batch.clear();
            file.abandon();
            throw;
        }
    }

    template <class Number>
    void append(const std::string& path, const Number* values, hsize_t rows = 1) {
        const Dataset& dataset = growing.at(path);
        dataset.append(values, rows);
        dataset.flush();
    }
    template <class Number>
    void append_one(const std::string& path, Number value) {
        append(path, &value);
    }

    /// In the order of the columns; the last one marks the rows as complete.
    template <class Columns, class Record>
    void write_columns(const Columns& columns, const std::vector<Record>& records) {
        const auto write_column = [&](const auto& column) {
            std::vector<decltype(column.of(records.front()))> values;
            for (const auto& record : records)
                values.push_back(column.of(record));
            append(column.dataset, values.data(), values.size());
        };
        std::apply([&](const auto&... column) { (write_column(column), ...); }, columns);
    }

    void write_batch() {
        if (batch.empty())
            return;
        write_columns(increment_columns, batch);
        batch.clear();
        batch_written = Clock::now();
    }

    void write_half_stroke(const HalfStroke& record) {
        if (points > 0) {
            append("/points/relative_density_pct", record.point_density_pct.data());
            append("/points/lateral_stress_ratio", record.point_stress_ratio.data());
            append("/points/excess_pressure_kPa", record.point_pressure_kPa.data());
        }
        write_columns(half_stroke_columns, std::vector{record});
    }

    static void want(Eigen::Index is, Eigen::Index should, std::string_view what) {
        if (is != should)
            throw std::invalid_argument(fmt::format("record: {} of {}, expected {}", is, what, should));
    }
    /// A stage or half stroke is written whole or not at all.
    void refuse_incomplete(const HalfStroke& record) const {
        want(record.point_density_pct.size(), points, "densities at points");
        want(record.point_stress_ratio.size(), points, "stress ratios at points");
        want(record.point_pressure_kPa.size(), points, "pressures at points");
    }
    void refuse_incomplete(const solver::StageRecord& record) const {
        want(record.node_m.cols(), nodes, "node positions");
        want(record.disc_radius_m.size(), piles, "pile radii");
        want(record.disc_center_m.cols(), piles, "pile centers");
        for (const auto& info : mesh::field_table()) {
            const auto field = record.fields.find(std::string(info.name));
            want(field == record.fields.end() ? 0 : field->second.size(), cells, info.name);
        }
    }

    void write_stage(const solver::StageRecord& record) {
        append_one("/stage/pile", record.pile);
        append_one("/stage/converged", record.converged ? 1 : 0);
        append_one("/stage/residual", record.residual);
        append_one("/stage/heave_strain", record.heave_strain);
        append_one("/stage/injected_m3_m", record.balance.injected);
        append_one("/stage/densified_m3_m", record.balance.densified);
        append_one("/stage/heaved_m3_m", record.balance.heaved);
        append_one("/stage/pushed_out_m3_m", record.balance.pushed_out);
        append_one("/stage/mean_relative_density_pct", record.mean_relative_density_pct);
        append_one("/stage/mean_void_ratio", record.mean_void_ratio);
        append_one("/stage/time_s", record.time_s);
        append_one("/stage/mean_excess_pressure_kPa", record.mean_excess_pressure_kPa);
        append_one("/stage/nearly_liquefied_cells", record.nearly_liquefied_cells);
        append_one("/stage/water_squeezed_m3_m", record.water_squeezed_m3_m);
        append_one("/stage/water_stored_m3_m", record.water_stored_m3_m);
        append_one("/stage/water_drained_m3_m", record.water_drained_m3_m);
        append_one("/stage/water_error_m3_m", record.water_error_m3_m);
        append("/mesh/moved_m", record.node_m.data());
        append("/piles/radius_m", record.disc_radius_m.data());
        append("/piles/moved_center_m", record.disc_center_m.data());
        for (const auto& info : mesh::field_table()) {
            const std::string name(info.name);
            append("/fields/" + name, record.fields.at(name).data());
        }
        append_one(last_of_stage, record.stage);
    }

    void write_warning(const std::string& text) {
        std::string row = cut_utf8(text, warning_bytes);
        row.resize(warning_bytes, '\0');
        const Dataset& dataset = growing.at("/warnings");
        dataset.append(hdf5::text_type(file, warning_bytes).get(), row.data(), 1);
        dataset.flush();
    }
};

ResultsWriter::ResultsWriter(const fs::path& file, const Case& run_case, const mesh::Grid& grid,
                             bool densifies_by_cycles, bool overwrite) {
    refuse_bad_place(file, overwrite);
    create(file, run_case, grid, densifies_by_cycles, nullptr);
}

ResultsWriter::ResultsWriter(const fs::path& file, const Case& run_case, const mesh::Grid& grid,
                             bool densifies_by_cycles, const ResultsRows& kept) {
    create(file, run_case, grid, densifies_by_cycles, &kept);
}

void ResultsWriter::create(const fs::path& file, const Case& run_case, const mesh::Grid& grid,
                           bool densifies_by_cycles, const ResultsRows* kept) {
    if (hdf5::File::is_claimed(file))
        throw FileTrouble(fmt::format(
            "{}: is being written by a run that goes on; wait for its end or stop it", file.string()));
    const fs::path part = part_of(file);
    std::error_code error;
    fs::remove(part, error); // of a run that died; what cannot be removed is told by the next line
    try {
        impl_ = std::make_unique<Impl>(part, run_case, grid, densifies_by_cycles,
                                       kept ? kept->started
                                            : fmt::format("{:%FT%TZ}", fmt::gmtime(std::time(nullptr))));
        if (kept) {
            copy_rows(file, *kept, impl_->growing);
            impl_->rows = *kept;
        }
        impl_->begin();
        fs::rename(part, file,
                   error); // the open file keeps its descriptor and is written on under its new name
        if (error)
            throw FileTrouble(fmt::format("{}: cannot take the place of an earlier result: {}", file.string(),
                                          error.message()));
        impl_->file.renamed_to(file);
    } catch (...) {
        impl_.reset();
        fs::remove(part, error);
        throw;
    }
}

ResultsWriter::~ResultsWriter() {
    if (!impl_)
        return;
    try {
        impl_->write_batch();
    } catch (const FileTrouble&) { // there is nobody to tell; what was written before stays readable
        impl_->file.abandon();
    }
}

void ResultsWriter::on_increment(const solver::IncrementRecord& record) {
    impl_->batch.push_back(record);
    ++impl_->rows.increments;
    if (Clock::now() - impl_->batch_written >= batch_time)
        impl_->or_abandon([this] { impl_->write_batch(); });
}

void ResultsWriter::on_half_stroke(const solver::HalfStrokeRecord& record) {
    impl_->refuse_incomplete(record);
    impl_->or_abandon([&] {
        impl_->write_batch();
        impl_->write_half_stroke(record);
    });
    ++impl_->rows.half_strokes;
}

void ResultsWriter::on_stage(const solver::StageRecord& record) {
    impl_->refuse_incomplete(record);
    impl_->or_abandon([&] {
        impl_->write_batch();
        impl_->write_stage(record);
    });
    ++impl_->rows.stages;
}

void ResultsWriter::on_warning(const std::string& text) {
    impl_->or_abandon([&] { impl_->write_warning(text); });
    ++impl_->rows.warnings;
}

const ResultsRows& ResultsWriter::rows() const {
    return impl_->rows;
}

void ResultsWriter::sync() {
    impl_->or_abandon([this] {
        impl_->write_batch();
        impl_->file.sync_flushed();
    });
}

void ResultsWriter::finish() {
    impl_->or_abandon([this] {
        impl_->write_batch();
        impl_->growing.clear();
        hdf5::change_attribute(impl_->file, "/", "finished", 1);
        impl_->file.sync();
        impl_->file.close();
    });
    impl_.reset();
}

} // namespace interpile::io
