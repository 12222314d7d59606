#include "ohmlore/bands.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace ohmlore {
namespace {

constexpr Interval point(double x) { return {x, x}; }

// Decimals as they were read, rounded once: the neighbours enclose them.
Interval decimal(Interval nearest) { return widened(nearest, 1); }
Interval decimal(double nearest) { return decimal(point(nearest)); }

// A number that is exact by convention unless it is taken generously: a coefficient, a rated voltage.
Interval number(const Quantity& value, Taken taken) {
  return taken == Taken::generously ? written_interval(value) : decimal(value.si);
}

// Half of the last digit that surely counts: the zeros at the end of a whole number of Ω, kΩ or MΩ may be
// rounding, "1300 Ω" for 1283 Ω, down to two digits (how people round; common practice, no source). A zero
// behind the decimal point is meant: "38.0 Ω".
double half_of_sure_digit(const Quantity& value) {
  double half = value.half_digit;
  const double step = 2 * half;
  if (step != 1 && step != 1e3 && step != 1e6) return half;
  for (double digits = std::round(std::fabs(value.si) / step); digits >= 100 && std::fmod(digits, 10) == 0;
       digits /= 10)
    half *= 10;
  return half;
}

Interval rounded_interval(const Quantity& value) {
  const double half = half_of_sure_digit(value);
  return decimal(value.si) + Interval{-half, half};
}

std::optional<Interval> limits(const Value<Quantity>& nominal, const Value<Tolerance>& tolerance,
                               const Value<Quantity>& min, const Value<Quantity>& max, Taken taken) {
  if (min && max && taken != Taken::nominally) {
    if (min->si > max->si) return std::nullopt;
    if (taken == Taken::literally) return Interval{min->si, max->si};
    return Interval{rounded_interval(*min).low, rounded_interval(*max).high};
  }
  if (nominal && taken == Taken::generously) {
    const double more = half_of_sure_digit(*nominal) - nominal->half_digit;
    return toleranced_interval(*nominal, tolerance, taken) + Interval{-more, more};
  }
  if (nominal) return toleranced_interval(*nominal, tolerance, taken);
  return std::nullopt;
}

// By how much the B-value of real thermistors changes with temperature, in kelvin per kelvin: 1.3 to 5.6 in
// the published tables of TDK/EPCOS, Murata and Campbell Scientific that the tests read, 0.8 to 7.7 with the
// noise of their digits.
constexpr double most_b_drift = 8;

// B between the temperature of the resistance and `kelvin`, where the stated B was taken between two others:
// as B drifts nearly evenly, B between two temperatures is B at their mean.
Interval drifted_b(const Resistance_model& model, Interval b, Interval kelvin) {
  // Where the two are not stated: 25 and 50 °C, 25 and 100 °C, or between these.
  const Interval stated_sum = model.b_between ? point(model.b_between->low.si + model.b_between->high.si)
                                              : Interval{2 * zero_celsius + 75, 2 * zero_celsius + 125};
  const Interval away = kelvin + kelvin_interval(*model.at) - stated_sum;
  const double most = most_b_drift / 2 * std::max(std::fabs(away.low), std::fabs(away.high));
  return b + Interval{-most, most};
}

std::optional<Interval> beta_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.resistance || !model.at || !model.b_value) return std::nullopt;
  Interval b = model.b_tolerance ? toleranced_interval(*model.b_value, model.b_tolerance, taken)
                                 : number(*model.b_value, taken);
  if (taken == Taken::generously) b = drifted_b(model, b, kelvin);
  return beta_resistance(decimal(kelvin), toleranced_interval(*model.resistance, model.tolerance, taken),
                         decimal(kelvin_interval(*model.at)), b);
}

// The nearest place to `start` on one side at which `sure` holds, within the reach of thermistors.
template <class Sure>
std::optional<double> nearest_sure(double start, double side, Sure sure) {
  constexpr double reach = 50; // as a difference of ln R
  double before = 0, after = 1e-16;
  while (!sure(start + side * after)) {
    before = after;
    after *= 2;
    if (after > reach) return std::nullopt;
  }
  for (int i = 0; i < 10; ++i) {
    const double middle = std::midpoint(before, after);
    (sure(start + side * middle) ? after : before) = middle;
  }
  return start + side * after;
}

// ln R of a Steinhart-Hart curve, for every choice of coefficients inside their intervals: from the solution
// for their middles outwards to where the sign of the equation is sure. Empty where the cubic does not surely
// rise in between.
std::optional<Interval> steinhart_hart_logarithm(Interval a, Interval b, Interval c, Interval kelvin) {
  const auto ohm = steinhart_hart_resistance({a.middle(), b.middle(), c.middle()}, kelvin.middle());
  if (!ohm) return std::nullopt;
  const Interval inverse = point(1) / kelvin;
  const auto excess = [&](double l) { return a + point(l) * (b + c * point(l) * point(l)) - inverse; };
  const double start = std::log(*ohm);
  const auto low = nearest_sure(start, -1, [&](double l) { return excess(l).high < 0; });
  const auto high = nearest_sure(start, 1, [&](double l) { return excess(l).low > 0; });
  if (!low || !high) return std::nullopt;
  const Interval found = {*low, *high};
  const Interval slope = b + point(3) * c * found * found;
  if (!(slope.low > 0)) return std::nullopt;
  return found;
}

std::optional<Interval> steinhart_hart_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.a || !model.b || !model.c) return std::nullopt;
  const auto logarithm = steinhart_hart_logarithm(number(*model.a, taken), number(*model.b, taken),
                                                  number(*model.c, taken), decimal(kelvin));
  if (!logarithm) return std::nullopt;
  const Interval nominal = exp(*logarithm);
  if (!model.tolerance || taken == Taken::nominally) return nominal;
  const auto around = [&](double ohm) {
    return toleranced_interval({.si = ohm}, model.tolerance, Taken::literally);
  };
  return hull(around(nominal.low), around(nominal.high));
}

// All resistances that a monotone curve through the rows may reach within `kelvin`.
std::optional<Interval> table_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  const Table_row* below = nullptr;
  const Table_row* above = nullptr;
  for (const Table_row& row : model.rows) {
    if (!row.at || !row_interval(row, taken)) continue;
    if (row.at->si <= kelvin.low && (below == nullptr || row.at->si > below->at->si)) below = &row;
    if (row.at->si >= kelvin.high && (above == nullptr || row.at->si < above->at->si)) above = &row;
  }
  if (below == nullptr || above == nullptr) return std::nullopt;
  std::optional<Interval> reached;
  for (const Table_row& row : model.rows) {
    if (!row.at || row.at->si < below->at->si || row.at->si > above->at->si) continue;
    if (const auto band = row_interval(row, taken)) reached = reached ? hull(*reached, *band) : *band;
  }
  return reached;
}

static_assert(static_cast<int>(Tolerance_class::AA) == static_cast<int>(Rtd_class::aa) &&
              static_cast<int>(Tolerance_class::A) == static_cast<int>(Rtd_class::a) &&
              static_cast<int>(Tolerance_class::B) == static_cast<int>(Rtd_class::b) &&
              static_cast<int>(Tolerance_class::C) == static_cast<int>(Rtd_class::c));

std::optional<Interval> platinum_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.r0 || !(model.r0->si > 0)) return std::nullopt;
  Interval celsius = celsius_of(kelvin);
  if (model.tolerance_class && taken != Taken::nominally) {
    const auto accuracy = static_cast<Rtd_class>(*model.tolerance_class);
    // Two roundings, of decimals that were rounded before.
    const double worst = widened(point(std::max(rtd_class_tolerance(accuracy, celsius.low),
                                                rtd_class_tolerance(accuracy, celsius.high))),
                                 4)
                             .high;
    celsius = celsius + Interval{-worst, worst};
  }
  return platinum_resistance(celsius, number(*model.r0, taken));
}

std::optional<Interval> polynomial_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.r0) return std::nullopt;
  std::array<Interval, 6> coefficients{};
  const Value<Quantity>* written[] = {&model.a1, &model.a2, &model.a3, &model.a4, &model.a5, &model.a6};
  for (std::size_t i = 0; i < coefficients.size(); ++i)
    if (*written[i]) coefficients[i] = number(**written[i], taken);
  return polynomial_resistance(celsius_of(kelvin), toleranced_interval(*model.r0, model.tolerance, taken),
                               coefficients);
}

std::optional<Interval> copper_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.resistance || !model.at) return std::nullopt;
  const Interval k = model.k ? number(*model.k, taken) : decimal(copper_k_of(model));
  const Interval stated = kelvin_interval(*model.at, taken);
  if (!(celsius_of(hull(kelvin, stated)).low + k.low > 0)) return std::nullopt;
  const Interval ohm = toleranced_interval(*model.resistance, model.tolerance, taken);
  const auto at = [&](Interval t, Interval reference) {
    const auto with = [&](double one_k) {
      return copper_resistance(celsius_of(t), ohm, celsius_of(reference), one_k);
    };
    return hull(with(k.low), with(k.high)); // monotone in k
  };
  if (taken == Taken::generously) return at(kelvin, stated);
  const auto nearest = [&](double t) { return std::clamp(t, stated.low, stated.high); };
  // (k + t) / (k + nearest(t)) rises with t, or stays at 1 inside the stated range.
  return hull(at(point(kelvin.low), point(nearest(kelvin.low))),
              at(point(kelvin.high), point(nearest(kelvin.high))));
}

std::optional<Interval> power_band(const Resistance_model& model, Taken taken) {
  if (!model.voltage || !model.power) return std::nullopt;
  const Interval volt = number(*model.voltage, taken), watt = number(*model.power, taken);
  if (!(volt.low > 0) || !(watt.low > 0)) return std::nullopt;
  const Interval nominal = resistance_from_power(volt, watt);
  if (!model.tolerance || taken == Taken::nominally) return nominal;
  const auto around = [&](double ohm) {
    return toleranced_interval({.si = ohm}, model.tolerance, Taken::literally);
  };
  return hull(around(nominal.low), around(nominal.high));
}

}

Interval written_interval(const Quantity& value) {
  const double half = decimal(value.half_digit).high;
  return decimal(value.si) + Interval{-half, half};
}

Interval toleranced_interval(const Quantity& nominal, const Value<Tolerance>& tolerance, Taken taken) {
  if (taken == Taken::nominally) return decimal(nominal.si);
  const Interval middle =
      tolerance && taken == Taken::literally ? decimal(nominal.si) : written_interval(nominal);
  if (!tolerance) return middle;
  const Interval minus = decimal(tolerance->minus), plus = decimal(tolerance->plus);
  if (!tolerance->relative()) return {(middle - minus).low, (middle + plus).high};
  return hull(middle * (point(1) - minus), middle * (point(1) + plus));
}

std::optional<Interval> row_interval(const Table_row& row, Taken taken) {
  return limits(row.nominal, row.tolerance, row.min, row.max, taken);
}

std::optional<Interval> expected_interval(const Expectation& expectation, Taken taken) {
  if (!expectation.kind || *expectation.kind != Expectation_kind::band) return std::nullopt;
  return limits(expectation.nominal, expectation.tolerance, expectation.min, expectation.max, taken);
}

Interval kelvin_interval(const Range& at, Taken taken) {
  if (taken == Taken::generously) return hull(written_interval(at.low), written_interval(at.high));
  return {std::min(at.low.si, at.high.si), std::max(at.low.si, at.high.si)};
}

double copper_k_of(const Resistance_model& model) {
  if (model.k) return model.k->si;
  return model.metal && *model.metal == Metal::aluminium ? aluminium_k : copper_k;
}

std::optional<Interval> model_interval(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.kind) return std::nullopt;
  switch (*model.kind) {
  case Model_kind::beta: return beta_band(model, kelvin, taken);
  case Model_kind::steinhart_hart: return steinhart_hart_band(model, kelvin, taken);
  case Model_kind::table: return table_band(model, kelvin, taken);
  case Model_kind::iec_60751: return platinum_band(model, kelvin, taken);
  case Model_kind::polynomial: return polynomial_band(model, kelvin, taken);
  case Model_kind::copper: return copper_band(model, kelvin, taken);
  case Model_kind::fixed:
    if (!model.resistance) return std::nullopt;
    return toleranced_interval(*model.resistance, model.tolerance, taken);
  case Model_kind::power: return power_band(model, taken);
  case Model_kind::open:
  case Model_kind::closed: break;
  }
  return std::nullopt;
}

// Straight in ln R over 1/T, as thermistor tables are interpolated (EPCOS, "Standardized R/T
// characteristics").
static std::optional<double> nominal_between_rows(const Resistance_model& model, double kelvin) {
  const Table_row* below = nullptr;
  const Table_row* above = nullptr;
  for (const Table_row& row : model.rows) {
    if (!row.at || !row.nominal || !(row.nominal->si > 0)) continue;
    if (row.at->si <= kelvin && (below == nullptr || row.at->si > below->at->si)) below = &row;
    if (row.at->si >= kelvin && (above == nullptr || row.at->si < above->at->si)) above = &row;
  }
  if (below == nullptr || above == nullptr) return std::nullopt;
  if (below->at->si == above->at->si) return below->nominal->si;
  const double share = (1 / kelvin - 1 / below->at->si) / (1 / above->at->si - 1 / below->at->si);
  return below->nominal->si * std::pow(above->nominal->si / below->nominal->si, share);
}

std::optional<double> nominal_resistance(const Resistance_model& model, double kelvin) {
  if (model.kind && *model.kind == Model_kind::table) return nominal_between_rows(model, kelvin);
  const auto band = model_interval(model, {kelvin, kelvin}, Taken::nominally);
  if (!band) return std::nullopt;
  return band->middle();
}

}
