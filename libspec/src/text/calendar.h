// Dates of the calendar.
#pragma once

#include <charconv>
#include <chrono>
#include <string>
#include <string_view>

#include <fmt/format.h>

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

/// Why the calendar lacks a date for which is_date holds, and what to do; empty where it has it. One without
/// a day is always possible.
inline std::string calendar_problem(std::string_view date) {
  constexpr std::size_t full = 10;
  if (date.size() != full || calendar_day(date).ok()) return {};
  return fmt::format("the calendar has no {}; mend the day, or leave it out: {}", date, date.substr(0, 7));
}

}
