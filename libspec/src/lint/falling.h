// Rows of a sensor that rises with temperature, and that fall.
#pragma once

#include <algorithm>
#include <span>
#include <string_view>

#include "lint/rows.h"
#include "lint/rule.h"

namespace ohmlore::rules {

/// "25 °C" and "26 °C" may both be 25.5 °C, but not the other way round; 1e-9 K is what rounding adds.
inline bool surely_falls(const Row& colder, const Row& hotter) {
  const double shared = written_interval(*colder.row->at).high - written_interval(*hotter.row->at).low;
  return colder.row->at->si < hotter.row->at->si && shared <= 1e-9 && hotter.ohm.high < colder.ohm.low;
}

/// Reports the rows that cannot be true with the others, each with those; `why` is why none falls, and
/// `severity(kelvin)` that of a fall up to a temperature.
template <class Severity_at>
void report_falling_rows(Sink& sink, std::span<const Row> rows, std::string_view why, Severity_at severity) {
  const auto falls = [&](std::size_t i, std::size_t j) {
    return surely_falls(rows[std::min(i, j)], rows[std::max(i, j)]);
  };
  const auto blamed = blamed_rows(rows.size(), falls);
  const std::size_t most = witnesses_each(blamed);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!blamed[i]) continue;
    const auto say = [&](std::size_t j) {
      const auto [one, other] = apart(*row_interval(*rows[i].row), *row_interval(*rows[j].row));
      return fmt::format("{} at {} is {} {} at {}: {}; mend one of the two rows", one,
                         celsius(rows[i].row->at->si), i > j ? "below" : "above", other,
                         celsius(rows[j].row->at->si), why);
    };
    const auto near =
        nearest_rows(rows.size(), i, most, [&](std::size_t j) { return !blamed[j] && falls(i, j); });
    report_row(sink, rows, i, near, say,
               [&](std::size_t j) { return severity(rows[std::max(i, j)].row->at->si); });
  }
}

}
