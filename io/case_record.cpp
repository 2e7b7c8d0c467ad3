// [record] of a case, and the treated area.

#include "io/case_parts.h"
#include "io/text_lines.h"
#include "mesh/treated_area.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

constexpr int longest_name = 24; // characters that fit beside a curve

/// Names of the user's points; numbered where none are given.
std::vector<std::string> names_of_points(CaseValues& values, std::size_t points) {
    std::vector<std::string> names;
    for (std::size_t k = 1; k <= points; ++k)
        names.push_back(fmt::format("point {}", k));
    if (!values.has("record.point_names"))
        return names;
    const auto& given = values.texts("record.point_names");
    if (given.size() != points) {
        values.fault("record.point_names",
                     fmt::format("names {} points, points_m has {}", given.size(), points),
                     "Give one name for each point.");
        return names;
    }
    for (std::size_t k = 0; k < given.size(); ++k) {
        const std::string& name = given[k];
        const auto fault = [&](const std::string& what) {
            values.faults().add(values.element_place("record.point_names", k),
                                fmt::format("record.point_names: \"{}\" {}", name, what));
        };
        if (name.empty() || character_count(name) > longest_name)
            fault(fmt::format("has {} characters, allowed: 1 .. {}", character_count(name), longest_name));
        if (name == mesh::mid_span_name || name == mesh::centroid_name || name == mesh::rim_name)
            fault("is the name of a point that is always watched");
        if (std::find(given.begin(), given.begin() + static_cast<std::ptrdiff_t>(k), name) !=
            given.begin() + static_cast<std::ptrdiff_t>(k))
            fault("is given twice");
    }
    return given;
}

/// What is wrong with a place to be watched, or empty.
std::string trouble_of(const CaseValues& values, const mesh::Vec2& point, const mesh::Domain& domain,
                       const std::vector<PlacedPile>& piles) {
    if (domain.inside_share(point) == 0)
        return "lies outside the domain";
    for (std::size_t k = 0; k < piles.size(); ++k)
        if ((point - piles[k].center_m).norm() < footprint_of(values, piles[k]).diameter_m / 2)
            return fmt::format("lies in pile {}", k + 1);
    return {};
}

void add_given_points(CaseValues& values, const mesh::Domain& domain, const std::vector<PlacedPile>& piles,
                      std::vector<mesh::ObservationPoint>& points) {
    if (!values.given("record.points_m"))
        values.no_effect("record.point_names", "without record.points_m");
    if (!values.has("record.points_m"))
        return;
    const auto& places = values.points("record.points_m");
    const auto names = names_of_points(values, places.size());
    for (std::size_t k = 0; k < places.size(); ++k) {
        const auto trouble = trouble_of(values, places[k], domain, piles);
        if (!trouble.empty())
            values.faults().add(
                values.element_place("record.points_m", k),
                fmt::format("record.points_m: the point ({:.6g}, {:.6g}) m {}", places[k].x(), places[k].y(),
                            trouble),
                "Points are watched in the ground of the domain, between or beside the piles.");
        points.push_back({names[k], places[k]});
    }
}

} // namespace

solver::RecordPlan read_record(CaseValues& values, const mesh::Domain& domain, const mesh::GridSettings& grid,
                               const std::vector<PlacedPile>& piles) {
    solver::RecordPlan record;
    if (piles.empty() || !(domain.area_m2() > 0) || !values.has("pile.diameter_m"))
        return record;
    const double diameter = values.number("pile.diameter_m");
    std::vector<mesh::Vec2> centers;
    for (const PlacedPile& pile : piles)
        centers.push_back(pile.center_m);
    record.treated = mesh::treated_area(centers, domain, diameter);
    record.points = mesh::usual_points(centers, domain, diameter);
    add_given_points(values, domain, piles, record.points);

    const double spacing = mesh::neighbor_distance_m(centers, domain, diameter);
    values.derive("record.sampling_radius_m",
                  std::max(grid.fine_cell_m, std::isfinite(spacing) ? spacing / 10 : diameter / 4));
    if (values.has("record.sampling_radius_m"))
        record.sampling_radius_m = values.number("record.sampling_radius_m");
    return record;
}

} // namespace interpile::io
