// Rows of a sensor that rises with temperature, and that fall.
#pragma once

#include <limits>
#include <string_view>
#include <vector>

#include "lint/rows.h"
#include "lint/rule.h"

namespace ohmlore::rules {

/// "25 °C" and "26 °C" may both be 25.5 °C, but not the other way round; 1e-9 K is what rounding adds.
inline bool surely_falls(const Row& colder, const Row& hotter) {
  const double shared = written_interval(*colder.row->at).high - written_interval(*hotter.row->at).low;
  return colder.row->at->si < hotter.row->at->si && shared <= 1e-9 && hotter.ohm.high < colder.ohm.low;
}

/// Reported at `wrong`, which falls against `witness` or that against it.
inline void report_fall(Sink& sink, const Row& wrong, const Row& witness, Severity severity,
                        std::string_view why) {
  const bool hotter = wrong.row->at->si > witness.row->at->si;
  const auto [one, other] = apart(*row_interval(*wrong.row), *row_interval(*witness.row));
  sink.report_as(severity, wrong.row->node,
                 fmt::format("{} at {} is {} {} at {}: {}; mend one of the two rows", one,
                             celsius(wrong.row->at->si), hotter ? "below" : "above", other,
                             celsius(witness.row->at->si), why));
  sink.relate(witness.row->node, fmt::format("the row at {}", celsius(witness.row->at->si)));
}

/// Of a sensor that rises all along: the rows that cannot be true with the others, as errors up to `certain`
/// (kelvin).
inline void report_falling_rows(Sink& sink, const std::vector<Row>& rows, std::string_view why,
                                double certain = std::numeric_limits<double>::infinity()) {
  const auto blamed =
      blamed_rows(rows.size(), [&](std::size_t i, std::size_t j) { return surely_falls(rows[i], rows[j]); });
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!blamed[i]) continue;
    const auto falls = [&](std::size_t j) {
      return surely_falls(rows[std::min(i, j)], rows[std::max(i, j)]);
    };
    const std::size_t witness =
        nearest_row(rows.size(), i, [&](std::size_t j) { return !blamed[j] && falls(j); });
    if (witness == rows.size()) continue;
    const Row& hotter = rows[std::max(i, witness)];
    report_fall(sink, rows[i], rows[witness],
                hotter.row->at->si <= certain ? Severity::error : Severity::warning, why);
  }
}

}
