#include "solver/pile_driver.h"

#include "solver/wall_pressure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::solver {
namespace {

constexpr int refresh_interval = 10; ///< increments after which the operator of a growing pile is stale
constexpr int most_withdrawal_steps = 200;
// A withdrawal ends this close above its pressure: the wall loses its pressure within millimeters, the rest changes
// nothing, and the last small steps cost most.
constexpr double landing = 1.1;
// An increment that has been halved so often gets a stiffer hourglass resistance. It acts within the increment and leaves
// nothing behind. Without it a withdrawal in loose
// shallow ground failed with the rounding of one in nine builds and kernels of the library.
constexpr int halvings_before_stiffer = 3;
constexpr double stiffer = 10;
// Shares of a disc area: on the way, and where an area is planned. A closer fit on the way costs a third more
// iterations.
constexpr double area_tolerance = 1e-5, final_area_tolerance = 1e-7;

double circle(double diameter) {
    return std::numbers::pi * diameter * diameter / 4;
}

} // namespace

PileDriver::PileDriver(Momentum& momentum, Equilibrium& equilibrium, const InstallationPlan& plan,
                       AfterIncrement after, AfterHalfStroke after_half_stroke,
                       AtRestartPoint at_restart_point)
    : momentum_(momentum), equilibrium_(equilibrium), plan_(plan), after_(std::move(after)),
      after_half_stroke_(std::move(after_half_stroke)), at_restart_point_(std::move(at_restart_point)) {}

Eigen::VectorXd PileDriver::areas() const {
    Eigen::VectorXd area(static_cast<Eigen::Index>(discs_.size()));
    for (std::size_t k = 0; k < discs_.size(); ++k)
        area(static_cast<Eigen::Index>(k)) = momentum_.disc_area(*discs_[k]);
    return area;
}

Eigen::ArrayXd PileDriver::finished_areas() const {
    Eigen::ArrayXd area(static_cast<Eigen::Index>(discs_.size()));
    for (std::size_t k = 0; k < discs_.size(); ++k)
        area(static_cast<Eigen::Index>(k)) =
            circle(plan_.piles[static_cast<std::size_t>(discs_[k]->pile)].diameter_m);
    return area;
}

double PileDriver::highest_pressure() const {
    double highest = -std::numeric_limits<double>::infinity();
    for (const auto* disc : discs_)
        highest = std::max(highest, momentum_.disc_pressure(*disc) + momentum_.disc_excess_pressure(*disc));
    return highest;
}

void PileDriver::begin_half_stroke(double log_radius_step, double increment_s) {
    const auto& steps = plan_.steps;
    momentum_.set_hourglass(steps.hourglass * disc_radius(momentum_, *discs_.front()) /
                            std::abs(log_radius_step));
    momentum_.set_duration(increment_s);
    equilibrium_.refresh();
    equilibrium_.forget_direction();
    since_refresh_ = 0;
}

IncrementRecord PileDriver::record_of(const IncrementResult& result) const {
    IncrementRecord record;
    record.heave_strain = momentum_.heave();
    record.vertical_stress_kPa = result.vertical_stress_kPa;
    record.residual = result.residual;
    record.iterations = result.iterations;
    return record;
}

void PileDriver::give_up(const std::string& where, const IncrementResult& result) const {
    const std::string tried =
        fmt::format("no equilibrium after {} halvings of the increment", plan_.steps.max_halvings);
    if (!result.trouble.empty())
        throw CannotGoOn(fmt::format("{}: {}; {}", where, tried, result.trouble), result.residual);
    const auto place = momentum_.current().node_m.col(result.worst_node);
    throw CannotGoOn(
        fmt::format("{}: {}; worst out-of-balance force {:.2g} of the force sum (allowed {:.2g}) at "
                    "({:.3f}, {:.3f}) m",
                    where, tried, result.residual, plan_.steps.tolerance, place.x(), place.y()),
        result.residual);
}

bool PileDriver::step(const Stroke& stroke, const Eigen::VectorXd& target_area, double tolerance,
                      double share_done) {
    const Eigen::VectorXd from = areas();
    const double whole = 0.5 * std::log(target_area(largest_) / from(largest_)); // d ln(a)
    int halvings = 0;
    for (double done = 0, size = 1; done < 1;) {
        const double next = std::min(1.0, done + size);
        if (const double duration = (next - done) * stroke.increment_s; duration != last_step_s_)
            momentum_.set_duration(last_step_s_ = duration);
        const Eigen::VectorXd target =
            next == 1 ? target_area
                      : Eigen::VectorXd(from.array() * (target_area.array() / from.array()).pow(next));
        const double log_radius = whole * (next - done);
        momentum_.set_hourglass((halvings > halvings_before_stiffer ? stiffer : 1) * plan_.steps.hourglass *
                                disc_radius(momentum_, *discs_.front()) / std::abs(log_radius));
        const IncrementResult result =
            equilibrium_.solve(target, log_radius, next == 1 ? tolerance : area_tolerance);
        if (!result.converged) {
            if (++halvings > plan_.steps.max_halvings)
                give_up(fmt::format("pile {}, {}{}", discs_.front()->pile + 1,
                                    stroke.number > 0 ? fmt::format("stroke {}, ", stroke.number) : "",
                                    in_words(stroke.phase)),
                        result);
            size /= 2;
            momentum_.set_duration(last_step_s_ = size * stroke.increment_s);
            equilibrium_.forget_direction();
            equilibrium_.refresh();
            continue;
        }
        done = next;
        const PileDisc& disc = *discs_.front();
        IncrementRecord record = record_of(result);
        record.pile = disc.pile;
        record.stroke = stroke.number;
        record.phase = stroke.phase;
        record.disc_area_m2 = momentum_.disc_area(disc) / disc.planned_fraction;
        record.wall_pressure_kPa = wall_pressure(momentum_, disc, plan_.piles[disc.pile].center_m);
        record.disc_pressure_kPa = momentum_.disc_pressure(disc);
        record.halvings = halvings;
        record.share_done = share_done;
        if (after_(record))
            return false;
    }
    return true;
}

bool PileDriver::grow(const Stroke& planned, const Eigen::ArrayXd& injected_area_m2, int least_increments) {
    Eigen::VectorXd target = seed_area_;
    for (std::size_t k = 0; k < discs_.size(); ++k)
        target(static_cast<Eigen::Index>(k)) +=
            injected_area_m2(static_cast<Eigen::Index>(k)) * discs_[k]->planned_fraction;
    const Eigen::VectorXd from = areas();
    const double log_radius = 0.5 * std::log(target(largest_) / from(largest_));
    const int increments =
        std::max(least_increments, static_cast<int>(std::ceil(log_radius / plan_.steps.radius_step)));
    Stroke stroke = planned;
    stroke.increment_s = planned.increment_s / increments;
    begin_half_stroke(log_radius / increments, last_step_s_ = stroke.increment_s);
    for (int n = 1; n <= increments; ++n) {
        const double part = static_cast<double>(n) / increments;
        if (since_refresh_++ == refresh_interval) {
            momentum_.set_duration(last_step_s_ = stroke.increment_s);
            equilibrium_.refresh();
            since_refresh_ = 1;
        }
        const Eigen::VectorXd next =
            n == increments ? target
                            : Eigen::VectorXd(from.array() * (target.array() / from.array()).pow(part));
        if (!step(stroke, next, n == increments ? final_area_tolerance : area_tolerance,
                  stroke.share_before + part * (stroke.share_after - stroke.share_before)))
            return false;
    }
    after_half_stroke_(stroke.number, stroke.phase);
    return true;
}

bool PileDriver::shrink(const Stroke& planned, double pressure_kPa) {
    const double start = highest_pressure();
    if (start <= pressure_kPa)
        return true;
    Stroke stroke = planned; // its increments aim at equal shares of the fall, so of the time
    stroke.increment_s = planned.increment_s / plan_.steps.increments_per_half_stroke;
    // Each increment aims at an equal share of the fall. The first slope is the elastic one of a cavity,
    // dp / d ln(a) = 2 G (Lame, plane strain); afterwards the last increment tells.
    const double fall = (start - pressure_kPa) / plan_.steps.increments_per_half_stroke;
    double slope =
        2 * momentum_.soil().moduli(momentum_.soil_state(), discs_.front()->parts.front().cell).shear;
    double pressure = start;
    begin_half_stroke(-fall / slope, last_step_s_ = stroke.increment_s);
    double last_step = 0;
    for (int n = 1; pressure > landing * pressure_kPa; ++n) {
        if (n > most_withdrawal_steps)
            throw CannotGoOn(
                fmt::format(
                    "pile {}, stroke {}: the total disc pressure does not fall to {:.1f} kPa on withdrawal "
                    "(still {:.1f} kPa)",
                    discs_.front()->pile + 1, stroke.number, pressure_kPa, pressure),
                0);
        double log_step = -std::min(std::min(fall, pressure - pressure_kPa) / slope, plan_.steps.radius_step);
        if (last_step != 0)
            log_step = std::clamp(log_step, 2 * last_step, 0.1 * last_step);
        const Eigen::VectorXd next = areas() * std::exp(2 * log_step);
        const double part = std::min(1.0, (start - pressure + fall) / (start - pressure_kPa));
        if (!step(stroke, next, area_tolerance,
                  stroke.share_before + part * (stroke.share_after - stroke.share_before)))
            return false;
        const double now = highest_pressure();
        slope = std::max((now - pressure) / log_step, 1e-3 * slope);
        pressure = now;
        last_step = log_step;
    }
    after_half_stroke_(stroke.number, stroke.phase);
    return true;
}

std::vector<PileDriver::HalfStroke> PileDriver::half_strokes() const {
    const StrokePlan& plan = plan_.strokes;
    const double sigma_v0 = momentum_.slice().vertical_stress_kPa;
    const Eigen::ArrayXd whole = finished_areas();
    const Eigen::ArrayXd casing = Eigen::ArrayXd::Constant(whole.size(), circle(plan.casing_diameter_m));

    // Growth increments in proportion to ln(radius), of increments_per_pile for the whole pile.
    const double seed = circle(2 * plan.seed_radius_m);
    const auto increments = [&](const Eigen::ArrayXd& from, const Eigen::ArrayXd& to) {
        const double part = std::log((seed + to(largest_)) / (seed + from(largest_))) /
                            std::log((seed + whole(largest_)) / seed);
        return std::max(1, static_cast<int>(std::ceil(plan_.steps.increments_per_pile * part - 1e-9)));
    };
    const bool relaxes = plan.final_pressure_ratio > 0;
    const bool cased = plan.casing_diameter_m > 0;
    const double phases = (cased || plan.strokes == 0 ? 1 : 0) + 2 * plan.strokes + (relaxes ? 1 : 0);
    double done = 0;
    const Schedule& schedule = plan_.schedule;
    const auto stroke = [&](int number, Phase phase) {
        const double before = done / phases;
        const double duration = phase == Phase::Withdrawal || phase == Phase::Relaxation
                                    ? schedule.withdrawal_s
                                : phase == Phase::Redrive ? schedule.redrive_s
                                                          : schedule.casing_pass_s;
        return Stroke{number, phase, before, ++done / phases,
                      duration}; // of the half stroke; increments share it
    };

    std::vector<HalfStroke> all;
    const Eigen::ArrayXd none = Eigen::ArrayXd::Zero(whole.size());
    if (plan.strokes == 0)
        all.push_back({stroke(0, Phase::Growth), whole, increments(none, whole)});
    else if (cased)
        all.push_back({stroke(0, Phase::CasingPass), casing, increments(none, casing)});
    for (int n = 1; n <= plan.strokes; ++n) {
        const Eigen::ArrayXd before = casing + (whole - casing) * (n - 1) / plan.strokes;
        const Eigen::ArrayXd after = casing + (whole - casing) * n / plan.strokes;
        const bool has_wall = cased || n > 1; // nothing to withdraw from before the first growth
        all.push_back(
            {stroke(n, Phase::Withdrawal),
             {},
             0,
             has_wall ? plan.withdrawal_pressure_ratio * sigma_v0 : std::numeric_limits<double>::infinity()});
        all.push_back({stroke(n, Phase::Redrive), after,
                       plan_.steps.increments_per_half_stroke + increments(before, after)});
    }
    if (relaxes)
        all.push_back({stroke(plan.strokes, Phase::Relaxation), {}, 0, plan.final_pressure_ratio * sigma_v0});
    return all;
}

bool PileDriver::drive(const std::vector<PileDisc*>& discs, const std::vector<double>& seed_area_m2,
                       const WorkDone& done) {
    discs_ = discs;
    seed_area_ = Eigen::Map<const Eigen::VectorXd>(seed_area_m2.data(),
                                                   static_cast<Eigen::Index>(seed_area_m2.size()));
    finished_areas().maxCoeff(&largest_); // the first among equals
    const std::vector<HalfStroke> all = half_strokes();
    for (std::size_t k = static_cast<std::size_t>(done.half_strokes); k < all.size(); ++k) {
        at_restart_point_({static_cast<int>(k), 0, 0});
        const HalfStroke& next = all[k];
        const bool grows = next.injected_area_m2.size() > 0;
        if (!(grows ? grow(next.stroke, next.injected_area_m2, next.least_increments)
                    : shrink(next.stroke, next.pressure_kPa)))
            return false;
    }
    return true;
}

bool PileDriver::rest(double duration_s, int last_pile, const WorkDone& done) {
    // Backward Euler errs with the last steps: a decaying pressure by at most 0.015 of its first value, in 26 steps; from a
    // share 1e-4 by 1.5 it were 0.047 in 22.
    constexpr double growth = 1.1, first_share = 1e-2;
    discs_.clear();
    double step_s = done.rest_s > 0 ? done.rest_step_s : first_share * duration_s;
    int halvings = 0;
    if (!(done.rest_s > 0)) {
        equilibrium_.forget_direction();
        at_restart_point_({});
    }
    for (double done_s = done.rest_s; done_s < duration_s * (1 - 1e-12);) {
        if (plan_.schedule.largest_step_s > 0)
            step_s = std::min(step_s, plan_.schedule.largest_step_s);
        const double now_s = std::min(step_s, duration_s - done_s);
        // No disc grows: the viscosity that an increment of the usual size would have.
        momentum_.set_hourglass(plan_.steps.hourglass * plan_.strokes.seed_radius_m /
                                plan_.steps.radius_step);
        momentum_.set_duration(last_step_s_ = now_s);
        equilibrium_.refresh();
        const IncrementResult result = equilibrium_.solve(Eigen::VectorXd(), now_s, area_tolerance);
        if (!result.converged) {
            if (++halvings > plan_.steps.max_halvings)
                give_up(fmt::format("rest after pile {}", last_pile + 1), result);
            step_s = now_s / 4;
            equilibrium_.forget_direction();
            continue;
        }
        done_s += now_s;
        step_s = growth * now_s;
        halvings = 0;
        IncrementRecord record = record_of(result);
        record.pile = last_pile;
        record.phase = Phase::Rest;
        record.share_done = 1;
        const bool stop = after_(record);
        after_half_stroke_(0, Phase::Rest);
        at_restart_point_({0, done_s, step_s});
        if (stop)
            return false;
    }
    return true;
}

} // namespace interpile::solver
