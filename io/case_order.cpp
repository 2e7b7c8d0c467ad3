// [order] of a case.

#include "io/case_parts.h"

#include <fmt/format.h>

#include <map>

namespace interpile::io {

namespace {

mesh::OrderKind kind_of(const std::string& word) {
    return word == "row-by-row"    ? mesh::OrderKind::RowByRow
           : word == "alternating" ? mesh::OrderKind::Alternating
           : word == "from-side"   ? mesh::OrderKind::FromSide
           : word == "from-middle" ? mesh::OrderKind::FromMiddle
           : word == "together"    ? mesh::OrderKind::Together
                                   : mesh::OrderKind::Listed;
}

mesh::Side side_of(const std::string& word) {
    return word == "west"    ? mesh::West
           : word == "east"  ? mesh::East
           : word == "south" ? mesh::South
                             : mesh::North;
}

/// The listed numbers; every pile must be among them once.
std::vector<int> read_sequence(CaseValues& values, std::size_t piles) {
    std::vector<int> sequence;
    std::vector<int> times(piles + 1, 0);
    for (const double number : values.numbers("order.sequence")) {
        const Place place = values.element_place("order.sequence", sequence.size());
        sequence.push_back(static_cast<int>(number));
        if (number > static_cast<double>(piles))
            values.faults().add(place,
                                fmt::format("order.sequence names pile {}, there are {}", number, piles));
        else if (++times[static_cast<std::size_t>(number)] == 2)
            values.faults().add(place, fmt::format("order.sequence names pile {} twice", number));
    }
    std::string absent;
    for (std::size_t pile = 1; pile <= piles; ++pile)
        if (times[pile] == 0)
            absent += fmt::format("{}{}", absent.empty() ? "" : ", ", pile);
    if (!absent.empty())
        values.fault("order.sequence", "leaves out piles", "Missing: " + absent.substr(0, 60) + ".");
    return sequence;
}

/// Numbers of the piles in the order of their places; empty if the piles have none.
std::vector<int> sequence_of_places(const std::vector<PlacedPile>& piles) {
    std::map<double, int> pile_at;
    for (std::size_t i = 0; i < piles.size(); ++i)
        if (piles[i].place_in_order)
            pile_at[*piles[i].place_in_order] = static_cast<int>(i) + 1;
    std::vector<int> sequence;
    for (const auto& [place, pile] : pile_at)
        sequence.push_back(pile);
    return sequence;
}

} // namespace

mesh::OrderSettings read_order(CaseValues& values, const std::vector<PlacedPile>& piles) {
    mesh::OrderSettings order;
    if (!values.has("order.kind"))
        return order;
    const std::string kind = values.text("order.kind");
    order.kind = kind_of(kind);
    if (order.kind != mesh::OrderKind::FromSide)
        values.no_effect("order.from", fmt::format("where order.kind is \"{}\"", kind));
    else if (!values.given("order.from"))
        values.missing("order.from", "kind \"from-side\" needs it");
    else if (values.has("order.from"))
        order.from = side_of(values.text("order.from"));
    if (order.kind == mesh::OrderKind::Alternating && values.has("layout.pattern") &&
        values.text("layout.pattern") == "listed")
        values.fault("order.kind", "needs the rows of a pattern, the layout is listed",
                     "Use row-by-row (by number) or listed.");
    const bool triangular_cell = is_pattern_cell(values) && values.has("layout.pattern") &&
                                 values.text("layout.pattern") == "triangular";
    if (triangular_cell && order.kind != mesh::OrderKind::RowByRow &&
        order.kind != mesh::OrderKind::Together) {
        values.fault("order.kind", "does not go with a triangular pattern-cell",
                     "Its piles are two sets of rows: row-by-row (every second row first) or together.");
        return order;
    }
    const auto by_place = sequence_of_places(piles);
    if (!by_place.empty() && (order.kind != mesh::OrderKind::Listed || values.given("order.sequence"))) {
        values.fault(order.kind != mesh::OrderKind::Listed ? "order.kind" : "order.sequence",
                     "contradicts place_in_order in the table of positions",
                     "Write kind = \"listed\" without a sequence, or take the column out of the table.");
        return order;
    }
    if (order.kind != mesh::OrderKind::Listed)
        values.no_effect("order.sequence", fmt::format("where order.kind is \"{}\"", kind));
    else if (!by_place.empty())
        order.listed = by_place;
    else if (!values.given("order.sequence"))
        values.missing("order.sequence", "kind \"listed\" needs it");
    else if (values.has("order.sequence") && !piles.empty())
        order.listed = read_sequence(values, piles.size());
    return order;
}

} // namespace interpile::io
