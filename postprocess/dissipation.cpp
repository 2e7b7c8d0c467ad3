#include "postprocess/dissipation.h"

#include <cmath>
#include <limits>

namespace interpile::postprocess {

namespace {

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

bool is_in_time(const io::ResultsHalfStrokes& record) {
    return record.time_s.size() > 0 && record.time_s.maxCoeff() > 0;
}

} // namespace

double largest_point_pressure_kPa(const io::ResultsHalfStrokes& record, Eigen::Index point) {
    double largest = unknown;
    if (is_in_time(record))
        for (const double pressure : record.point_pressure_kPa.row(point))
            largest = std::fmax(largest, pressure); // of a number and none: the number
    return largest;
}

double time_to_remaining_s(const io::ResultsHalfStrokes& record, double share) {
    if (!is_in_time(record))
        return unknown;
    const auto &time = record.time_s, &pressure = record.excess_pressure_kPa;
    Eigen::Index last = time.size() - 1; // driven half stroke
    while (last >= 0 && record.phase[last] == io::rest_phase)
        --last;
    if (last < 0 || !(pressure[last] > 0))
        return unknown;
    const double limit = share * pressure[last];
    for (Eigen::Index k = last + 1; k < time.size(); ++k)
        if (pressure[k] <= limit) {
            const double part = (pressure[k - 1] - limit) / (pressure[k - 1] - pressure[k]);
            return time[k - 1] + part * (time[k] - time[k - 1]) - time[last];
        }
    return unknown;
}

} // namespace interpile::postprocess
