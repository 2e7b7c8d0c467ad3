#pragma once
// Observers of stages that only the command `run` needs.

#include "io/checkpoint.h"
#include "solver/run_observer.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace interpile::program {

/// Keeps the balance of every stage for the table at the end.
class BalanceTable final : public solver::RunObserver {
public:
    /// \param earlier  of the run before it was broken off
    explicit BalanceTable(std::vector<io::StageSummary> earlier = {}) : rows_(std::move(earlier)) {}

    void on_stage(const solver::StageRecord& record) override;
    const std::vector<io::StageSummary>& rows() const { return rows_; }
    /// One row per stage after the first: time where water flows, volumes, closing error, heave, density. Empty if no pile was
    /// finished.
    /// \param predicts_density  false: the head of D_r is marked
    std::string text(bool predicts_density) const;

private:
    std::vector<io::StageSummary> rows_;
};

/// Passes on everything but the stages between the first and the last. Their volumes are added up, so that
/// the last stage balances against the first.
class FirstAndLastStage final : public solver::RunObserver {
public:
    /// \param earlier  stages of the run before it was broken off
    explicit FirstAndLastStage(solver::RunObserver& next, const std::vector<io::StageSummary>& earlier = {});

    void on_increment(const solver::IncrementRecord& record) override { next_.on_increment(record); }
    void on_half_stroke(const solver::HalfStrokeRecord& record) override { next_.on_half_stroke(record); }
    void on_warning(const std::string& text) override { next_.on_warning(text); }
    void on_stage(const solver::StageRecord& record) override;
    /// Pass on the last stage; call it when the run has ended.
    void end_of_run();

private:
    solver::RunObserver& next_;
    solver::VolumeBalance sum_; ///< of the stages after the first
    std::optional<solver::StageRecord> last_;
};

} // namespace interpile::program
