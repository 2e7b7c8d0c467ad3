#include "io/case_report.h"

#include "io/critical_state_report.h"
#include "io/layout_map.h"
#include "io/progress.h"
#include "io/run_estimate.h"
#include "io/vocabulary.h"
#include "io/water_report.h"
#include "mesh/grid.h"
#include "mesh/ground_area.h"
#include "solver/density_regions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace interpile::io {

namespace {

std::vector<mesh::Vec2> centers_of(const Case& run_case) {
    std::vector<mesh::Vec2> centers;
    for (const auto& pile : run_case.plan.piles)
        centers.push_back(pile.center_m);
    return centers;
}

/// Shared heave without a margin although most of the domain has no piles. The piles serve their tributary area.
bool heaves_far_beyond_piles(const Case& run_case) {
    const auto tributary = mesh::tributary_area_m2(run_case.layout);
    return run_case.slice.vertical == solver::VerticalCondition::Shared &&
           std::isinf(run_case.slice.heaving_high_m.x()) && tributary && *tributary > 0 &&
           run_case.domain.area_m2() > 2 * *tributary * static_cast<double>(run_case.plan.piles.size());
}

std::string row(std::string_view label, const std::string& value) {
    return fmt::format("  {:<34} {}\n", label, value);
}

/// What the mirror images of a cell mean for the order of work.
std::string cell_remark(const Case& run_case) {
    const std::string cell = "The domain is a cell of an endless pattern, mirrored at its sides: ";
    if (run_case.plan.order.size() == 1)
        return cell + "all piles of the pattern are driven at the same time.";
    if (run_case.layout.pattern == mesh::Pattern::Triangular)
        return cell + "every second row of the pattern is driven first, all at the same time, then the rows "
                      "between.";
    return cell + "with a pile all its mirror images are driven at the same time.";
}

std::string ground_rows(const solver::Slice& slice) {
    return row("effective vertical stress", fmt::format("{:.4g} kPa", slice.vertical_stress_kPa)) +
           row("effective horizontal stress",
               fmt::format("{:.4g} kPa", slice.K0 * slice.vertical_stress_kPa)) +
           row("void ratio before", fmt::format("{:.4g}", slice.void_ratio)) +
           row("relative density before",
               fmt::format("{:.4g} %", slice.relative_density_pct(slice.void_ratio)));
}

double mean_stress_kPa(const solver::Slice& slice) {
    return (1 + 2 * slice.K0) / 3 * slice.vertical_stress_kPa;
}

std::string critical_state_rows(const Case& run_case) {
    std::string text;
    if (const std::string line = critical_line_text(run_case.soil); !line.empty())
        text += row("critical state line", line);
    const double p = mean_stress_kPa(run_case.slice);
    if (const std::string state = p > 0 ? critical_state_text(run_case.soil, p) : std::string();
        !state.empty())
        text += row(fmt::format("critical state at p' {:.4g} kPa", p), state);
    return text;
}

std::string region_rows(const solver::Slice& slice, const mesh::Grid& grid) {
    const auto holding = solver::region_of_cells(grid, slice.regions);
    const Eigen::ArrayXd area = mesh::cell_areas(grid);
    std::string text;
    for (std::size_t k = 0; k < slice.regions.size(); ++k) {
        const auto& region = slice.regions[k];
        double held_m2 = 0;
        for (Eigen::Index cell = 0; cell < area.size(); ++cell)
            if (holding[static_cast<std::size_t>(cell)] == static_cast<int>(k))
                held_m2 += area(cell);
        text += row(fmt::format("before in \"{}\"", region.name),
                    fmt::format("relative density {:.4g} %, void ratio {:.4g}, over {:.4g} m2",
                                slice.relative_density_pct(region.void_ratio), region.void_ratio, held_m2));
    }
    return text;
}

std::string pile_rows(const Case& run_case) {
    const auto& plan = run_case.plan;
    const auto [least, most] =
        std::minmax_element(plan.piles.begin(), plan.piles.end(),
                            [](const auto& a, const auto& b) { return a.diameter_m < b.diameter_m; });
    const auto for_both = [&, thin = least->diameter_m, thick = most->diameter_m](auto value) {
        return thin == thick ? fmt::format("{:.4g}", value(thin))
                             : fmt::format("{:.4g} to {:.4g}", value(thin), value(thick));
    };
    double inside = 0, over_area = 0; // parts of piles on sides of symmetry count as parts
    for (const auto& pile : plan.piles) {
        inside += run_case.domain.inside_share(pile.center_m);
        over_area += mesh::area_replacement_ratio_in(run_case.domain, {pile.center_m}, pile.diameter_m);
    }
    const bool cut = inside < static_cast<double>(plan.piles.size());
    std::string text = row("piles", std::to_string(plan.piles.size()) +
                                        (cut ? fmt::format(", their parts inside make {:.4g}", inside) : ""));
    const auto tributary = mesh::tributary_area_m2(run_case.layout);
    if (tributary && *tributary > 0) {
        const auto ratio = mesh::area_replacement_ratio(run_case.layout, most->diameter_m);
        text += row("tributary area", fmt::format("{:.4g} m2 per pile", *tributary));
        text += row("area replacement ratio", fmt::format("{:.4g}", *ratio));
    }
    text += row("piles over area of the domain", fmt::format("{:.4g}", over_area));
    if (least->diameter_m < most->diameter_m)
        text += row("finished diameter", for_both([](double d) { return d; }) + " m, by the table");
    if (plan.strokes.strokes == 0)
        text += row("growth of a pile", "one monotonic growth, no casing pass, no strokes");
    else
        text +=
            row("growth of a pile",
                fmt::format("{}{} stroke{}", plan.strokes.casing_diameter_m > 0 ? "casing pass, then " : "",
                            plan.strokes.strokes, plan.strokes.strokes == 1 ? "" : "s"));
    return text +
           row("injected area",
               for_both([](double d) { return std::numbers::pi * d * d / 4; }) + " m2 per pile") +
           row("disc of the pile in the slice",
               fmt::format(
                   "radius {:.4g} m, grows to {} m", plan.strokes.seed_radius_m,
                   for_both([&](double d) { return std::hypot(plan.strokes.seed_radius_m, d / 2); })));
}

std::string water_rows(const Case& run_case) {
    std::string text;
    for (const auto& [label, value] : water_numbers(run_case))
        text += row(label, value);
    return text;
}

std::string record_rows(const Case& run_case) {
    const auto& record = run_case.plan.record;
    std::string text;
    if (run_case.target_relative_density_pct)
        text +=
            row("target relative density", fmt::format("{:.4g} %", *run_case.target_relative_density_pct));
    for (const auto& point : record.points)
        text += row("watched: " + point.name,
                    fmt::format("({:.4g}, {:.4g}) m, mean within {:.3g} m", point.at_m.x(), point.at_m.y(),
                                record.sampling_radius_m));
    return text;
}

std::string grid_rows(const Case& run_case, const mesh::Grid& grid) {
    const auto& domain = run_case.domain;
    const auto quality = mesh::grid_quality(grid);
    const auto estimate = estimate_run(run_case, grid);
    return row("domain", fmt::format("x {:.4g} .. {:.4g} m, y {:.4g} .. {:.4g} m{}", domain.low.x(),
                                     domain.high.x(), domain.low.y(), domain.high.y(),
                                     domain.shape == mesh::DomainShape::Round ? ", round" : "")) +
           row("cells", fmt::format("{} ({} x {}), {} unknowns", estimate.cells, grid.cells_x, grid.cells_y,
                                    estimate.unknowns)) +
           row("cell edges",
               fmt::format("{:.4g} .. {:.4g} m, aspect up to {:.3g}, neighbors up to {:.3g} : 1",
                           quality.smallest_cell_m, quality.largest_cell_m, quality.largest_aspect,
                           quality.largest_neighbor_ratio)) +
           row("sharpest corner", fmt::format("sine {:.3g}", quality.smallest_corner_sine)) +
           row("increments", fmt::format("{}, more where halving is needed", estimate.increments)) +
           row("expected time and memory",
               fmt::format("about {}, {:.2g} GB (rough, a factor of 3 either way)",
                           duration_words(estimate.time_s), estimate.memory_bytes / 1e9));
}

} // namespace

std::string configuration_text(const Case& run_case) {
    std::size_t key_width = 0, value_width = 0;
    for (const auto& setting : run_case.settings) {
        key_width = std::max(key_width, setting.key.size());
        value_width = std::max(value_width, std::min<std::size_t>(setting.value.size(), 24));
    }
    std::string text;
    for (const auto& setting : run_case.settings)
        text += fmt::format("  {:<{}} = {:<{}}{}\n", setting.key, key_width, setting.value,
                            setting.is_default ? value_width : 0,
                            setting.is_default ? "  default: " + setting.source : "");
    return text;
}

std::string derived_numbers_text(const Case& run_case) {
    const auto grid = mesh::make_grid(run_case.domain, centers_of(run_case), run_case.grid);
    return ground_rows(run_case.slice) + critical_state_rows(run_case) + region_rows(run_case.slice, grid) +
           pile_rows(run_case) + water_rows(run_case) + record_rows(run_case) + grid_rows(run_case, grid);
}

std::vector<std::string> remarks(const Case& run_case) {
    std::vector<std::string> sentences;
    if (!solver::make_soil_model(run_case.soil)->densifies_by_cycles())
        sentences.push_back(fmt::format(
            "Model \"{}\" cannot densify by strokes: it is elastic inside a fixed yield surface. Stress, "
            "heave and "
            "displacement follow from it; its relative density after treatment is not a prediction.",
            run_case.soil.name));
    if (auto remark = critical_line_remark(run_case.soil, mean_stress_kPa(run_case.slice)); !remark.empty())
        sentences.push_back(std::move(remark));
    if (run_case.plan.strokes.strokes == 0)
        sentences.push_back(
            "Without strokes a pile is one monotonic growth, which cannot show densification by "
            "withdrawal and re-driving.");
    if (run_case.slice.vertical == solver::VerticalCondition::Fixed && run_case.plan.piles.size() > 1)
        sentences.push_back(
            "With vertical_condition \"fixed\" no ground can rise: stresses between several piles are an "
            "upper bound, far above what a drive can reach.");
    if (heaves_far_beyond_piles(run_case))
        sentences.push_back(
            "The whole domain heaves as one body, ground far from the piles too, which understates heave "
            "between them; ground.heaving_margin_m limits it to the treated area.");
    if (run_case.layout.cell)
        sentences.push_back(cell_remark(run_case));
    for (auto& sentence : water_remarks(run_case))
        sentences.push_back(std::move(sentence));
    return sentences;
}

std::string caution() {
    return "Results need checking by licensed practice; local codes and field control govern.";
}

std::string case_report(const Case& run_case) {
    std::string text = fmt::format(
        "{}\n\nConfiguration in force\n{}\nDerived numbers\n{}\nLayout\n{}\nOrder of work\n{}\nRemarks\n",
        run_case.title, configuration_text(run_case), derived_numbers_text(run_case),
        layout_map(centers_of(run_case), run_case.plan.order), order_of_work(run_case.plan.order));
    for (const auto& sentence : remarks(run_case))
        text += fmt::format("  - {}\n", sentence);
    return text + fmt::format("\n{}\n", caution());
}

} // namespace interpile::io
