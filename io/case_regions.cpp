// [[region]] of a case: ground that is looser or denser than the rest before treatment.

#include "io/case_parts.h"
#include "solver/density_regions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace interpile::io {

namespace {

using mesh::PlanRegion;
using mesh::Vec2;

std::string table_of(std::size_t index) {
    return fmt::format("region[{}]", index + 1);
}

/// Two keys that go together: a fault names the one that is missing.
bool both_given(CaseValues& values, const std::string& a, const std::string& b, const std::string& names) {
    for (const auto& path : {a, b})
        if (!values.given(path))
            values.missing(path, names + " go together");
    return values.has(a) && values.has(b);
}

PlanRegion read_place(CaseValues& values, const std::string& table) {
    const std::string x = table + ".x_m", y = table + ".y_m", center = table + ".center_m",
                      radius = table + ".radius_m";
    const bool rectangle = values.given(x) || values.given(y);
    const bool circle = values.given(center) || values.given(radius);
    if (!rectangle && !circle)
        values.missing(x, "neither x_m and y_m nor center_m and radius_m are given");
    else if (rectangle && circle)
        values.fault(values.given(center) ? center : radius, "and x_m, y_m exclude each other",
                     "Keep the rectangle or the circle.");
    else if (rectangle && both_given(values, x, y, "x_m and y_m")) {
        const auto &along_x = values.numbers(x), &along_y = values.numbers(y);
        return {PlanRegion::Shape::Rectangle, {along_x[0], along_y[0]}, {along_x[1], along_y[1]}};
    } else if (circle && both_given(values, center, radius, "center_m and radius_m")) {
        const auto& at = values.numbers(center);
        return PlanRegion::circle({at[0], at[1]}, values.number(radius));
    }
    return {};
}

/// Along x, y or both: the region lies beside the domain.
std::array<bool, 2> beside(const PlanRegion& place, const mesh::Domain& domain) {
    std::array<bool, 2> axes = {};
    for (int axis = 0; axis < 2; ++axis)
        axes[static_cast<std::size_t>(axis)] =
            place.high[axis] < domain.low[axis] || place.low[axis] > domain.high[axis];
    return axes;
}

/// The key to blame for the place of a region.
std::string place_key(const PlanRegion& place, const mesh::Domain& domain) {
    if (place.shape == PlanRegion::Shape::Circle)
        return ".center_m";
    const auto [x, y] = beside(place, domain);
    return y && !x ? ".y_m" : ".x_m";
}

/// Why no cell has the density of this region.
std::string why_without_cells(const solver::DensityRegion& region, const mesh::Grid& grid,
                              const mesh::Domain& domain) {
    if (const auto [x, y] = beside(region.place, domain); x || y)
        return fmt::format("lies outside the domain, x {:.6g} .. {:.6g}, y {:.6g} .. {:.6g} m",
                           domain.low.x(), domain.high.x(), domain.low.y(), domain.high.y());
    const auto alone = solver::region_of_cells(grid, {region});
    return std::count(alone.begin(), alone.end(), 0) > 0 ? "is hidden by later regions"
                                                         : "holds the middle of no cell";
}

} // namespace

std::vector<solver::DensityRegion> read_regions(CaseValues& values, const solver::Slice& slice) {
    std::vector<solver::DensityRegion> regions;
    for (int n = 0; n < values.repeated_count("region"); ++n) {
        const std::string table = table_of(regions.size());
        solver::DensityRegion region;
        values.derive(table + ".name", fmt::format("region {}", n + 1));
        if (values.has(table + ".name"))
            region.name = values.text(table + ".name");
        region.place = read_place(values, table);
        region.void_ratio = read_void_ratio(values, table, slice);
        regions.push_back(region);
    }
    return regions;
}

void check_regions(const CaseValues& values, const Case& run_case) {
    const auto& regions = run_case.slice.regions;
    if (regions.empty())
        return;
    std::vector<Vec2> centers;
    for (const auto& pile : run_case.plan.piles)
        centers.push_back(pile.center_m);
    const mesh::Grid grid = mesh::make_grid(run_case.domain, centers, run_case.grid);
    const auto holding = solver::region_of_cells(grid, regions);
    for (std::size_t k = 0; k < regions.size(); ++k)
        if (std::count(holding.begin(), holding.end(), static_cast<int>(k)) == 0)
            values.fault(table_of(k) + place_key(regions[k].place, run_case.domain),
                         why_without_cells(regions[k], grid, run_case.domain),
                         "Every region must hold somewhere; cells belong to it by their middle.");
}

} // namespace interpile::io
