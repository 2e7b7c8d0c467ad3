#pragma once
// Times of the work in words and in a unit that fits an axis.

#include <string>

namespace interpile::postprocess {

/// "40 s", "12 min 30 s", "1 h 42 min", from two days on "3 d 4 h"; zeros at the end are left out.
std::string time_in_words(double seconds);

/// A unit and how many seconds it has.
struct TimeUnit {
    double seconds = 1;
    std::string name; ///< "min", "h", "d"
};

/// The unit in which an axis of this length [s] has handy numbers: minutes up to 3 h, hours up to 3 d, else days.
TimeUnit time_unit(double longest_s);

} // namespace interpile::postprocess
