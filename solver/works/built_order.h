#pragma once
// The order in which piles were really made, by the times of their records, against the order of work.

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace interpile::solver {

/// Start and end of the work on a pile [s], on a clock common to all piles.
struct TimeSpan {
    double start_s = 0;
    double end_s = 0; ///< >= start
};

/// Of one pile with a record.
struct BuiltPlace {
    int place = 1; ///< in the order of start, from 1, among the piles with a record
    /// Since the end of the pile recorded before it; none for the first. A pile without record made in between is not
    /// seen.
    std::optional<double> rest_before_h;
    /// Belongs to the longest series of piles made in the ordered sequence. One pile made late is out of turn, not all
    /// those that moved up for it.
    bool in_turn = true;
};

struct BuiltOrder {
    std::vector<std::optional<BuiltPlace>>
        piles; ///< as given; none without record, or where the order is open
    /// Two piles, as given, that start together or overlap in time: several rigs, or a clock that starts anew for every
    /// pile. Then order and rest are open.
    std::optional<std::pair<std::size_t, std::size_t>> overlap;
};

/// \param spans  of the piles in the order of work; none without record
/// \throws std::invalid_argument  a time not finite; an end before its start
BuiltOrder built_order(const std::vector<std::optional<TimeSpan>>& spans);

} // namespace interpile::solver
