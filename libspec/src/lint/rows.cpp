#include "lint/rows.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "lint/read.h"

namespace ohmlore::rules {

std::vector<Row> rows_by_temperature(const Document& document, const Resistance_model& model) {
  std::vector<Row> rows;
  rows.reserve(model.rows.size());
  for (const Table_row& row : model.rows) {
    if (!row.at || !fully_read(document, row)) continue;
    const auto ohm = row_interval(row, Taken::generously);
    const Interval kelvin = written_interval(*row.at);
    if (!ohm || !(ohm->low > 0) || !(kelvin.low > 0)) continue;
    rows.push_back({&row, *ohm, thermistor_gate(kelvin, *ohm)});
  }
  const auto colder = [](const Row& a, const Row& b) { return a.row->at->si < b.row->at->si; };
  if (!std::is_sorted(rows.begin(), rows.end(), colder)) std::stable_sort(rows.begin(), rows.end(), colder);
  return rows;
}

namespace {

struct Digits {
  int written = 0;
  int sure = 0; // without the zeros at the end of a whole number of Ω, kΩ or MΩ
};

Digits digits_of(const Quantity& value) {
  const double step = 2 * value.half_digit;
  auto number = static_cast<std::uint64_t>(std::max(std::round(value.si / step), 0.0)); // of 17 at most
  Digits digits;
  for (std::uint64_t rest = number; rest > 0; rest /= 10) ++digits.written;
  digits.sure = digits.written;
  if (step == 1 || step == 1e3 || step == 1e6)
    for (; number >= 10 && number % 10 == 0; number /= 10) --digits.sure;
  return digits;
}

}

int usual_digits(const Resistance_model& model) {
  int most = 0, second = 0, numbers = 0;
  const auto count = [&](const Value<Quantity>& number) {
    if (!number || !(number->si > 0)) return;
    const int sure = digits_of(*number).sure;
    second = std::max(second, std::min(sure, most));
    most = std::max(most, sure);
    ++numbers;
  };
  for (const Table_row& row : model.rows) {
    if (row.nominal) {
      count(row.nominal);
    } else {
      count(row.min);
      count(row.max);
    }
  }
  return numbers > 2 ? second : most;
}

double half_of_last_digit(const Quantity& value, int usual) {
  const Digits digits = digits_of(value);
  const int counted = std::max(digits.sure, std::min(digits.written, usual));
  return value.half_digit * std::pow(10, digits.written - counted);
}

// From a whole °C to the nearest multiple of 5 °F; what is a multiple of 5 °C is taken as it is.
double off_fahrenheit(const Quantity& at) {
  constexpr double whole = 0.5; // its half digit
  if (at.half_digit != whole) return 0;
  const double celsius = std::round(at.si - zero_celsius);
  if (std::fmod(celsius, 5) == 0) return 0;
  return std::fabs((std::round((celsius * 1.8 + 32) / 5) * 5 - 32) / 1.8 - celsius);
}

bool is_rounded_from_fahrenheit(const Resistance_model& model) {
  constexpr double most = 0.5; // of what was rounded
  constexpr int enough = 3;    // that no steps of 5 °C have
  int odd = 0;
  for (const Table_row& row : model.rows) {
    const double off = row.at ? off_fahrenheit(*row.at) : 0;
    if (off > most) return false;
    odd += off > 0;
  }
  return odd >= enough;
}

Interval b_of(const Gate& one, const Gate& other) { return (one.y - other.y) / (one.x - other.x); }

Ntc_clash ntc_clash(const Gate& one, const Gate& other) {
  if (one.x.middle() < other.x.middle()) return ntc_clash(other, one);
  // "25 °C" and "26 °C" may both be 25.5 °C, but not the other way round; 1e-12 is what rounding adds.
  const double shared = other.x.high - one.x.low;
  if (shared > 1e-12 * one.x.low) return Ntc_clash::none;
  if (other.y.low > one.y.high) return Ntc_clash::rises;
  if (shared >= 0) return Ntc_clash::none;
  switch (slope_clash(one, other, possible_b)) {
  case Slope_clash::none: break;
  case Slope_clash::too_flat: return Ntc_clash::b_too_low;
  case Slope_clash::too_steep: return Ntc_clash::b_too_high;
  }
  return Ntc_clash::none;
}

// Whether two gates clash, `cold` being the one at the lower temperature, in plain numbers: as ntc_clash
// says, at a fraction of its cost. Empty where rounding could matter, which is below 1e-15 of each number
// here.
static std::optional<bool> plain_clash(const Gate& cold, const Gate& warm) {
  constexpr double doubt = 1e-12;
  const double shared = warm.x.high - cold.x.low;
  if (std::fabs(shared) <= 1e-9 * cold.x.low) return std::nullopt;
  if (shared > 0) return false;
  const double least = possible_b.low * -shared, most = possible_b.high * (cold.x.high - warm.x.low);
  const double rises = warm.y.low - cold.y.high;
  const double too_flat = least + rises, too_steep = cold.y.low - warm.y.high - most;
  const double worst = std::max({rises, too_flat, too_steep});
  const double size =
      std::fabs(cold.y.low) + std::fabs(cold.y.high) + std::fabs(warm.y.low) + std::fabs(warm.y.high) + most;
  if (!(std::fabs(worst) > doubt * size)) return std::nullopt;
  return worst > 0;
}

std::vector<Impossible_row> impossible_ntc_rows(const std::vector<Row>& rows) {
  const auto clash = [&](std::size_t i, std::size_t j) { return ntc_clash(rows[i].gate, rows[j].gate); };
  const auto blamed = blamed_rows(rows.size(), [&](std::size_t i, std::size_t j) {
    const Gate &one = rows[i].gate, &other = rows[j].gate;
    const auto plain = one.x.middle() < other.x.middle() ? plain_clash(other, one) : plain_clash(one, other);
    return plain ? *plain : clash(i, j) != Ntc_clash::none;
  });
  const std::size_t most = witnesses_each(blamed);
  std::vector<Impossible_row> impossible;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    if (!blamed[row]) continue;
    // Rather witnesses that are not blamed themselves, and rather those against which the row rises.
    for (const auto& [right, rising] :
         {std::pair{true, true}, {true, false}, {false, true}, {false, false}}) {
      auto witnesses =
          nearest_rows(rows.size(), row, most, [&, right = right, rising = rising](std::size_t i) {
            const Ntc_clash why = clash(i, row);
            return why != Ntc_clash::none && !(right && blamed[i]) && (!rising || why == Ntc_clash::rises);
          });
      if (witnesses.empty()) continue;
      impossible.push_back({row, std::move(witnesses), rising});
      break;
    }
  }
  return impossible;
}

static const Table_row* row_at(const Resistance_model& model, double kelvin) {
  const auto found = std::find_if(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
    return row.at && row.at->si == kelvin && row.nominal && row.nominal->si > 0;
  });
  return found == model.rows.end() ? nullptr : found;
}

// As far as its digits say.
static std::optional<Interval> nominal_of(const Resistance_model& model, const Table_row& row) {
  const double ohm = row.nominal->si, half = half_of_last_digit(*row.nominal, usual_digits(model));
  return half < ohm ? std::optional(widened({ohm - half, ohm + half}, 1)) : std::nullopt;
}

std::optional<Interval> b_of_table(const Resistance_model& model, double from, double to) {
  const Table_row *first = row_at(model, from), *second = row_at(model, to);
  if (first == nullptr || second == nullptr || from == to) return std::nullopt;
  const auto one = nominal_of(model, *first), other = nominal_of(model, *second);
  if (!one || !other) return std::nullopt;
  return b_between(*one, {from, from}, *other, {to, to});
}

// The nominal at a temperature, with what the rounding of the rows around it leaves open.
static std::optional<Interval> nominal_at(const Resistance_model& model, double kelvin) {
  if (const Table_row* row = row_at(model, kelvin)) return nominal_of(model, *row);
  const auto band = model_interval(model, {kelvin, kelvin}, Taken::nominally, Between_rows::thermistor);
  const Table_row *below = nullptr, *above = nullptr;
  for (const Table_row& row : model.rows) {
    if (!row.at || !row.nominal) continue;
    if (row.at->si < kelvin && (below == nullptr || row.at->si > below->at->si)) below = &row;
    if (row.at->si > kelvin && (above == nullptr || row.at->si < above->at->si)) above = &row;
  }
  if (!band || !(band->low > 0) || below == nullptr || above == nullptr) return std::nullopt;
  const bool of_fahrenheit = is_rounded_from_fahrenheit(model);
  const int usual = usual_digits(model);
  const auto rounding = [&](const Table_row& row) {
    const double drift = model.b_value->si / (row.at->si * row.at->si); // of ln R, by kelvin
    return half_of_last_digit(*row.nominal, usual) / row.nominal->si +
           (of_fahrenheit ? drift * off_fahrenheit(*row.at) : 0);
  };
  const double most = std::max(rounding(*below), rounding(*above));
  if (!(most < 1)) return std::nullopt;
  return *band * Interval{1 - most, 1 + most};
}

std::optional<Interval> b_between_rows(const Resistance_model& model, double from, double to) {
  const auto first = nominal_at(model, from), second = nominal_at(model, to);
  if (!first || !second || from == to) return std::nullopt;
  return b_between(*first, {from, from}, *second, {to, to});
}

}
