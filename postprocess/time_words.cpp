#include "postprocess/time_words.h"

#include <fmt/format.h>

#include <cmath>

namespace interpile::postprocess {

namespace {

constexpr long minute_s = 60, hour_s = 3600, day_s = 24 * hour_s;

std::string with_rest(long whole, const char* unit, long rest, const char* smaller) {
    return rest == 0 ? fmt::format("{} {}", whole, unit)
                     : fmt::format("{} {} {} {}", whole, unit, rest, smaller);
}

} // namespace

std::string time_in_words(double seconds) {
    const long s = std::lround(seconds);
    if (s < minute_s)
        return fmt::format("{} s", s);
    if (s < hour_s)
        return with_rest(s / minute_s, "min", s % minute_s, "s");
    const long minutes = std::lround(seconds / minute_s);
    if (minutes < 2 * day_s / minute_s)
        return with_rest(minutes / 60, "h", minutes % 60, "min");
    const long hours = std::lround(seconds / hour_s);
    return with_rest(hours / 24, "d", hours % 24, "h");
}

TimeUnit time_unit(double longest_s) {
    if (longest_s <= 3.0 * hour_s)
        return {1.0 * minute_s, "min"};
    if (longest_s <= 3.0 * day_s)
        return {1.0 * hour_s, "h"};
    return {1.0 * day_s, "d"};
}

} // namespace interpile::postprocess
