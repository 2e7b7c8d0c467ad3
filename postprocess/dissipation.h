#pragma once
// How high excess pore pressure rose and how soon it was gone, from the record of half strokes.

#include "io/results_reader.h"

namespace interpile::postprocess {

/// Largest excess pressure at a point of the header at the end of any half stroke or step of a rest [kPa]; not a number
/// where water does not flow in time or the point never had ground.
double largest_point_pressure_kPa(const io::ResultsHalfStrokes& record, Eigen::Index point);

/// Time after the last driving [s] until the mean excess pressure of the treated ground has fallen to a share of what it
/// was then, linear between records; not a number where it did not, where it was not positive or where water does not
/// flow in time.
/// \param share  0 .. 1
double time_to_remaining_s(const io::ResultsHalfStrokes& record, double share);

} // namespace interpile::postprocess
