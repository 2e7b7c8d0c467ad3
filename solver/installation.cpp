#include "solver/installation.h"

#include "solver/equilibrium.h"
#include "solver/half_stroke_recording.h"
#include "solver/pile_driver.h"
#include "solver/remarks.h"
#include "solver/smear.h"
#include "solver/stage_recording.h"
#include "solver/work_calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

namespace interpile::solver {
namespace {

/// One run: owns the slice and its piles.
class Run {
public:
    Run(const mesh::Grid& grid, const mesh::Domain& domain, const Slice& slice, const SoilModel& soil,
        const InstallationPlan& plan, RunObserver& observer)
        : domain_(domain), plan_(plan), observer_(observer), momentum_(grid, domain, slice, soil, plan.water),
          equilibrium_(momentum_, plan.steps), recording_(momentum_, plan.piles.size()),
          half_strokes_(momentum_, recording_, plan), remarks_(observer, slice.vertical_stress_kPa),
          discs_(plan.piles.size()), calendar_(plan.schedule) {
        momentum_.set_threads(plan.threads);
        for (const auto& pile : plan.piles)
            planned_center_.push_back(pile.center_m);
    }

    RunReport operator()(const RunState* from) {
        if (from)
            resume(*from);
        else
            begin();
        for (; place_ < plan_.order.size() && report_.outcome == Outcome::Finished;
             ++place_, from = nullptr) {
            const bool resting = from && from->resting;
            if (!from)
                place_begun_s_ = momentum_.pore_water().time_s();
            if (!resting)
                drive_group(from);
            if (report_.outcome == Outcome::Finished)
                rest_after_group(resting ? from : nullptr);
        }
        count_effort(report_);
        return report_;
    }

private:
    void begin() {
        if (!momentum_.soil().densifies_by_cycles())
            observer_.on_warning(
                fmt::format("soil model {} is elastic inside a fixed yield surface: it cannot show how "
                            "repeated strokes densify sand; densities are those of monotonic expansion, "
                            "not a prediction",
                            momentum_.soil().name()));
        record_stage(-1, {}, true, 0);
    }

    void add_disc(PileDisc disc) {
        const int pile = disc.pile;
        discs_[pile] = std::make_unique<PileDisc>(std::move(disc));
        recording_.discs()[pile] = discs_[pile].get();
    }

    std::vector<PileDisc*> group_discs() const {
        std::vector<PileDisc*> group;
        for (int pile : plan_.order[place_])
            group.push_back(discs_[pile].get());
        return group;
    }

    void drive_group(const RunState* from) {
        const auto& group = plan_.order[place_];
        if (!from) {
            for (int pile : group)
                add_disc(seed_disc(momentum_.current(), domain_, pile, plan_.piles[pile].center_m,
                                   plan_.strokes.seed_radius_m));
            momentum_.set_active(group_discs());
            half_strokes_.begin_group(static_cast<int>(place_) + 1, recording_.volumes());
        }
        resting_ = false;
        double residual = 0;
        const bool converged = attempt(residual, [&](PileDriver& driver) {
            return driver.drive(momentum_.active(), half_strokes_.sums().seed_area_m2,
                                from ? from->done : WorkDone());
        });
        half_strokes_.end_group();
        record_stage(group.back(), since_begin(), converged, residual);
    }

    /// Run a part of the work; false, with the residual, where it cannot go on.
    template <class Work>
    bool attempt(double& residual, const Work& work) {
        const auto after_increment = [&](IncrementRecord r) {
            ++report_.increments;
            recording_.note_yielding();
            r.place_in_order = static_cast<int>(place_) + 1;
            r.mean_relative_density_pct = recording_.means().relative_density_pct;
            r.share_done =
                (static_cast<double>(place_) + r.share_done) / static_cast<double>(plan_.order.size());
            r.time_s = momentum_.pore_water().time_s();
            if (momentum_.pore_water().has_pressure()) {
                r.mean_excess_pressure_kPa = recording_.mean_excess_pressure_kPa();
                r.largest_excess_pressure_ratio = recording_.ground_pressure_ratio().maxCoeff();
            }
            observer_.on_increment(r);
            remarks_.look_at(r, momentum_.pore_water().contrast());
            return observer_.stop_requested();
        };
        const auto after_half_stroke = [&](int stroke, Phase phase) {
            for (const auto& record : half_strokes_.records(stroke, phase))
                observer_.on_half_stroke(record);
        };
        const auto at_restart_point = [&](const WorkDone& done) {
            if (observer_.wants_restart_point())
                observer_.on_restart_point(state(done));
        };
        PileDriver driver(momentum_, equilibrium_, plan_, after_increment, after_half_stroke,
                          at_restart_point);
        try {
            if (!work(driver))
                report_.outcome = Outcome::Stopped;
        } catch (const CannotGoOn& trouble) {
            report_.outcome = Outcome::NotConverged;
            report_.why = trouble.what();
            residual = trouble.residual();
            return false;
        }
        return true;
    }

    /// The rest of the time of a pile, the way to the next one, the night; after the last pile the final rest, which has
    /// a stage of its own.
    void rest_after_group(const RunState* from) {
        if (plan_.water.drainage != Drainage::Coupled)
            return;
        const bool is_last = place_ + 1 == plan_.order.size();
        if (!from) {
            become_drains(); // from now on, with or without a rest
            rest_s_ = calendar_.rest_s(rig_at(plan_, place_), is_last ? -1 : rig_at(plan_, place_ + 1),
                                       place_begun_s_, momentum_.pore_water().time_s());
        }
        if (!(rest_s_ > 0))
            return;
        const int pile = plan_.order[place_].back();
        if (!from) {
            momentum_.set_active({});
            half_strokes_.begin_rest(pile, recording_.volumes());
        }
        resting_ = true;
        double residual = 0;
        const bool converged = attempt(residual, [&](PileDriver& driver) {
            return driver.rest(rest_s_, pile, from ? from->done : WorkDone());
        });
        half_strokes_.end_group();
        const VolumeBalance balance = since_begin();
        if (is_last || !converged || report_.outcome == Outcome::Stopped)
            record_stage(pile, balance, converged, residual);
        else
            pending_ = balance;
    }

    void become_drains() {
        momentum_.set_finished_share(recording_.pile_share());
        if (plan_.water.smear_diameter_ratio == 1)
            return;
        std::vector<PlacedDisc> finished;
        for (const int pile : plan_.order[place_])
            finished.push_back({discs_[pile].get(), planned_center_[pile]});
        momentum_.add_smear(smear_share(momentum_, finished, plan_.water.smear_diameter_ratio));
    }

    /// Balance since the begin of a group or a rest, and what a rest before it has changed.
    VolumeBalance since_begin() {
        VolumeBalance balance = StageRecording::balance(half_strokes_.sums().before, recording_.volumes());
        balance.injected += pending_.injected;
        balance.densified += pending_.densified;
        balance.heaved += pending_.heaved;
        balance.pushed_out += pending_.pushed_out;
        pending_ = {};
        return balance;
    }

    void record_stage(int pile, const VolumeBalance& balance, bool converged, double residual) {
        StageRecord stage = recording_.record(planned_center_);
        stage.stage = stage_++;
        stage.pile = pile;
        stage.balance = balance;
        stage.converged = converged;
        stage.residual = residual;
        observer_.on_stage(stage);
    }

    /// Add what the equilibrium has done in this process.
    void count_effort(RunReport& report) const {
        report.iterations += equilibrium_.iterations();
        report.factorizations += equilibrium_.factorizations();
    }

    RunState state(const WorkDone& done) const {
        RunState s;
        s.slice = momentum_.kept();
        for (const auto& disc : discs_)
            if (disc)
                s.discs.push_back(*disc);
        s.ever_yielded = recording_.ever_yielded();
        s.sums = half_strokes_.sums();
        s.place = static_cast<int>(place_);
        s.place_begun_s = place_begun_s_;
        s.resting = resting_;
        s.rest_s = rest_s_;
        s.done = done;
        if (resting_)
            s.direction = equilibrium_.direction();
        s.pending = pending_;
        s.rigs = calendar_.rigs();
        s.stages = stage_;
        s.remarks = remarks_.made();
        RunReport effort = report_;
        count_effort(effort);
        s.increments = effort.increments;
        s.iterations = effort.iterations;
        s.factorizations = effort.factorizations;
        return s;
    }

    void resume(const RunState& s) {
        if (s.place < 0 || s.place >= static_cast<int>(plan_.order.size()) ||
            s.ever_yielded.size() != momentum_.initial().cell_count() ||
            s.rigs.size() != calendar_.rigs().size())
            throw std::invalid_argument("the state to go on from is of another plan");
        momentum_.restore(s.slice);
        for (const PileDisc& disc : s.discs)
            add_disc(disc);
        recording_.resume(s.ever_yielded);
        place_ = static_cast<std::size_t>(s.place);
        momentum_.set_active(s.resting ? std::vector<PileDisc*>() : group_discs());
        half_strokes_.resume(s.sums);
        place_begun_s_ = s.place_begun_s;
        rest_s_ = s.rest_s;
        equilibrium_.set_direction(s.direction);
        pending_ = s.pending;
        calendar_.resume(s.rigs);
        stage_ = s.stages;
        remarks_.resume(s.remarks);
        report_.increments = s.increments;
        report_.iterations = s.iterations;
        report_.factorizations = s.factorizations;
    }

    const mesh::Domain& domain_;
    const InstallationPlan& plan_;
    RunObserver& observer_;
    Momentum momentum_;
    Equilibrium equilibrium_;
    StageRecording recording_;
    HalfStrokeRecording half_strokes_;
    Remarks remarks_;
    std::vector<std::unique_ptr<PileDisc>> discs_;
    std::vector<mesh::Vec2> planned_center_;
    std::size_t place_ = 0;    ///< in the order of work
    double place_begun_s_ = 0; ///< when its piles were begun
    bool resting_ = false;
    double rest_s_ = 0; ///< duration of the rest after its piles
    int stage_ = 0;
    VolumeBalance pending_; ///< of rests, for the next stage
    WorkCalendar calendar_;
    RunReport report_; ///< iterations and factorizations: of processes before this one, until the end
};

} // namespace

RunReport install_piles(const mesh::Grid& grid, const mesh::Domain& domain, const Slice& slice,
                        const SoilModel& soil, const InstallationPlan& plan, RunObserver& observer,
                        const RunState* from) {
    return Run(grid, domain, slice, soil, plan, observer)(from);
}

} // namespace interpile::solver
