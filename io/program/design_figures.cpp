#include "io/program/design_figures.h"

#include "io/site_summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace interpile::program {

namespace {

using mesh::Vec2;
using solver::BoringDesign;

constexpr double none = std::numeric_limits<double>::quiet_NaN();
constexpr const char* source = "interpile " INTERPILE_VERSION ", interpile design";

/// Neighboring samples of one name make one band.
std::vector<postprocess::ProfileBand> bands_of(const BoringDesign& design) {
    std::vector<postprocess::ProfileBand> bands;
    for (std::size_t i = 0; i < design.boring.samples.size(); ++i) {
        const auto& sample = design.boring.samples[i];
        std::string name = sample.soil;
        if (name.empty())
            name = sample.sand ? "sand" : "clay or silt";
        const auto& interval = design.intervals[i];
        if (!bands.empty() && bands.back().name == name && bands.back().sand == sample.sand)
            bands.back().bottom_m = interval.bottom_m;
        else
            bands.push_back({interval.top_m, interval.bottom_m, name, sample.sand});
    }
    return bands;
}

double rounded_up(double value, double step) {
    return step * std::ceil(value / step - 1e-9);
}

postprocess::ProfilePanel blow_count_panel(const io::SiteFile& site, const BoringDesign& design) {
    postprocess::ProfilePanel panel{"blow count N", {}, 0, 20, {}, {}};
    const auto& method = design.methods[site.spacing_by];
    postprocess::ProfileCurve before{"measured", {}}, target{"wanted", {}};
    postprocess::ProfileCurve after{fmt::format("after, {}", solver::letter_of(method.method)), {}};
    double largest = 0;
    for (std::size_t i = 0; i < design.boring.samples.size(); ++i) {
        const auto& sample = design.boring.samples[i];
        const auto& need = design.needs[i];
        before.points.emplace_back(sample.blow_count, sample.depth_m);
        target.points.emplace_back(need.target_blow_count.value_or(none), sample.depth_m);
        after.points.emplace_back(need.treated && method.governing ? method.blow_counts_after[i] : none,
                                  sample.depth_m);
        largest = std::max({largest, sample.blow_count, need.target_blow_count.value_or(0)});
    }
    panel.curves = {before, target};
    if (method.governing)
        panel.curves.push_back(after);
    panel.high = std::clamp(rounded_up(1.3 * largest, 10), 10.0, 60.0);
    return panel;
}

/// At most the procedures that answer somewhere.
postprocess::ProfilePanel safety_panel(const BoringDesign& design) {
    postprocess::ProfilePanel panel{"safety factor F_L, before", {}, 0, 2, 1.0, "F_L 1"};
    for (std::size_t p = 0; p < solver::procedure_table().size(); ++p) {
        postprocess::ProfileCurve curve{solver::procedure_table()[p].name, {}};
        bool any = false;
        for (const auto& sample : design.before.samples) {
            const double value = sample.judged ? sample.factors[p].value : none;
            any = any || !std::isnan(value);
            // An infinite F_L is drawn as any other beyond the axis.
            curve.points.emplace_back(std::isinf(value) ? 1e3 : value, sample.point.depth_m);
        }
        if (any)
            panel.curves.push_back(std::move(curve));
    }
    return panel;
}

postprocess::ProfilePanel ratio_panel(const io::SiteFile& site, const BoringDesign& design) {
    const double largest = site.aims.largest_replacement_ratio;
    postprocess::ProfilePanel panel{"replacement ratio a_s asked for", {},      0,
                                    rounded_up(1.1 * largest, 0.05),   largest, "largest"};
    for (std::size_t m = 0; m < site.aims.methods.size(); ++m) {
        postprocess::ProfileCurve curve{fmt::format("method {}", solver::letter_of(site.aims.methods[m])),
                                        {}};
        for (std::size_t i = 0; i < design.needs.size(); ++i) {
            double ratio = none;
            if (!design.needs[i].methods.empty()) {
                const auto& need = design.needs[i].methods[m];
                const bool beyond = need.kind == solver::NeedKind::OutOfReach;
                ratio = beyond ? std::max(2 * largest, need.result.replacement_ratio) // drawn beyond the axis
                               : need.result.replacement_ratio;
            }
            curve.points.emplace_back(ratio, design.boring.samples[i].depth_m);
        }
        panel.curves.push_back(std::move(curve));
    }
    return panel;
}

std::vector<std::string> warnings_of(const BoringDesign& design) {
    std::vector<std::string> warnings = {io::design_caution()};
    for (const auto& method : design.methods)
        if (method.out_of_reach)
            warnings.push_back(fmt::format("Out of reach of method {} at {:g} m.",
                                           solver::letter_of(method.method),
                                           design.boring.samples[*method.governing].depth_m));
    return warnings;
}

std::string spacing_note(const io::SiteFile& site, const BoringDesign& design) {
    const auto& method = design.methods[site.spacing_by];
    if (!method.governing)
        return has_target(design) ? "The target holds before treatment." : "No target at any depth.";
    return fmt::format("After: method {} with piles of {:g} m at {:.2f} m (a_s {:.3f}), density alone.",
                       solver::letter_of(method.method), site.aims.diameter_m, method.practical_spacing_m,
                       method.practical_ratio);
}

} // namespace

postprocess::ProfileFigure profile_figure(const io::SiteFile& site, const BoringDesign& design) {
    postprocess::ProfileFigure figure;
    figure.title = site.title;
    figure.subtitle = fmt::format("Boring {}, wanted: {}", design.boring.name, io::target_text(site.aims));
    figure.source = source;
    figure.warnings = warnings_of(design);
    figure.notes = {spacing_note(site, design)};
    figure.water_depth_m = design.boring.water_depth_m;
    figure.quake_water_depth_m = design.boring.quake_water_depth_m;
    figure.deepest_m = design.intervals.back().bottom_m;
    figure.bands = bands_of(design);
    figure.panels = {blow_count_panel(site, design), safety_panel(design), ratio_panel(site, design)};
    std::erase_if(figure.panels, [](const auto& panel) { return panel.curves.empty(); });
    return figure;
}

std::optional<postprocess::BlowCountFigure> ratio_figure(const io::SiteFile& site,
                                                         const BoringDesign& design) {
    const auto& governing = design.methods[site.spacing_by].governing;
    if (!governing)
        return {};
    postprocess::BlowCountFigure figure;
    const auto& sample = design.boring.samples[*governing];
    figure.title = site.title;
    figure.subtitle = fmt::format("Boring {} at {:g} m: N {:g}, fines {:g} %, effective stress {:.0f} kPa",
                                  design.boring.name, sample.depth_m, sample.blow_count, sample.fines_pct,
                                  design.at_boring[*governing].effective_kPa);
    figure.source = source;
    figure.warnings = {io::design_caution()};
    figure.notes = {
        "N between the piles at equal density gained; the effect of lateral stress on N is not in it."};
    figure.blow_count_before = sample.blow_count;
    figure.target = design.needs[*governing].target_blow_count;
    figure.largest_ratio = site.aims.largest_replacement_ratio;
    constexpr int steps = 60;
    for (const auto method : site.aims.methods) {
        postprocess::BlowCountCurve curve;
        curve.name = fmt::format("method {}", solver::letter_of(method));
        for (int n = 0; n <= steps; ++n) {
            const double ratio = figure.largest_ratio * n / steps;
            const auto result = predict_at(design, *governing, method, site.aims, ratio);
            if (!std::isfinite(result.blow_count_after))
                continue;
            if (!result.outside.empty())
                curve.outside_from = std::min(curve.outside_from, ratio);
            curve.points.emplace_back(ratio, result.blow_count_after);
        }
        if (!curve.points.empty())
            figure.curves.push_back(std::move(curve));
    }
    return figure;
}

std::optional<postprocess::ScatterFigure> scatter_figure(const io::SiteFile& site,
                                                         const solver::AfterReview& review) {
    postprocess::ScatterFigure figure;
    figure.title = site.title;
    figure.subtitle = "Blow counts between the piles, measured against predicted";
    figure.source = "interpile " INTERPILE_VERSION ", interpile after-treatment";
    figure.warnings = {io::design_caution()};
    figure.notes = {
        "Predictions count density alone; N measured holds the effect of the lateral stress too."};
    bool any = false;
    const auto add = [&](postprocess::ScatterSeries series) {
        any = any || !series.points.empty();
        if (!series.points.empty())
            figure.series.push_back(std::move(series));
    };
    for (std::size_t m = 0; m < site.aims.methods.size(); ++m) {
        postprocess::ScatterSeries series{fmt::format("method {}", solver::letter_of(site.aims.methods[m])),
                                          {}};
        for (const auto& c : review.comparisons)
            if (c.left_out.empty() && std::isfinite(c.predictions[m].blow_count_after))
                series.points.emplace_back(c.predictions[m].blow_count_after, c.measured.blow_count);
        add(std::move(series));
    }
    postprocess::ScatterSeries simulated{"simulation", {}};
    for (const auto& c : review.comparisons)
        if (c.left_out.empty() && c.measured.simulated_blow_count)
            simulated.points.emplace_back(*c.measured.simulated_blow_count, c.measured.blow_count);
    add(std::move(simulated));
    return any ? std::optional(figure) : std::nullopt;
}

} // namespace interpile::program
