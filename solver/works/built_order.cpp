#include "solver/works/built_order.h"

#include "solver/number_check.h"

#include <algorithm>
#include <limits>

namespace interpile::solver {
namespace {

/// Of a sequence of distinct numbers, which belong to its longest rising series.
std::vector<bool> in_longest_rise(const std::vector<std::size_t>& numbers) {
    constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
    std::vector<std::size_t> ends; // ends[n]: where the series of n + 1 with the smallest end has this end
    std::vector<std::size_t> before(numbers.size(), none);
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const auto place = std::lower_bound(ends.begin(), ends.end(), i, [&](std::size_t a, std::size_t b) {
            return numbers[a] < numbers[b];
        });
        if (place != ends.begin())
            before[i] = *(place - 1);
        if (place == ends.end())
            ends.push_back(i);
        else
            *place = i;
    }
    std::vector<bool> in_rise(numbers.size(), false);
    for (std::size_t i = ends.empty() ? none : ends.back(); i != none; i = before[i])
        in_rise[i] = true;
    return in_rise;
}

} // namespace

BuiltOrder built_order(const std::vector<std::optional<TimeSpan>>& spans) {
    std::vector<std::size_t> made; // by start
    for (std::size_t i = 0; i < spans.size(); ++i)
        if (spans[i]) {
            require_finite("start_s", spans[i]->start_s);
            require_between("end_s", spans[i]->end_s, spans[i]->start_s, std::numeric_limits<double>::max());
            made.push_back(i);
        }
    std::stable_sort(made.begin(), made.end(),
                     [&](std::size_t a, std::size_t b) { return spans[a]->start_s < spans[b]->start_s; });

    BuiltOrder order;
    order.piles.resize(spans.size());
    for (std::size_t n = 1; n < made.size(); ++n) {
        const TimeSpan &earlier = *spans[made[n - 1]], &later = *spans[made[n]];
        if (later.start_s < earlier.end_s || later.start_s == earlier.start_s) {
            order.overlap = {made[n - 1], made[n]};
            return order;
        }
    }
    const auto in_turn = in_longest_rise(made);
    for (std::size_t n = 0; n < made.size(); ++n) {
        BuiltPlace place{static_cast<int>(n) + 1, {}, in_turn[n]};
        if (n > 0)
            place.rest_before_h = (spans[made[n]]->start_s - spans[made[n - 1]]->end_s) / 3600;
        order.piles[made[n]] = place;
    }
    return order;
}

} // namespace interpile::solver
