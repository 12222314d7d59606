// Last days.
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

/// Whether a last day (YYYY-MM-DD, or a month that holds to its end) is past. Not where either is empty.
inline bool has_ended(std::string_view until, std::string_view today) {
  if (until.empty() || today.empty()) return false;
  constexpr std::size_t month = 7; // YYYY-MM
  return (until.size() == month ? std::string(until) + "-31" : std::string(until)) < today;
}

}
