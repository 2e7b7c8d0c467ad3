#include "postprocess/ground_summary.h"

#include "mesh/ground_area.h"
#include "postprocess/ground.h"
#include "postprocess/label.h"
#include "postprocess/smoothing.h"
#include "postprocess/time_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace interpile::postprocess {

using mesh::Vec2;

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

std::string pile_of(const StageGround& at) {
    return at.after_rest ? "rest" : at.pile < 0 ? "-" : std::to_string(at.pile + 1);
}

double mean_pressure_kPa(const io::ResultsStage& stage, const Eigen::ArrayXd& area) {
    const auto found = stage.fields.find("excess_pore_pressure_kPa");
    return found == stage.fields.end() ? unknown : mesh::area_mean(area, found->second);
}

/// Nodes of the treated area, first choice those without pile material around them.
std::vector<int> judged_nodes(const io::ResultsHeader& header, const mesh::Grid& grid,
                              const std::vector<bool>& ground) {
    std::vector<bool> beside_ground(grid.node_count(), false), beside_pile(grid.node_count(), false);
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell))
            (ground[cell] ? beside_ground : beside_pile)[node] = true;
    std::vector<int> clear, any;
    for (int node = 0; node < grid.node_count(); ++node) {
        if (!beside_ground[node] || !header.treated.contains(grid.node_m.col(node)))
            continue;
        any.push_back(node);
        if (!beside_pile[node])
            clear.push_back(node);
    }
    return clear.empty() ? any : clear;
}

struct Judged {
    GroundSummary summary;
    int weakest_node = 0;
};

std::optional<Judged> judge(const io::ResultsHeader& header, const io::ResultsStage& stage,
                            const std::string& field) {
    const auto& value = field_values(stage, field);
    const auto grid = current_grid(header, stage);
    const auto ground = ground_cells(stage);
    const auto area = mesh::ground_area_m2(grid, field_values(stage, "pile_share"), header.treated);
    const auto nodes = judged_nodes(header, grid, ground);
    if (area.sum() <= 0 || nodes.empty())
        return {};
    Eigen::ArrayXd area_of_node = Eigen::ArrayXd::Zero(grid.node_count());
    for (int cell = 0; cell < grid.cell_count(); ++cell)
        for (int node : grid.cell_nodes(cell))
            area_of_node[node] += area[cell] / 4;

    const auto at_nodes = node_averages(grid, value, ground);
    const auto weaker = [&](int a, int b) { return at_nodes[a] < at_nodes[b]; };
    const auto [weakest, strongest] = std::minmax_element(nodes.begin(), nodes.end(), weaker);
    const double mean = field == "lateral_stress_ratio"
                            ? mesh::lateral_stress_ratio(area, field_values(stage, "lateral_stress_kPa"),
                                                         field_values(stage, "vertical_stress_kPa"))
                            : mesh::area_mean(area, value);
    return Judged{{area.sum(), mean, at_nodes[*weakest], at_nodes[*strongest], grid.node_m.col(*weakest),
                   AreaDistribution(at_nodes(nodes), area_of_node(nodes))},
                  *weakest};
}

} // namespace

std::optional<GroundSummary> between_piles(const io::ResultsHeader& header, const io::ResultsStage& stage,
                                           const std::string& field) {
    if (auto judged = judge(header, stage, field))
        return std::move(judged->summary);
    return {};
}

PointValues points_at(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    const auto grid = current_grid(header, stage);
    const auto count = static_cast<Eigen::Index>(header.points.size());
    PointValues values{Eigen::ArrayXd(count), Eigen::ArrayXd(count), Eigen::ArrayXd(count)};
    for (Eigen::Index k = 0; k < count; ++k) {
        const auto area = mesh::ground_area_m2(grid, field_values(stage, "pile_share"), header.points[k].at_m,
                                               header.sampling_radius_m);
        values.density_pct[k] = mesh::area_mean(area, field_values(stage, "relative_density_pct"));
        values.stress_ratio[k] = mesh::lateral_stress_ratio(area, field_values(stage, "lateral_stress_kPa"),
                                                            field_values(stage, "vertical_stress_kPa"));
        values.pressure_kPa[k] = mean_pressure_kPa(stage, area);
    }
    return values;
}

std::optional<StageGround> ground_at(const io::ResultsHeader& header, const io::ResultsStage& stage) {
    auto judged = judge(header, stage, "relative_density_pct");
    if (!judged)
        return {};
    const auto grid = current_grid(header, stage);
    const auto ground = ground_cells(stage);
    const auto& pile_share = field_values(stage, "pile_share");
    const auto& lateral = field_values(stage, "lateral_stress_kPa");
    const auto& vertical = field_values(stage, "vertical_stress_kPa");

    const auto treated = mesh::ground_area_m2(grid, pile_share, header.treated);

    StageGround at{stage.stage, stage.pile, stage.converged, std::move(judged->summary), 0, 0, {}, {}};
    at.time_s = stage.time_s;
    at.after_rest = stage.after_rest;
    at.excess_pressure_kPa = mean_pressure_kPa(stage, treated);
    at.mean_stress_ratio = mesh::lateral_stress_ratio(treated, lateral, vertical);
    const double weakest_vertical = node_averages(grid, vertical, ground)[judged->weakest_node];
    at.weakest_stress_ratio =
        weakest_vertical > 0 ? node_averages(grid, lateral, ground)[judged->weakest_node] / weakest_vertical
                             : unknown;
    at.points = points_at(header, stage);
    if (header.target_relative_density_pct)
        at.share_below_target = at.density.distribution.share_below(*header.target_relative_density_pct);
    return at;
}

std::string ground_table(const io::ResultsHeader& header, const std::vector<StageGround>& stages) {
    if (stages.empty())
        return {};
    const auto& target = header.target_relative_density_pct;
    const auto width = [](const mesh::ObservationPoint& point) {
        return std::max(8, static_cast<int>(point.name.size()));
    };
    const auto any = [&](const auto& holds) { return std::any_of(stages.begin(), stages.end(), holds); };
    const bool in_time = any([](const StageGround& at) { return at.time_s > 0; });
    const bool under_pressure =
        in_time || any([](const StageGround& at) { return std::abs(at.excess_pressure_kPa) > 0; });
    std::string head = fmt::format("{:>5} {:>5}", "stage", "pile");
    if (in_time)
        head += fmt::format(" {:>11}", "time");
    if (under_pressure)
        head += fmt::format(" {:>8}", "Δu kPa");
    head += fmt::format(" {:>6} {:>6} {:>7} {:>7} {:>7}", "mean", "least", "at x m", "at y m", "K there");
    for (const auto& point : header.points)
        head += fmt::format(" {:>{}}", point.name, width(point));
    for (const double share : told_shares)
        head += fmt::format(" {:>3.0f} %", 100 * share);
    head += fmt::format(" {:>6}{}\n", "mean K", target ? "  below target" : "");

    std::string rows;
    for (const auto& at : stages) {
        const auto& weakest = at.density.least_at_m;
        rows += fmt::format("{:>5} {:>5}", at.stage, pile_of(at));
        if (in_time)
            rows += fmt::format(" {:>11}", time_in_words(at.time_s));
        if (under_pressure)
            rows += fmt::format(" {:>8}", number(at.excess_pressure_kPa, 1));
        rows += fmt::format(" {:>6.1f} {:>6.1f}", at.density.mean, at.density.least);
        rows += at.density.is_uniform() ? fmt::format(" {:>7} {:>7} {:>7}", "-", "-", "-")
                                        : fmt::format(" {:>7.2f} {:>7.2f} {:>7.2f}", weakest.x(), weakest.y(),
                                                      at.weakest_stress_ratio);
        for (std::size_t k = 0; k < header.points.size(); ++k) {
            const double value = at.points.density_pct[static_cast<Eigen::Index>(k)];
            rows += fmt::format(" {:>{}}", std::isnan(value) ? "-" : fmt::format("{:.1f}", value),
                                width(header.points[k]));
        }
        for (const double share : told_shares)
            rows += fmt::format(" {:>5.1f}", at.density.distribution.quantile(share));
        rows += fmt::format(" {:>6.2f}", at.mean_stress_ratio);
        if (at.share_below_target)
            rows += fmt::format(" {:>11.1f} %", 100 * *at.share_below_target);
        rows += at.converged ? "\n" : "  NOT CONVERGED\n";
    }
    return fmt::format(
        "Relative density{} of the ground between the piles, {:.4g} m2 without pile material [%]{}\n{}{}"
        "Least and 5 .. 95 % (that share of the area has less): smoothed as the contours show. Points: mean "
        "within "
        "{:.3g} m.\nK: mean horizontal over mean vertical effective stress.\n{}{}",
        header.monotonic_density ? " (*)" : "", stages.back().density.area_m2,
        target ? fmt::format("; target {:.4g} %", *target) : "", head, rows, header.sampling_radius_m,
        under_pressure ? "Δu: mean excess pore pressure of that ground.\n" : "",
        in_time ? "time: since the first pile was begun; rest: at the end of a rest after the last pile.\n"
                : "");
}

} // namespace interpile::postprocess
