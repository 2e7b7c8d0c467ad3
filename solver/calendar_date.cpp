#include "solver/calendar_date.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

namespace interpile::solver {

namespace {

using namespace std::chrono;

constexpr std::array day_names = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

struct Clock {
    year_month_day date;
    hh_mm_ss<seconds> time;
};

Clock clock_of(LocalTime time) {
    const auto day = floor<days>(time);
    return {year_month_day(day), hh_mm_ss<seconds>(time - day)};
}

std::string date_text(const year_month_day& date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

} // namespace

std::optional<LocalTime> local_time(std::string_view iso_8601) {
    constexpr std::string_view form = "0000-00-00T00:00:00";
    if (iso_8601.size() != form.size())
        return {};
    for (std::size_t k = 0; k < form.size(); ++k) {
        const bool is_digit = iso_8601[k] >= '0' && iso_8601[k] <= '9';
        if (form[k] == '0' ? !is_digit : iso_8601[k] != form[k])
            return {};
    }
    const auto number = [&](std::size_t at, std::size_t width) {
        int value = 0;
        std::from_chars(iso_8601.data() + at, iso_8601.data() + at + width, value);
        return value;
    };
    const year_month_day date(year(number(0, 4)), month(static_cast<unsigned>(number(5, 2))),
                              day(static_cast<unsigned>(number(8, 2))));
    const int hour = number(11, 2), minute = number(14, 2), second = number(17, 2);
    if (!date.ok() || hour > 23 || minute > 59 || second > 59)
        return {};
    return local_days(date) + hours(hour) + minutes(minute) + seconds(second);
}

std::string iso_8601(LocalTime time) {
    const Clock clock = clock_of(time);
    return fmt::format("{}T{:02}:{:02}:{:02}", date_text(clock.date), clock.time.hours().count(),
                       clock.time.minutes().count(), clock.time.seconds().count());
}

std::string in_words(LocalTime time) {
    const Clock clock = clock_of(time);
    return fmt::format("{} {} {:02}:{:02}", day_names.at(static_cast<std::size_t>(weekday(time))),
                       date_text(clock.date), clock.time.hours().count(), clock.time.minutes().count());
}

LocalTime later(LocalTime time, double seconds_later) {
    return time + seconds(std::llround(seconds_later));
}

int weekday(LocalTime time) {
    return static_cast<int>(std::chrono::weekday(floor<days>(time)).iso_encoding()) - 1;
}

} // namespace interpile::solver
