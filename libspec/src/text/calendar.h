// Dates of the calendar.
#pragma once

#include <charconv>
#include <chrono>
#include <string_view>

namespace ohmlore {

/// The day that a text of the form YYYY-MM-DD names; whether there is one, its `ok` says.
inline std::chrono::year_month_day calendar_day(std::string_view date) {
  const auto number = [&](std::size_t at, std::size_t count) {
    int value = 0;
    std::from_chars(date.data() + at, date.data() + at + count, value);
    return value;
  };
  return {std::chrono::year{number(0, 4)}, std::chrono::month{static_cast<unsigned>(number(5, 2))},
          std::chrono::day{static_cast<unsigned>(number(8, 2))}};
}

/// Whether the calendar has a date for which is_date holds. One without a day is always possible.
inline bool is_in_calendar(std::string_view date) {
  constexpr std::size_t full = 10;
  return date.size() != full || calendar_day(date).ok();
}

}
