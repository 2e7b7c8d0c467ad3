// [domain] and [grid] of a case.

#include "io/case_parts.h"
#include "mesh/pattern_cell.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace interpile::io {

namespace {

using mesh::BoundaryKind;
using mesh::Vec2;

constexpr double margin_in_seed_radii = 100; // as in the vocabulary
constexpr double most_cells = 2e6;           // own choice: about 10 GB of memory
const std::array<std::string, 4> side_paths = {"domain.west", "domain.east", "domain.south", "domain.north"};

BoundaryKind kind_of(const std::string& word) {
    return word == "symmetry"          ? BoundaryKind::Symmetry
           : word == "constant-stress" ? BoundaryKind::ConstantStress
                                       : BoundaryKind::RigidSmooth;
}

void read_extent(CaseValues& values, const std::vector<PlacedPile>& piles, mesh::Domain& domain) {
    const bool x = values.given("domain.x_m"), y = values.given("domain.y_m");
    if (x != y)
        values.missing(x ? "domain.y_m" : "domain.x_m", "x_m and y_m go together");
    if (x || y) {
        values.no_effect("domain.margin_m", "where domain.x_m and y_m are given");
        if (!values.has("domain.x_m") || !values.has("domain.y_m"))
            return;
        for (int axis = 0; axis < 2; ++axis) {
            const auto& ends = values.numbers(axis == 0 ? "domain.x_m" : "domain.y_m");
            domain.low[axis] = ends[0];
            domain.high[axis] = ends[1];
        }
        return;
    }
    if (values.has("pile.seed_radius_m"))
        values.derive("domain.margin_m", margin_in_seed_radii * values.number("pile.seed_radius_m"));
    if (piles.empty() || !values.has("domain.margin_m"))
        return;
    const Vec2 margin = Vec2::Constant(values.number("domain.margin_m"));
    const auto [low, high] = outermost(piles);
    domain.low = low - margin;
    domain.high = high + margin;
}

mesh::Domain read_rectangle(CaseValues& values, const std::vector<PlacedPile>& piles) {
    for (const auto* path : {"domain.radius_m", "domain.part", "domain.rim"})
        values.no_effect(path, "where domain.shape is \"rectangle\"");
    mesh::Domain domain;
    read_extent(values, piles, domain);
    for (std::size_t side = 0; side < 4; ++side)
        if (values.has(side_paths[side]))
            domain.side[side] = kind_of(values.text(side_paths[side]));
    for (const std::size_t low : {mesh::West, mesh::South})
        if (domain.side[low] == BoundaryKind::ConstantStress &&
            domain.side[low + 1] == BoundaryKind::ConstantStress)
            values.fault(
                side_paths[low + 1],
                fmt::format("leaves nothing that holds the ground in {}, as {} has constant stress too",
                            low == mesh::West ? "x" : "y", side_paths[low]),
                "Let one of the two be \"rigid-smooth\" or \"symmetry\".");
    return domain;
}

mesh::Domain read_round(CaseValues& values) {
    for (const auto* path : {"domain.x_m", "domain.y_m", "domain.margin_m"})
        values.no_effect(path, "where domain.shape is \"round\"");
    for (const auto& path : side_paths)
        values.no_effect(
            path, "where domain.shape is \"round\"; its arc is `rim`, its straight edges are symmetry");
    mesh::Domain domain;
    domain.shape = mesh::DomainShape::Round;
    if (!values.given("domain.radius_m"))
        values.missing("domain.radius_m", "shape \"round\" needs it");
    if (!values.has("domain.radius_m") || !values.has("domain.part") || !values.has("domain.rim"))
        return domain;
    const double radius = values.number("domain.radius_m");
    domain.high = {radius, radius};
    domain.side.fill(kind_of(values.text("domain.rim")));
    if (values.text("domain.part") == "whole" && values.text("domain.rim") == "constant-stress")
        values.fault("domain.rim", "leaves nothing that holds the ground of a whole disc",
                     "Compute a quarter (domain.part), or let the rim be \"rigid-smooth\".");
    if (values.text("domain.part") == "whole")
        domain.low = -domain.high;
    else
        domain.side[mesh::West] = domain.side[mesh::South] = BoundaryKind::Symmetry;
    return domain;
}

mesh::Domain read_cell(CaseValues& values, const mesh::LayoutSettings& layout,
                       const std::vector<PlacedPile>& piles) {
    const std::string because = "where domain.shape is \"pattern-cell\", which follows from [layout]";
    for (const auto* path : {"domain.x_m", "domain.y_m", "domain.margin_m", "domain.radius_m", "domain.rim"})
        values.no_effect(path, because);
    for (const auto& path : side_paths)
        values.no_effect(path, "where domain.shape is \"pattern-cell\": all its sides are symmetry");
    const bool sound = !piles.empty() && mesh::cell_obstacles(layout).empty();
    return sound ? mesh::pattern_cell(layout) : mesh::Domain();
}

/// One straight side: what is wrong with a pile there, or empty.
std::string trouble_at_side(double inward, double radius, BoundaryKind kind, double tolerance) {
    if (inward < -tolerance)
        return "lies outside";
    if (inward < tolerance)
        return kind == BoundaryKind::Symmetry ? "" : "stands on a side that is not a symmetry line";
    if (inward < radius - tolerance)
        return "reaches across a side without being centered on a symmetry line";
    return {};
}

struct Trouble {
    std::string what; ///< empty: none
    std::string path; ///< of the side to blame
};

Trouble trouble_of(const Vec2& center, double radius, const mesh::Domain& domain, bool margin) {
    const double tolerance = 1e-9 * (domain.high - domain.low).norm();
    const bool round = domain.shape == mesh::DomainShape::Round;
    if (round && center.norm() + radius > domain.high.x() + tolerance)
        return {center.norm() > domain.high.x() ? "lies outside" : "reaches across the rim",
                "domain.radius_m"};
    if (round && domain.low.x() < 0)
        return {};
    for (int side = 0; side < 4; ++side) {
        if (round && (side == mesh::East || side == mesh::North))
            continue;
        const int axis = side / 2;
        const bool low = side % 2 == 0;
        const double inward = low ? center[axis] - domain.low[axis] : domain.high[axis] - center[axis];
        const auto what =
            trouble_at_side(inward, radius, domain.side[static_cast<std::size_t>(side)], tolerance);
        if (!what.empty())
            return {what, round    ? "domain.radius_m"
                          : margin ? "domain.margin_m"
                                   : (axis == 0 ? "domain.x_m" : "domain.y_m")};
    }
    return {};
}

/// One message per kind of trouble, naming the first pile and how many more.
void check_piles_inside(CaseValues& values, const mesh::Domain& domain,
                        const std::vector<PlacedPile>& piles) {
    if (!values.has("pile.diameter_m") || !(domain.area_m2() > 0))
        return;
    const bool margin = values.has("domain.margin_m");
    std::map<std::string, std::pair<Trouble, std::vector<std::size_t>>> found;
    for (std::size_t i = 0; i < piles.size(); ++i) {
        const double radius = footprint_of(values, piles[i]).diameter_m / 2;
        const Trouble trouble = trouble_of(piles[i].center_m, radius, domain, margin);
        if (trouble.what.empty())
            continue;
        auto& entry = found[trouble.path + trouble.what];
        entry.first = trouble;
        entry.second.push_back(i);
    }
    for (const auto& [key, entry] : found) {
        const auto& [trouble, numbers] = entry;
        const Vec2& center = piles[numbers.front()].center_m;
        const double diameter = footprint_of(values, piles[numbers.front()]).diameter_m;
        Fault fault = piles[numbers.front()].origin;
        const bool of_list = values.text("layout.pattern") == "listed";
        if (!of_list && values.given(trouble.path)) {
            const Place place = values.place(trouble.path);
            fault.line = place.line, fault.column = place.column, fault.width = place.width;
        }
        fault.what = fmt::format(
            "pile {} at ({:.6g}, {:.6g}) m{} {}", numbers.front() + 1, center.x(), center.y(),
            numbers.size() > 1 ? fmt::format(" (and {} more)", numbers.size() - 1) : "", trouble.what);
        fault.mend =
            fmt::format("The domain spans x {:.6g} .. {:.6g}, y {:.6g} .. {:.6g} m, a pile {:.6g} m.",
                        domain.low.x(), domain.high.x(), domain.low.y(), domain.high.y(), diameter);
        values.faults().add(std::move(fault));
    }
}

} // namespace

std::pair<Vec2, Vec2> outermost(const std::vector<PlacedPile>& piles) {
    Vec2 low = piles.front().center_m, high = low;
    for (const PlacedPile& pile : piles) {
        low = low.cwiseMin(pile.center_m);
        high = high.cwiseMax(pile.center_m);
    }
    return {low, high};
}

mesh::Domain read_domain(CaseValues& values, const mesh::LayoutSettings& layout,
                         const std::vector<PlacedPile>& piles) {
    if (!values.has("domain.shape"))
        return {};
    if (is_pattern_cell(values)) // its piles stand on symmetry lines or half a spacing inside
        return read_cell(values, layout, piles);
    const mesh::Domain domain =
        values.text("domain.shape") == "round" ? read_round(values) : read_rectangle(values, piles);
    check_piles_inside(values, domain, piles);
    return domain;
}

mesh::GridSettings read_grid(CaseValues& values, const mesh::Domain& domain,
                             const std::vector<PlacedPile>& piles) {
    mesh::GridSettings grid;
    const bool by_size = values.given("grid.fine_cell_m");
    if (by_size)
        values.no_effect("grid.cells_per_diameter", "where grid.fine_cell_m is given");
    if (!values.has("pile.diameter_m") || !values.has("grid.growth_ratio") ||
        !values.has(by_size ? "grid.fine_cell_m" : "grid.cells_per_diameter"))
        return grid;
    const double diameter = values.number("pile.diameter_m");
    grid.fine_cell_m =
        by_size ? values.number("grid.fine_cell_m") : diameter / values.number("grid.cells_per_diameter");
    grid.growth_ratio = values.number("grid.growth_ratio");
    values.derive("grid.fine_margin_m", is_pattern_cell(values) && domain.area_m2() > 0
                                            ? (domain.high - domain.low).maxCoeff()
                                            : diameter);
    if (!values.has("grid.fine_margin_m"))
        return grid;
    grid.fine_margin_m = values.number("grid.fine_margin_m");
    if (piles.empty() || !(domain.area_m2() > 0))
        return grid;
    const auto [low, high] = outermost(piles);
    double cells = 1;
    for (int axis = 0; axis < 2; ++axis) {
        const double fine_low = std::max(domain.low[axis], low[axis] - grid.fine_margin_m);
        const double fine_high = std::min(domain.high[axis], high[axis] + grid.fine_margin_m);
        const double fine = (fine_high - fine_low) / grid.fine_cell_m;
        // Outside, cells grow geometrically: sum = fine_cell (r^n - 1)/(r - 1), which gives n.
        const double r = grid.growth_ratio - 1;
        const auto outer = [&](double length) {
            const double steps = std::max(0.0, length) / grid.fine_cell_m;
            return r > 0 ? std::log1p(steps * r) / std::log1p(r) : steps;
        };
        cells *= fine + outer(fine_low - domain.low[axis]) + outer(domain.high[axis] - fine_high);
    }
    if (cells > most_cells)
        values.fault(by_size ? "grid.fine_cell_m" : "grid.cells_per_diameter",
                     fmt::format("gives about {:.2g} cells, more than {:.0g}", cells, most_cells),
                     "Choose larger cells, a smaller domain or a larger growth_ratio.");
    return grid;
}

} // namespace interpile::io
