#pragma once
// Keeps the restart file of a run up to date.

#include "io/checkpoint.h"
#include "io/program/stage_observers.h"
#include "io/results_writer.h"
#include "solver/run_observer.h"

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>

namespace interpile::program {

/// Remembers the last restart point and saves the first one, then one whenever the interval has passed. A file that
/// cannot be written is told once and does not end the run.
class RestartKeeper final : public solver::RunObserver {
public:
    /// All references must outlive this.
    /// \param interval_s  of wall time between two savings, 0: at every restart point
    RestartKeeper(std::filesystem::path file, io::RunIdentity identity, io::ResultsWriter& writer,
                  const BalanceTable& balance, double interval_s);

    void on_increment(const solver::IncrementRecord& record) override { share_done_ = record.share_done; }
    bool wants_restart_point() override { return true; }
    void on_restart_point(const solver::RunState& state) override;

    /// Save the last restart point; the run was stopped.
    /// \return false if it could not be saved
    bool save();
    /// The run has ended by itself: there is nothing to go on with.
    void remove();

private:
    using Clock = std::chrono::steady_clock;

    std::filesystem::path file_;
    io::RunIdentity identity_;
    io::ResultsWriter& writer_;
    const BalanceTable& balance_;
    std::chrono::duration<double> interval_;
    std::optional<io::Checkpoint> last_;
    std::optional<Clock::time_point> saved_;
    double share_done_ = 0;
    bool trouble_told_ = false;
};

} // namespace interpile::program
