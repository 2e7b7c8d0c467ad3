#pragma once
// Write a results file that can be read while it grows and is whole after a kill at any instant.

#include "io/case_file.h"
#include "mesh/grid.h"
#include "solver/run_observer.h"

#include <filesystem>
#include <memory>

namespace interpile::io {

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
    ~ResultsWriter() override;

    void on_increment(const solver::IncrementRecord& record) override;
    /// Written at once, after the increments before it.
    void on_half_stroke(const solver::HalfStrokeRecord& record) override;
    void on_stage(const solver::StageRecord& record) override;
    void on_warning(const std::string& text) override;

    /// Close cleanly and mark the file as finished.
    void finish();

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace interpile::io
