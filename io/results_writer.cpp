#include "io/results_writer.h"

#include "io/diagnostics.h"
#include "io/hdf5.h"
#include "io/results_header.h"
#include "io/results_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>

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

// One column of /history and where its numbers come from.
template <class Number>
struct Column {
    const char* dataset;
    Number (*of)(const solver::IncrementRecord&);
};
using Record = solver::IncrementRecord;
constexpr Column<int> integer_columns[] = {
    {"/history/pile", [](const Record& r) { return r.pile; }},
    {"/history/stroke", [](const Record& r) { return r.stroke; }},
    {"/history/phase", [](const Record& r) { return static_cast<int>(r.phase); }},
    {"/history/iterations", [](const Record& r) { return r.iterations; }},
    {"/history/halvings", [](const Record& r) { return r.halvings; }},
};
constexpr Column<double> real_columns[] = {
    {"/history/disc_area_m2", [](const Record& r) { return r.disc_area_m2; }},
    {"/history/wall_pressure_kPa", [](const Record& r) { return r.wall_pressure_kPa; }},
    {"/history/disc_pressure_kPa", [](const Record& r) { return r.disc_pressure_kPa; }},
    {"/history/heave_strain", [](const Record& r) { return r.heave_strain; }},
    {"/history/mean_relative_density_pct", [](const Record& r) { return r.mean_relative_density_pct; }},
    {"/history/vertical_stress_kPa", [](const Record& r) { return r.vertical_stress_kPa; }},
    {"/history/residual", [](const Record& r) { return r.residual; }},
    {"/history/share_done", [](const Record& r) { return r.share_done; }},
};

} // namespace

struct ResultsWriter::Impl {
    hdf5::File file;
    Eigen::Index nodes, cells, piles;
    GrowingDatasets growing;
    std::vector<Record> batch; ///< increments not yet in the file
    Clock::time_point batch_written = Clock::now();

    Impl(const fs::path& part, const Case& run_case, const mesh::Grid& grid, bool densifies_by_cycles)
        : file(hdf5::File::create(part)), nodes(grid.node_count()), cells(grid.cell_count()),
          piles(static_cast<Eigen::Index>(run_case.plan.piles.size())),
          growing(write_results_header(file, run_case, grid, densifies_by_cycles)) {
        file.start_swmr_write();
        file.sync();
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

    void write_batch() {
        if (batch.empty())
            return;
        const auto write_column = [this](const auto& column) {
            std::vector<decltype(column.of(batch.front()))> values;
            for (const auto& record : batch)
                values.push_back(column.of(record));
            append(column.dataset, values.data(), values.size());
        };
        for (const auto& column : integer_columns)
            write_column(column);
        for (const auto& column : real_columns)
            write_column(column);
        write_column(Column<int>{last_of_increment, [](const Record& r) { return r.place_in_order; }});
        batch.clear();
        batch_written = Clock::now();
    }

    /// A stage is written whole or not at all.
    void refuse_incomplete(const solver::StageRecord& record) const {
        const auto want = [](Eigen::Index is, Eigen::Index should, std::string_view what) {
            if (is != should)
                throw std::invalid_argument(
                    fmt::format("stage record: {} of {}, expected {}", is, what, should));
        };
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
    const fs::path part = part_of(file);
    std::error_code error;
    fs::remove(part, error); // of a run that died; what cannot be removed is told by the next line
    try {
        impl_ = std::make_unique<Impl>(part, run_case, grid, densifies_by_cycles);
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
    if (Clock::now() - impl_->batch_written >= batch_time)
        impl_->or_abandon([this] { impl_->write_batch(); });
}

void ResultsWriter::on_stage(const solver::StageRecord& record) {
    impl_->refuse_incomplete(record);
    impl_->or_abandon([&] {
        impl_->write_batch();
        impl_->write_stage(record);
    });
}

void ResultsWriter::on_warning(const std::string& text) {
    impl_->or_abandon([&] { impl_->write_warning(text); });
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
