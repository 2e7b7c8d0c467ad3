#include "solver/installation.h"

#include "solver/equilibrium.h"
#include "solver/half_stroke_recording.h"
#include "solver/pile_driver.h"
#include "solver/stage_recording.h"
#include "solver/work_calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace interpile::solver {
namespace {

// What a drive can give a casing is 1 to 3 MPa: common practice, no source.
constexpr double casing_limit_kPa = 3000;
// Times overburden; above it the vertical condition is not credible (own choice).
constexpr double vertical_limit = 4;
// Mean relative density beyond which the ground is denser than its densest state.
constexpr double density_limit_pct = 100;

/// Says each remark about a result once.
class Remarks {
public:
    Remarks(RunObserver& observer, double overburden_kPa)
        : observer_(observer), overburden_(overburden_kPa) {}

    void look_at(const IncrementRecord& r, double water_contrast) {
        constexpr double largest_contrast = 1e12; // leaves about four digits
        if (water_contrast > largest_contrast && !contrast_said_) {
            contrast_said_ = true;
            observer_.on_warning(
                fmt::format("pile {}: coefficients of the pore water differ by a factor of {:.1g}; "
                            "pressures hold about {:.0f} digits. Lessen the contrast of permeability "
                            "or the durations",
                            r.pile + 1, water_contrast, 16 - std::log10(water_contrast)));
        }
        if (r.wall_pressure_kPa > casing_limit_kPa && !pressure_said_) {
            pressure_said_ = true;
            observer_.on_warning(
                fmt::format("pile {}: wall pressure {:.1f} MPa; a drive gives a casing 1 to 3 MPa (common "
                            "practice), the pile could not be built like this",
                            r.pile + 1, r.wall_pressure_kPa / 1000));
        }
        if (overburden_ > 0 && r.vertical_stress_kPa > vertical_limit * overburden_ && !vertical_said_) {
            vertical_said_ = true;
            observer_.on_warning(
                fmt::format("pile {}: mean vertical stress {:.0f} kPa is {:.1f} x overburden; without heave "
                            "the slice is held too stiffly (vertical_condition = \"fixed\")",
                            r.pile + 1, r.vertical_stress_kPa, r.vertical_stress_kPa / overburden_));
        }
        if (r.mean_relative_density_pct > density_limit_pct && !density_said_) {
            density_said_ = true;
            observer_.on_warning(
                fmt::format("pile {}: mean relative density {:.0f} %, denser than e_min; more area is "
                            "injected than the ground can take without heave",
                            r.pile + 1, r.mean_relative_density_pct));
        }
    }

private:
    RunObserver& observer_;
    double overburden_;
    bool pressure_said_ = false, vertical_said_ = false, density_said_ = false, contrast_said_ = false;
};

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

    RunReport operator()() {
        if (!momentum_.soil().densifies_by_cycles())
            observer_.on_warning(
                fmt::format("soil model {} is elastic inside a fixed yield surface: it cannot show how "
                            "repeated strokes densify sand; densities are those of monotonic expansion, "
                            "not a prediction",
                            momentum_.soil().name()));
        record_stage(-1, {}, true, 0);
        RunReport report;
        for (std::size_t place = 0; place < plan_.order.size() && report.outcome == Outcome::Finished;
             ++place) {
            const double begun_s = momentum_.pore_water().time_s();
            place_group(place, report);
            if (report.outcome == Outcome::Finished)
                rest_after(place, begun_s, report);
        }
        report.iterations = equilibrium_.iterations();
        report.factorizations = equilibrium_.factorizations();
        return report;
    }

private:
    void place_group(std::size_t place, RunReport& report) {
        const auto& group = plan_.order[place];
        std::vector<PileDisc*> active;
        for (int pile : group) {
            discs_[pile] = std::make_unique<PileDisc>(seed_disc(
                momentum_.current(), domain_, pile, plan_.piles[pile].center_m, plan_.strokes.seed_radius_m));
            recording_.discs()[pile] = discs_[pile].get();
            active.push_back(discs_[pile].get());
        }
        momentum_.set_active(active);
        const SliceVolumes before = recording_.volumes();
        half_strokes_.begin_group(static_cast<int>(place) + 1, before);
        double residual = 0;
        const bool converged =
            attempt(place, report, residual, [&](PileDriver& driver) { return driver.drive(active); });
        half_strokes_.end_group();
        record_stage(group.back(), since(before), converged, residual);
    }

    /// Run a part of the work; false, with the residual, where it cannot go on.
    template <class Work>
    bool attempt(std::size_t place, RunReport& report, double& residual, const Work& work) {
        const auto after_increment = [&](IncrementRecord r) {
            ++report.increments;
            recording_.note_yielding();
            r.place_in_order = static_cast<int>(place) + 1;
            r.mean_relative_density_pct = recording_.means().relative_density_pct;
            r.share_done =
                (static_cast<double>(place) + r.share_done) / static_cast<double>(plan_.order.size());
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
        PileDriver driver(momentum_, equilibrium_, plan_, after_increment, after_half_stroke);
        try {
            if (!work(driver))
                report.outcome = Outcome::Stopped;
        } catch (const CannotGoOn& trouble) {
            report.outcome = Outcome::NotConverged;
            report.why = trouble.what();
            residual = trouble.residual();
            return false;
        }
        return true;
    }

    /// The rest of the time of a pile, the way to the next one, the night; after the last pile the final rest, which has
    /// a stage of its own.
    void rest_after(std::size_t place, double begun_s, RunReport& report) {
        if (plan_.water.drainage != Drainage::Coupled)
            return;
        momentum_.set_finished_share(recording_.pile_share()); // a drain from now on, with or without a rest
        const bool is_last = place + 1 == plan_.order.size();
        const double duration_s = calendar_.rest_s(momentum_.pore_water().time_s() - begun_s, is_last);
        if (!(duration_s > 0))
            return;
        const int pile = plan_.order[place].back();
        momentum_.set_active({});
        const SliceVolumes before = recording_.volumes();
        half_strokes_.begin_rest(pile, before);
        double residual = 0;
        const bool converged = attempt(place, report, residual,
                                       [&](PileDriver& driver) { return driver.rest(duration_s, pile); });
        half_strokes_.end_group();
        const VolumeBalance balance = since(before);
        if (is_last || !converged || report.outcome == Outcome::Stopped)
            record_stage(pile, balance, converged, residual);
        else
            pending_ = balance;
    }

    /// Balance since some volumes, and what a rest before them has changed.
    VolumeBalance since(const SliceVolumes& before) {
        VolumeBalance balance = StageRecording::balance(before, recording_.volumes());
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
    int stage_ = 0;
    VolumeBalance pending_; ///< of rests, for the next stage
    WorkCalendar calendar_;
};

} // namespace

RunReport install_piles(const mesh::Grid& grid, const mesh::Domain& domain, const Slice& slice,
                        const SoilModel& soil, const InstallationPlan& plan, RunObserver& observer) {
    return Run(grid, domain, slice, soil, plan, observer)();
}

} // namespace interpile::solver
