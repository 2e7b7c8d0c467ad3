#include "solver/works/legs.h"

namespace interpile::solver {

std::vector<Leg> legs_between_turns(const std::vector<double>& readings, double least_turn) {
    std::vector<Leg> legs;
    bool rising = true;
    std::size_t start = 0;
    std::size_t farthest = 0; // sample of the leg that got farthest, the last one of a dwell
    for (std::size_t i = 1; i < readings.size(); ++i) {
        const double advance = (readings[i] - readings[farthest]) * (rising ? 1 : -1);
        if (advance >= 0) {
            farthest = i;
        } else if (-advance >= least_turn) {
            if (farthest > start)
                legs.push_back({start, farthest, rising});
            start = farthest;
            farthest = i;
            rising = !rising;
        }
    }
    if (start + 1 < readings.size())
        legs.push_back({start, readings.size() - 1, rising});
    return legs;
}

} // namespace interpile::solver
