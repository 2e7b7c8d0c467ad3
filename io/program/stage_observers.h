#pragma once
// Observers of stages that only the command `run` needs.

#include "solver/run_observer.h"

#include <optional>
#include <string>
#include <vector>

namespace interpile::program {

/// Keeps the balance of every stage for the table at the end.
class BalanceTable final : public solver::RunObserver {
public:
    void on_stage(const solver::StageRecord& record) override;
    /// One row per stage after the first: time where water flows, volumes, closing error, heave, density. Empty if no pile was
    /// finished.
    /// \param predicts_density  false: the head of D_r is marked
    std::string text(bool predicts_density) const;

private:
    struct Row {
        int stage, pile;
        bool converged;
        solver::VolumeBalance balance;
        double heave_strain, relative_density_pct, time_s;
        bool after_rest;
    };
    std::vector<Row> rows_;
};

/// Passes on everything but the stages between the first and the last. Their volumes are added up, so that
/// the last stage balances against the first.
class FirstAndLastStage final : public solver::RunObserver {
public:
    explicit FirstAndLastStage(solver::RunObserver& next) : next_(next) {}

    void on_increment(const solver::IncrementRecord& record) override { next_.on_increment(record); }
    void on_half_stroke(const solver::HalfStrokeRecord& record) override { next_.on_half_stroke(record); }
    void on_warning(const std::string& text) override { next_.on_warning(text); }
    void on_stage(const solver::StageRecord& record) override;
    /// Pass on the last stage; call it when the run has ended.
    void end_of_run();

private:
    solver::RunObserver& next_;
    std::optional<solver::StageRecord> last_;
};

} // namespace interpile::program
