#pragma once
// Date and time on the clock of the site: local, without zone, without summer time.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace interpile::solver {

using LocalTime = std::chrono::local_seconds;

/// "2026-03-02T07:30:00", ISO 8601; empty if it is not of this form or no such day.
std::optional<LocalTime> local_time(std::string_view iso_8601);

std::string iso_8601(LocalTime time);

/// "Mon 2026-03-02 07:30": for people, to the minute.
std::string in_words(LocalTime time);

/// After so many seconds, to the nearest.
LocalTime later(LocalTime time, double seconds);

/// 0 Monday .. 6 Sunday.
int weekday(LocalTime time);

} // namespace interpile::solver
