#include "postprocess/figures/work_spans.h"

#include <fmt/format.h>

#include <map>
#include <set>

namespace interpile::postprocess {

namespace {

/// Numbers of the piles of each place; the record of half strokes names all that are driven together.
std::map<int, std::string> pile_numbers(const io::ResultsHalfStrokes& record) {
    std::map<int, std::set<int>> piles;
    for (Eigen::Index row = 0; row < record.pile.size(); ++row)
        piles[record.place_in_order[row]].insert(record.pile[row] + 1);
    std::map<int, std::string> numbers;
    for (const auto& [place, of_place] : piles)
        for (const int pile : of_place)
            numbers[place] += fmt::format("{}{}", numbers[place].empty() ? "" : "+", pile);
    return numbers;
}

} // namespace

std::vector<DrivingSpan> driving_spans(const io::ResultsHistory& history,
                                       const io::ResultsHalfStrokes& record) {
    auto numbers = pile_numbers(record);
    std::vector<DrivingSpan> spans;
    int place = 0;
    for (Eigen::Index k = 0; k < history.time_s.size(); ++k) {
        if (history.phase[k] == io::rest_phase)
            continue;
        if (history.place_in_order[k] != place) {
            place = history.place_in_order[k];
            spans.push_back({k == 0 ? 0 : history.time_s[k - 1], 0, numbers[place]});
        }
        spans.back().to_s = history.time_s[k];
    }
    return spans;
}

} // namespace interpile::postprocess
