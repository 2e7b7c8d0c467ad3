#include "io/program/restart_keeper.h"

#include "io/diagnostics.h"

#include <fmt/format.h>

#include <cstdio>

namespace interpile::program {

RestartKeeper::RestartKeeper(std::filesystem::path file, io::RunIdentity identity, io::ResultsWriter& writer,
                             const BalanceTable& balance, double interval_s)
    : file_(std::move(file)), identity_(std::move(identity)), writer_(writer), balance_(balance),
      interval_(interval_s) {}

void RestartKeeper::on_restart_point(const solver::RunState& state) {
    if (!last_)
        last_.emplace().identity = identity_;
    last_->rows = writer_.rows();
    last_->stages = balance_.rows();
    last_->share_done = share_done_;
    last_->state = state;
    if (!saved_ || Clock::now() - *saved_ >= interval_)
        save();
}

bool RestartKeeper::save() {
    if (!last_)
        return false;
    writer_.sync(); // the restart file must not count on rows that a power failure takes away
    saved_ = Clock::now();
    try {
        io::save_checkpoint(file_, *last_);
        return true;
    } catch (const io::FileTrouble& trouble) {
        if (!trouble_told_)
            fmt::print(stderr, "\nwarning: {} The run goes on, but cannot be resumed from here.\n",
                       trouble.what());
        trouble_told_ = true;
        return false;
    }
}

void RestartKeeper::remove() {
    std::error_code ignored;
    std::filesystem::remove(file_, ignored);
    std::filesystem::remove(std::filesystem::path(file_) += ".part", ignored);
}

} // namespace interpile::program
