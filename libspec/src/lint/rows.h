// Table rows as intervals, and which of them to blame where they cannot all be true.
#pragma once

#include <algorithm>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "lint/rule.h"
#include "ohmlore/bands.h"
#include "ohmlore/existence.h"
#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// A row whose numbers may each be off by half of their last digit.
struct Row {
  const Table_row* row = nullptr;
  Interval ohm;
  Gate gate;
};

/// The rows that state a temperature and a band above 0 Ω, by rising temperature.
std::vector<Row> rows_by_temperature(const Document& document, const Resistance_model& model);

/// How many digits the rows of a table have, zeros at the end of a whole number of Ω, kΩ or MΩ left out: the
/// second most, as one row may be wrong; of two numbers the most.
int usual_digits(const Resistance_model& model);
/// Half of the last digit that counts, in ohm, of a number in a table with so many digits. Such a zero counts
/// where the other rows have as many: "10000 Ω" beside "8311 Ω", but not "100 kΩ" beside "64 kΩ".
double half_of_last_digit(const Quantity& value, int usual);

/// Whether the temperatures of a table were rounded from °F to whole °C, as a second column often is: 4, 16,
/// 27 and 38 °C are 40, 60, 80 and 100 °F.
bool is_rounded_from_fahrenheit(const Resistance_model& model);
/// How far one of them is off then, in kelvin.
double off_fahrenheit(const Quantity& at);

/// The B-value in kelvin that two gates give, whatever their rounding; the whole line where their
/// temperatures may be one.
Interval b_of(const Gate& one, const Gate& other);

/// Which of `count` rows to blame where some cannot be true together: row after row the one that clashes with
/// most others, until no two clash, so that one wrong row among right ones is blamed alone. `clash(i, j)` is
/// asked for i < j.
template <class Clash>
std::vector<bool> blamed_rows(std::size_t count, Clash clash) {
  std::vector<std::size_t> clashes(count, 0);
  for (std::size_t i = 0; i < count; ++i)
    for (std::size_t j = i + 1; j < count; ++j)
      if (clash(i, j)) ++clashes[i], ++clashes[j];
  std::vector<bool> blamed(count, false);
  while (true) {
    const auto worst = std::max_element(clashes.begin(), clashes.end());
    if (worst == clashes.end() || *worst == 0) return blamed;
    const auto row = static_cast<std::size_t>(worst - clashes.begin());
    for (std::size_t i = 0; i < count; ++i)
      if (i != row && !blamed[i] && (i < row ? clash(i, row) : clash(row, i))) --clashes[i];
    clashes[row] = 0;
    blamed[row] = true;
  }
}

/// With how many others each blamed row of a table is told, the nearest: so many that a baseline that knows
/// them does not hide another, but not all pairs of a table that is wrong altogether.
inline std::size_t witnesses_each(const std::vector<bool>& blamed) {
  constexpr std::size_t most = 200;
  const auto count = static_cast<std::size_t>(std::count(blamed.begin(), blamed.end(), true));
  return std::max<std::size_t>(most / std::max<std::size_t>(count, 1), 1);
}

/// The rows other than `row` that `wanted` accepts, the nearest to it first, `most` of them at most.
template <class Wanted>
std::vector<std::size_t> nearest_rows(std::size_t count, std::size_t row, std::size_t most, Wanted wanted) {
  std::vector<std::size_t> found;
  for (std::size_t step = 1; step < count && found.size() < most; ++step) {
    if (step <= row && wanted(row - step)) found.push_back(row - step);
    if (row + step < count && found.size() < most && wanted(row + step)) found.push_back(row + step);
  }
  return found;
}

/// Reports a row with what other rows say against it; see report_contradictions. `say(i)` and `severity(i)`
/// are of the row `i`.
template <class Say, class Severity_of>
std::size_t report_row(Sink& sink, std::span<const Row> rows, std::size_t row,
                       const std::vector<std::size_t>& witnesses, Say say, Severity_of severity) {
  std::vector<std::string> at;
  at.reserve(witnesses.size());
  std::vector<Contradiction> against;
  for (const std::size_t i : witnesses) {
    at.push_back(celsius(rows[i].row->at->si));
    against.push_back({severity(i), at.back(), rows[i].row->node, i});
  }
  return report_contradictions(sink, rows[row].row->node, std::move(against), "the row at {}", say);
}

/// What is impossible about two bands of a bare NTC.
enum class Ntc_clash : std::uint8_t { none, rises, b_too_low, b_too_high };

/// None where their temperatures may be one.
Ntc_clash ntc_clash(const Gate& one, const Gate& other);

/// A row that cannot be true of a bare NTC together with others, its witnesses: one at least, the nearest
/// first. Where it rises against any, those are they.
struct Impossible_row {
  std::size_t row = 0;
  std::vector<std::size_t> witnesses;
  bool rises = false;
};
std::vector<Impossible_row> impossible_ntc_rows(const std::vector<Row>& rows);

/// The B-value that the nominals of a table give between two of its temperatures (kelvin), each nominal ±
/// half of its last digit that counts. Empty where it has no such row.
std::optional<Interval> b_of_table(const Resistance_model& model, double from, double to);
/// The same where it has no row at one of the two, but rows on either side: as the curve of a thermistor may
/// run between them.
std::optional<Interval> b_between_rows(const Resistance_model& model, double from, double to);

}
