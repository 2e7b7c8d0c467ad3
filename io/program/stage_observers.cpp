#include "io/program/stage_observers.h"

#include "postprocess/time_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::program {

void BalanceTable::on_stage(const solver::StageRecord& record) {
    // Only a rest brings a second stage after the same pile.
    const bool after_rest = !rows_.empty() && record.pile >= 0 && rows_.back().pile == record.pile;
    rows_.push_back({record.stage, record.pile, record.converged, record.balance, record.heave_strain,
                     record.mean_relative_density_pct, record.time_s, after_rest});
}

std::string BalanceTable::text(bool predicts_density) const {
    const bool in_time = !rows_.empty() && rows_.back().time_s > 0;
    std::string text;
    for (const io::StageSummary& row : rows_) {
        if (row.pile < 0)
            continue;
        const auto& b = row.balance;
        const double relative = b.injected != 0 ? std::abs(b.closing_error() / b.injected) : 0;
        text += fmt::format("{:>6} {:>6}", row.stage, row.after_rest ? "rest" : std::to_string(row.pile + 1));
        if (in_time)
            text += fmt::format(" {:>11}", postprocess::time_in_words(row.time_s));
        text += fmt::format(" {:>10.5f} {:>10.5f} {:>10.5f} {:>10.5f} {:>10.1e} {:>9.3f} {:>8.2f}{}\n",
                            b.injected, b.densified, b.heaved, b.pushed_out, relative,
                            100 * std::expm1(row.heave_strain), row.relative_density_pct,
                            row.converged ? "" : "  NOT CONVERGED");
    }
    if (text.empty())
        return text;
    return fmt::format("Volume balance per meter of slice, since the stage before [m3/m]\n"
                       "{:>6} {:>6}{} {:>10} {:>10} {:>10} {:>10} {:>10} {:>9} {:>8}\n",
                       "stage", "pile", in_time ? fmt::format(" {:>11}", "time") : "", "injected",
                       "densified", "heaved", "pushed out", "rel. error", "heave %",
                       predicts_density ? "D_r %" : "D_r %(*)") +
           text +
           (predicts_density ? "" : "(*) not a prediction: this soil model cannot densify by strokes.\n");
}

namespace {

void add(solver::VolumeBalance& sum, const solver::VolumeBalance& balance) {
    sum.injected += balance.injected;
    sum.densified += balance.densified;
    sum.heaved += balance.heaved;
    sum.pushed_out += balance.pushed_out;
}

} // namespace

FirstAndLastStage::FirstAndLastStage(solver::RunObserver& next, const std::vector<io::StageSummary>& earlier)
    : next_(next) {
    for (const auto& stage : earlier)
        if (stage.stage > 0)
            add(sum_, stage.balance);
}

void FirstAndLastStage::on_stage(const solver::StageRecord& record) {
    if (record.stage == 0) {
        next_.on_stage(record);
        return;
    }
    add(sum_, record.balance);
    last_ = record;
    last_->balance = sum_;
}

void FirstAndLastStage::end_of_run() {
    if (last_)
        next_.on_stage(*last_);
    last_.reset();
}

} // namespace interpile::program
