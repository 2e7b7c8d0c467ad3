// [layout] of a case.

#include "io/case_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace interpile::io {

namespace {

constexpr std::size_t most_piles = 2500; // own choice: far above what a slice can be computed for

mesh::Pattern pattern_of(const std::string& word) {
    return word == "square"       ? mesh::Pattern::Square
           : word == "triangular" ? mesh::Pattern::Triangular
           : word == "listed"     ? mesh::Pattern::Listed
                                  : mesh::Pattern::Rectangular;
}

/// Rules of a pattern that repeats.
void read_pattern(CaseValues& values, mesh::LayoutSettings& layout) {
    const auto& pattern = values.text("layout.pattern");
    for (const auto* path : {"layout.positions_m", "layout.positions_file"})
        values.no_effect(path, fmt::format("where layout.pattern is \"{}\"", pattern));
    for (const auto* path : {"layout.rows", "layout.columns"})
        if (!values.given(path))
            values.missing(path, fmt::format("pattern \"{}\" needs it", pattern));
    if (!values.has("layout.rows") || !values.has("layout.columns"))
        return;
    layout.rows = values.count("layout.rows");
    layout.columns = values.count("layout.columns");
    const bool several = layout.rows * layout.columns > 1;
    if (!values.given("layout.spacing_m") && (several || is_pattern_cell(values)))
        values.missing("layout.spacing_m",
                       several ? "more than one pile needs it" : "a pattern-cell needs it");
    if (values.has("layout.spacing_m"))
        layout.spacing_m = values.number("layout.spacing_m");
    if (layout.pattern != mesh::Pattern::Rectangular) {
        values.no_effect("layout.row_spacing_m", fmt::format("where layout.pattern is \"{}\"", pattern));
        return;
    }
    if (!values.given("layout.row_spacing_m"))
        values.missing("layout.row_spacing_m", "pattern \"rectangular\" needs it");
    if (values.has("layout.row_spacing_m"))
        layout.row_spacing_m = values.number("layout.row_spacing_m");
}

/// The user's own centers; `piles` keeps where each was written.
std::vector<PlacedPile> listed_piles(CaseValues& values, const std::filesystem::path& folder) {
    for (const auto* path : {"layout.spacing_m", "layout.row_spacing_m", "layout.rows", "layout.columns",
                             "layout.origin_m", "layout.angle_deg"})
        values.no_effect(path, "where layout.pattern is \"listed\"");
    const bool here = values.given("layout.positions_m"), in_file = values.given("layout.positions_file");
    if (here && in_file)
        values.fault("layout.positions_file", "and positions_m exclude each other", "Keep one of them.");
    if (!here && !in_file)
        values.missing("layout.positions_m", "neither it nor positions_file is given");
    if (here == in_file)
        return {};
    if (in_file)
        return values.has("layout.positions_file")
                   ? read_positions(folder / values.text("layout.positions_file"), values.faults())
                   : std::vector<PlacedPile>();
    std::vector<PlacedPile> piles;
    if (values.has("layout.positions_m"))
        for (const auto& center : values.points("layout.positions_m")) {
            const Place place = values.element_place("layout.positions_m", piles.size());
            piles.push_back({center, values.faults().at(place)});
        }
    return piles;
}

/// "Did you mean 1.7?" for a point or digit in the wrong place.
std::string slipped_spacing(double spacing, double diameter) {
    for (const double factor : {10.0, 100.0})
        if (spacing * factor > 1.2 * diameter && spacing * factor < 6 * diameter)
            return fmt::format(" Did you mean {:.6g}?", spacing * factor);
    return {};
}

void refuse_overlap_of_pattern(CaseValues& values, const mesh::LayoutSettings& layout,
                               const Footprint& pile) {
    const bool endless = layout.cell.has_value();
    const bool by_rows = layout.pattern == mesh::Pattern::Rectangular && (layout.rows > 1 || endless) &&
                         (layout.row_spacing_m < layout.spacing_m || (layout.columns == 1 && !endless));
    const std::string path = by_rows ? "layout.row_spacing_m" : "layout.spacing_m";
    values.fault(path, fmt::format("is less than {} = {}: piles would overlap", pile.name, pile.diameter_m),
                 fmt::format("Centers must be at least that far apart.{}",
                             slipped_spacing(values.number(path), pile.diameter_m)));
}

void refuse_overlap_of_list(CaseValues& values, const std::vector<PlacedPile>& piles) {
    for (std::size_t b = 1; b < piles.size(); ++b)
        for (std::size_t a = 0; a < b; ++a) {
            const double distance = (piles[a].center_m - piles[b].center_m).norm();
            const Footprint one = footprint_of(values, piles[a]), other = footprint_of(values, piles[b]);
            const double least_m = (one.diameter_m + other.diameter_m) / 2;
            if (distance >= least_m * (1 - 1e-9))
                continue;
            Fault fault = piles[b].origin;
            if (distance < 1e-6)
                fault.what = fmt::format("pile {} stands where pile {} stands", b + 1, a + 1);
            else
                fault.what = fmt::format("pile {} is {:.4g} m from pile {}, less than {} = {:.6g}: they "
                                         "would overlap",
                                         b + 1, distance, a + 1,
                                         one.name == other.name ? one.name : "their radii together", least_m);
            values.faults().add(std::move(fault));
            break; // one message per pile
        }
}

Footprint or_wider_seed(const CaseValues& values, const Footprint& pile) {
    if (values.has("pile.seed_radius_m") && 2 * values.number("pile.seed_radius_m") > pile.diameter_m)
        return {2 * values.number("pile.seed_radius_m"), "2 x pile.seed_radius_m"};
    return pile;
}

/// Smallest distance between piles of a pattern, in a cell also to piles beyond its sides [m].
double smallest_distance(const mesh::LayoutSettings& layout) {
    if (!layout.cell)
        return mesh::smallest_distance_m(mesh::pile_centers(layout));
    return layout.pattern == mesh::Pattern::Rectangular ? std::min(layout.spacing_m, layout.row_spacing_m)
                                                        : layout.spacing_m;
}

} // namespace

Footprint footprint_of(const CaseValues& values) {
    return values.has("pile.diameter_m")
               ? or_wider_seed(values, {values.number("pile.diameter_m"), "pile.diameter_m"})
               : Footprint();
}

Footprint footprint_of(const CaseValues& values, const PlacedPile& pile) {
    return pile.diameter_m ? or_wider_seed(values, {*pile.diameter_m, "the mean of their diameter_m"})
                           : footprint_of(values);
}

mesh::LayoutSettings read_layout(CaseValues& values, const std::filesystem::path& folder,
                                 std::vector<PlacedPile>& piles) {
    mesh::LayoutSettings layout;
    piles.clear();
    if (!values.has("layout.pattern"))
        return layout;
    layout.pattern = pattern_of(values.text("layout.pattern"));
    const FaultList& faults = values.faults();
    const std::size_t before = faults.count();
    if (layout.pattern == mesh::Pattern::Listed) {
        piles = listed_piles(values, folder);
        for (const PlacedPile& pile : piles)
            layout.listed_m.push_back(pile.center_m);
    } else {
        read_pattern(values, layout);
        if (values.has("layout.origin_m"))
            layout.origin_m = {values.numbers("layout.origin_m")[0], values.numbers("layout.origin_m")[1]};
        if (values.has("layout.angle_deg"))
            layout.angle_deg = values.number("layout.angle_deg");
    }
    layout.cell = read_cell_part(values, layout);
    const std::size_t count =
        layout.pattern == mesh::Pattern::Listed
            ? layout.listed_m.size()
            : static_cast<std::size_t>(layout.rows) * static_cast<std::size_t>(layout.columns);
    if (count > most_piles)
        values.fault("layout.pattern", fmt::format("has {} piles, more than {}", count, most_piles));
    if (faults.count() > before || values.any_unsound("layout"))
        return layout;
    if (layout.pattern != mesh::Pattern::Listed) {
        const Place place = values.place("layout.pattern");
        for (const auto& center : mesh::pile_centers(layout))
            piles.push_back({center, faults.at(place)});
    }
    if (!values.has("pile.diameter_m"))
        return layout;
    const Footprint footprint = footprint_of(values);
    if (layout.pattern == mesh::Pattern::Listed)
        refuse_overlap_of_list(values, piles);
    else if (smallest_distance(layout) < footprint.diameter_m * (1 - 1e-9))
        refuse_overlap_of_pattern(values, layout, footprint);
    return layout;
}

} // namespace interpile::io
