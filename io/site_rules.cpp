#include "io/site_rules.h"

#include "solver/site/mean_boring.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

/// Spacing within a row over the diameter, of piles that touch.
double least_spacing_ratio(const solver::CellShape& shape) {
    const double ratio = shape.pattern == mesh::Pattern::Rectangular ? shape.row_spacing_ratio : 1;
    return std::max(1.0, 1 / ratio);
}

/// \param path  of the value that names the boring
void require_ordered_limits(const solver::Boring& boring, const solver::RelationChoice& relations,
                            const std::string& path, const CaseValues& values) {
    constexpr double least_range = 0.05; // own choice: sands have 0.2 .. 0.6, and no relation holds for less
    for (const auto& sample : boring.samples) {
        if (!sample.sand)
            continue;
        const auto [e_max, e_min] = solver::chosen_limits(sample, relations);
        const char* which = sample.e_max ? sample.e_min ? "both are" : "only e_max is" : "only e_min is";
        if (e_max - e_min < least_range)
            values.fault(
                path,
                fmt::format("has at {:g} m e_max = {:g} and e_min = {:g}, of which {} measured: e_min is "
                            "not below e_max by at least {:g}",
                            sample.depth_m, e_max, e_min, which, least_range),
                "Give both as measured on one sand, or neither.");
    }
}

} // namespace

double touching_ratio(const solver::CellShape& shape) {
    return solver::replacement_ratio(shape, least_spacing_ratio(shape) * (1 + 1e-9), 1);
}

void require_fitting_casing(const SiteFile& site, const CaseValues& values) {
    constexpr double largest_widening = 5; // own choice: a stroke withdraws 25 net rises
    const double casing = site.casing_diameter_m, pile = site.aims.diameter_m;
    const char* path =
        values.given("treatment.casing_diameter_m") ? "treatment.casing_diameter_m" : "treatment.diameter_m";
    if (casing > pile)
        values.fault(path,
                     fmt::format("leaves a casing of {:g} m wider than the pile of {:g} m", casing, pile));
    else if (pile > largest_widening * casing * (1 + 1e-9))
        values.fault(
            path, fmt::format("leaves a casing of {:g} m for a pile of {:g} m, more than {:g} times as wide",
                              casing, pile, largest_widening));
}

void require_apart_in_practice(const solver::TreatmentAims& aims, const CaseValues& values) {
    if (!values.has("treatment.diameter_m") || !values.has("treatment.largest_replacement_ratio") ||
        !values.has("treatment.spacing_step_m"))
        return;
    const double least = solver::spacing_m(aims.shape, aims.largest_replacement_ratio, aims.diameter_m);
    const double steps = std::floor(least / aims.spacing_step_m * (1 + 1e-12));
    const double touching = least_spacing_ratio(aims.shape) * aims.diameter_m;
    if (steps * aims.spacing_step_m < touching)
        values.fault(
            "treatment.spacing_step_m",
            fmt::format("may round the spacing down to {:g} m, where the piles overlap: "
                        "largest_replacement_ratio = {:g} asks for {:.3f} m, piles touch at {:.3f} m",
                        steps * aims.spacing_step_m, aims.largest_replacement_ratio, least, touching),
            "Make the step or the largest ratio smaller.");
}

void require_treated_sand(const SiteFile& site, const CaseValues& values) {
    const auto& aims = site.aims;
    if (!values.faults().empty())
        return; // a table that could not be read has no sand either
    const auto treated = [&](const solver::Boring& boring) {
        return std::ranges::any_of(boring.samples, [&](const solver::BoringSample& s) {
            return s.sand && s.depth_m >= aims.top_depth_m && s.depth_m <= aims.bottom_depth_m;
        });
    };
    const std::string lacks = fmt::format("has no sand between {:g} and {:g} m, the depths to be treated",
                                          aims.top_depth_m, aims.bottom_depth_m);
    for (std::size_t i = 0; i < site.borings.size(); ++i)
        if (!treated(site.borings[i]))
            values.fault(fmt::format("boring[{}].table", i + 1), lacks,
                         "Mend [treatment], or leave the boring out.");
    if (values.faults().empty() && site.design_by == DesignBy::Mean &&
        !treated(solver::mean_boring(site.borings)))
        values.fault("site.design_by", "is of a mean boring that " + lacks,
                     "Take \"worst\" or \"each\": the borings differ too much for a mean.");
}

void require_ordered_limits(const SiteFile& site, const CaseValues& values) {
    if (!values.faults().empty())
        return;
    for (std::size_t i = 0; i < site.borings.size(); ++i)
        require_ordered_limits(site.borings[i], site.relations, fmt::format("boring[{}].table", i + 1),
                               values);
    if (values.faults().empty() && site.design_by == DesignBy::Mean)
        require_ordered_limits(solver::mean_boring(site.borings), site.relations, "site.design_by", values);
}

} // namespace interpile::io
