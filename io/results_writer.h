#pragma once
// Write a results file that can be read while it grows and is whole after a kill at any instant.

#include "io/case_file.h"
#include "mesh/grid.h"
#include "solver/run_observer.h"

#include <filesystem>
#include <memory>
#include <string>

namespace interpile::io {

/// How much a results file holds, and of which run: what a run that goes on keeps of it.
struct ResultsRows {
    std::string started; ///< ISO 8601, UTC
    int increments = 0, half_strokes = 0, stages = 0, warnings = 0;
};

/// HDF5 in single-writer multiple-reader mode. Everything is declared before the first stage; every stage and every
/// batch of increments is flushed dataset by dataset.
class ResultsWriter final : public solver::RunObserver {
public:
    /// \param overwrite  replace an existing file; otherwise an existing file is a FileTrouble and stays untouched
    /// \param densifies_by_cycles  of the soil model, stored so that figures can say what D_r means
    /// The file is created as FILE.part and takes its name once the header is complete, so that an earlier result is
    /// lost only when a new one really begins.
    /// \throws FileTrouble
    ResultsWriter(const std::filesystem::path& file, const Case& run_case, const mesh::Grid& grid,
                  bool densifies_by_cycles, bool overwrite);
    /// Go on writing a file: a copy with these first rows of it takes its place. Until then the file is only read.
    /// \throws FileTrouble, also if the file is of another run or holds less
    ResultsWriter(const std::filesystem::path& file, const Case& run_case, const mesh::Grid& grid,
                  bool densifies_by_cycles, const ResultsRows& kept);
    ~ResultsWriter() override;

    void on_increment(const solver::IncrementRecord& record) override;
    /// Written at once, after the increments before it.
    void on_half_stroke(const solver::HalfStrokeRecord& record) override;
    void on_stage(const solver::StageRecord& record) override;
    void on_warning(const std::string& text) override;

    /// What has been told so far.
    const ResultsRows& rows() const;
    /// Bring all of that down to the disk.
    void sync();

    /// Close cleanly and mark the file as finished.
    void finish();

private:
    void create(const std::filesystem::path& file, const Case& run_case, const mesh::Grid& grid,
                bool densifies_by_cycles, const ResultsRows* kept);

    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace interpile::io
