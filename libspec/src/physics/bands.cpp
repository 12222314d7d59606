#include "ohmlore/bands.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
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

Interval rounded_interval(const Quantity& value) {
  const double half = half_of_sure_digit(value);
  return decimal(value.si) + Interval{-half, half};
}

bool has_limits(const Value<Quantity>& nominal, const Value<Quantity>& min, const Value<Quantity>& max,
                Taken taken) {
  return min && max && taken != Taken::nominally ? min->si <= max->si : bool(nominal);
}

std::optional<Interval> limits(const Value<Quantity>& nominal, const Value<Tolerance>& tolerance,
                               const Value<Quantity>& min, const Value<Quantity>& max, Taken taken) {
  if (!has_limits(nominal, min, max, taken)) return std::nullopt;
  if (min && max && taken != Taken::nominally) {
    if (taken == Taken::literally) return Interval{min->si, max->si};
    return Interval{rounded_interval(*min).low, rounded_interval(*max).high};
  }
  if (taken == Taken::generously) {
    const double more = half_of_sure_digit(*nominal) - nominal->half_digit;
    return toleranced_interval(*nominal, tolerance, taken) + Interval{-more, more};
  }
  return toleranced_interval(*nominal, tolerance, taken);
}

// What parts have around a nominal that a formula gives, itself a band.
Interval toleranced_around(Interval nominal, const Value<Tolerance>& tolerance, Taken taken) {
  if (!tolerance || taken == Taken::nominally) return nominal;
  const auto around = [&](double ohm) {
    return toleranced_interval({.si = ohm}, tolerance, Taken::literally);
  };
  return hull(around(nominal.low), around(nominal.high));
}

std::optional<Interval> beta_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.resistance || !model.at || !model.b_value) return std::nullopt;
  Interval b = model.b_tolerance ? toleranced_interval(*model.b_value, model.b_tolerance, taken)
                                 : number(*model.b_value, taken);
  if (taken == Taken::generously) b = b + b_departure(model, kelvin);
  return beta_resistance(decimal(kelvin), toleranced_interval(*model.resistance, model.tolerance, taken),
                         decimal(kelvin_interval(*model.at)), b);
}

// The nearest place to `start` on one side at which `sure` holds, within the reach of thermistors; `likely`
// is how far that probably is.
template <class Sure>
std::optional<double> nearest_sure(double start, double side, double likely, Sure sure) {
  constexpr double reach = 50; // as a difference of ln R
  if (likely > 0 && likely < reach && sure(start + side * likely)) return start + side * likely;
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

// ln R of a Steinhart-Hart curve at one temperature, for every choice of coefficients inside their intervals:
// from the solution for their middles outwards to where the sign of the equation is sure.
std::optional<Interval> steinhart_hart_logarithm(Interval a, Interval b, Interval c, double kelvin) {
  const auto ohm = steinhart_hart_resistance({a.middle(), b.middle(), c.middle()}, kelvin);
  if (!ohm) return std::nullopt;
  const Interval inverse = point(1) / decimal(kelvin);
  const auto excess = [&](double l) { return a + point(l) * (b + c * point(l) * point(l)) - inverse; };
  const double start = std::log(*ohm);
  // As far as the equation is unsure there, by its slope.
  const Interval unsure = excess(start);
  const double slope = b.middle() + 3 * c.middle() * start * start;
  const double likely = 1.001 * std::max(std::fabs(unsure.low), std::fabs(unsure.high)) / slope + 1e-15;
  const auto low = nearest_sure(start, -1, likely, [&](double l) { return excess(l).high < 0; });
  const auto high = nearest_sure(start, 1, likely, [&](double l) { return excess(l).low > 0; });
  if (!low || !high) return std::nullopt;
  return Interval{*low, *high};
}

std::optional<Interval> steinhart_hart_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (!model.a || !model.b || !model.c) return std::nullopt;
  const Interval a = number(*model.a, taken), b = number(*model.b, taken), c = number(*model.c, taken);
  const auto coldest = steinhart_hart_logarithm(a, b, c, kelvin.low),
             hottest = kelvin.width() > 0 ? steinhart_hart_logarithm(a, b, c, kelvin.high) : coldest;
  if (!coldest || !hottest) return std::nullopt;
  const Interval logarithm = hull(*coldest, *hottest);
  // Where the cubic surely rises all the way between, the ends hold the extremes, and there is no other
  // solution.
  if (!((b + point(3) * c * logarithm * logarithm).low > 0)) return std::nullopt;
  const Interval nominal = exp(logarithm);
  return toleranced_around(nominal, model.tolerance, taken);
}

// The nearest temperatures with rows at or below the lower and at or above the upper end of a range.
struct Enclosing {
  double below = -infinity, above = infinity;
};
Enclosing enclosing_rows(const Resistance_model& model, Interval kelvin, Taken taken) {
  Enclosing found;
  for (const Table_row& row : model.rows) {
    if (!row.at || !has_limits(row.nominal, row.min, row.max, taken)) continue;
    if (row.at->si <= kelvin.low) found.below = std::max(found.below, row.at->si);
    if (row.at->si >= kelvin.high) found.above = std::min(found.above, row.at->si);
  }
  return found;
}

// All that the rows within a range state.
std::optional<Interval> rows_within(const Resistance_model& model, Interval kelvin, Taken taken) {
  std::optional<Interval> reached;
  for (const Table_row& row : model.rows) {
    if (!row.at || !kelvin.contains(row.at->si)) continue;
    if (const auto band = row_interval(row, taken)) reached = reached ? hull(*reached, *band) : *band;
  }
  return reached;
}

// Between two rows of a thermistor: along the chord of ln R over 1/T, and as far beside it as B drifts.
Interval along_chord(double kelvin, double cold, Interval at_cold, double hot, Interval at_hot) {
  const Interval x = point(1) / point(kelvin), cold_x = point(1) / point(cold), hot_x = point(1) / point(hot);
  const auto share = [&](Interval part) {
    const Interval of_one = part / (cold_x - hot_x);
    return Interval{std::clamp(of_one.low, 0.0, 1.0), std::clamp(of_one.high, 0.0, 1.0)};
  };
  const Interval of_cold = share(x - hot_x), of_hot = share(cold_x - x);
  // ln x above its own chord, which is never below 0 as ln bends downwards.
  const Interval above = log(x) - (of_cold * log(cold_x) + of_hot * log(hot_x));
  return exp(of_cold * log(at_cold) + of_hot * log(at_hot) +
             b_drift * Interval{std::max(above.low, 0.0), std::max(above.high, 0.0)});
}

std::optional<Interval> thermistor_between_rows(const Resistance_model& model, double kelvin, Taken taken) {
  const auto [below, above] = enclosing_rows(model, point(kelvin), taken);
  if (std::isinf(below) || std::isinf(above)) return std::nullopt;
  const Interval colder = *rows_within(model, point(below), taken);
  if (below == above) return colder;
  const Interval hotter = *rows_within(model, point(above), taken), monotone = hull(colder, hotter);
  if (!(below > 0) || !(monotone.low > 0)) return monotone;
  const Interval bent = along_chord(kelvin, below, colder, above, hotter);
  return Interval{std::max(monotone.low, bent.low), std::min(monotone.high, bent.high)};
}

std::optional<Interval> table_band(const Resistance_model& model, Interval kelvin, Taken taken,
                                   Between_rows between) {
  const auto [below, above] = enclosing_rows(model, kelvin, taken);
  if (std::isinf(below) || std::isinf(above)) return std::nullopt;
  if (between == Between_rows::monotone) return rows_within(model, {below, above}, taken);
  // It falls, so that the ends of the range hold the extremes.
  Interval ends = *thermistor_between_rows(model, kelvin.low, taken);
  if (kelvin.width() > 0) ends = hull(ends, *thermistor_between_rows(model, kelvin.high, taken));
  const auto inside = rows_within(model, kelvin, taken);
  return inside ? hull(ends, *inside) : ends;
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
    // Two roundings, of decimals that were rounded before. t ± tolerance(t) rises with t.
    const auto off = [&](double t) { return widened(point(rtd_class_tolerance(accuracy, t)), 4).high; };
    celsius = {(point(celsius.low) - point(off(celsius.low))).low,
               (point(celsius.high) + point(off(celsius.high))).high};
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
  const Interval k = taken == Taken::generously ? copper_k_interval(model) : decimal(copper_k_of(model));
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
  const Interval coldest = at(point(kelvin.low), point(nearest(kelvin.low)));
  if (!(kelvin.width() > 0)) return coldest;
  return hull(coldest, at(point(kelvin.high), point(nearest(kelvin.high))));
}

std::optional<Interval> power_band(const Resistance_model& model, Taken taken) {
  if (!model.voltage || !model.power) return std::nullopt;
  const Interval volt = number(*model.voltage, taken), watt = number(*model.power, taken);
  if (!(volt.low > 0) || !(watt.low > 0)) return std::nullopt;
  const Interval nominal = resistance_from_power(volt, watt);
  return toleranced_around(nominal, model.tolerance, taken);
}

}

double half_of_sure_digit(const Quantity& value) {
  double half = value.half_digit;
  const double step = 2 * half;
  if (step != 1 && step != 1e3 && step != 1e6) return half;
  auto number = static_cast<std::uint64_t>(std::round(std::fabs(value.si) / step)); // of 17 digits at most
  for (; number >= 100 && number % 10 == 0; number /= 10) half *= 10;
  return half;
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
  const Interval least = middle * (point(1) - minus), most = middle * (point(1) + plus);
  return middle.low >= 0 ? Interval{least.low, most.high} : hull(least, most);
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

Interval copper_k_interval(const Resistance_model& model) {
  if (model.k) return written_interval(*model.k);
  const Metal metal = model.metal ? *model.metal : Metal::copper;
  if (metal == Metal::copper) return decimal(possible_copper_k);
  return decimal(metal == Metal::aluminium ? possible_aluminium_k : point(copper_k_of(model)));
}

namespace {

// Two temperatures in kelvin, the lower one first. B between them is the mean of the local B, weighted evenly
// over 1/T: `share(T)` of that weight, p + q/T, lies below T.
struct Pair_of_temperatures {
  double low, high;
  Pair_of_temperatures(double a, double b) : low(std::min(a, b)), high(std::max(a, b)) {
    constexpr double least_step = 1e-9; // so that one temperature is a pair too
    high = std::max(high, low * (1 + least_step));
  }
  struct Share {
    double p = 0, q = 0;
  };
  Share share(double kelvin) const {
    if (kelvin <= low) return {0, 0};
    if (kelvin >= high) return {1, 0};
    const double whole = 1 / low - 1 / high;
    return {1 / low / whole, -1 / whole};
  }
};

// With w the share of one pair less that of another, B differs by the integral of -w dB/dT: what w has above
// zero, and what below, in kelvin.
struct Apart {
  double above = 0, below = 0;
};
Apart apart(const Pair_of_temperatures& one, const Pair_of_temperatures& other) {
  double ends[] = {one.low, one.high, other.low, other.high};
  std::sort(std::begin(ends), std::end(ends));
  Apart found;
  const auto add = [&](double from, double to, double p, double q) {
    const double area = p * (to - from) + q * std::log(to / from);
    (area > 0 ? found.above : found.below) += std::fabs(area);
  };
  for (std::size_t i = 0; i + 1 < std::size(ends); ++i) {
    const double from = ends[i], to = ends[i + 1], middle = (from + to) / 2;
    if (!(from < to)) continue;
    const auto a = one.share(middle), b = other.share(middle);
    const double p = a.p - b.p, q = a.q - b.q;
    const double zero = p == 0 ? from : -q / p;
    const bool crosses = from < zero && zero < to;
    add(from, crosses ? zero : to, p, q);
    if (crosses) add(zero, to, p, q);
  }
  return found;
}

}

Interval b_departure(const Resistance_model& model, Interval kelvin) {
  // Where the two are not stated: 25 and 50 °C, 25 and 100 °C, or between these.
  const auto taken_between = [&](double celsius) {
    return model.b_between ? Pair_of_temperatures(model.b_between->low.si, model.b_between->high.si)
                           : Pair_of_temperatures(zero_celsius + 25, zero_celsius + celsius);
  };
  double most = 0;
  for (const Pair_of_temperatures& pair : {taken_between(50), taken_between(100)}) {
    // The warmer `kelvin` is, the less of its share lies below any temperature.
    const double above = apart({model.at->low.si, kelvin.low}, pair).above,
                 below = apart({model.at->low.si, kelvin.high}, pair).below;
    // dB/dT may be at either of its limits wherever w has one sign.
    most = std::max(
        {most, b_drift.high * below - b_drift.low * above, b_drift.high * above - b_drift.low * below});
  }
  most *= 1 + 1e-12; // rounding
  // Either way, as a stated pair of temperatures may be that of another B.
  return {-most, most};
}

std::optional<Interval> model_interval(const Resistance_model& model, Interval kelvin, Taken taken,
                                       Between_rows between) {
  if (!model.kind) return std::nullopt;
  switch (*model.kind) {
  case Model_kind::beta: return beta_band(model, kelvin, taken);
  case Model_kind::steinhart_hart: return steinhart_hart_band(model, kelvin, taken);
  case Model_kind::table: return table_band(model, kelvin, taken, between);
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

bool is_bare_ntc(const Resolved_component& component) {
  if (!component.is(Component_kind::ntc)) return false;
  if (const auto linearised = component.get(&Component_type::linearised)) return !**linearised;
  return !may_have(component, "linearised", component.own->linearised);
}

Between_rows between_rows(const Resolved_component& component) {
  return is_bare_ntc(component) ? Between_rows::thermistor : Between_rows::monotone;
}

namespace {

// A model asked backwards, by halving ranges of temperature: a range whose band misses the resistance holds
// no temperature that means it.
struct Backwards {
  const Resistance_model& model;
  Interval ohm;
  Taken taken;
  Between_rows between;
  int left = 20'000; // bands to compute; where they do not suffice, the answer is wider

  bool speaks_at(double kelvin) const { return bool(model_interval(model, point(kelvin), taken, between)); }

  // How far the model speaks from a temperature of which it speaks towards another.
  double reach(double from, double towards) const {
    if (speaks_at(towards)) return towards;
    for (double middle = std::midpoint(from, towards); middle != from && middle != towards;
         middle = std::midpoint(from, towards))
      (speaks_at(middle) ? from : towards) = middle;
    return from;
  }

  std::optional<Interval> spoken_of(Interval within) const {
    if (*model.kind == Model_kind::table) {
      double first = infinity, last = -infinity;
      for (const Table_row& row : model.rows)
        if (row.at && has_limits(row.nominal, row.min, row.max, taken))
          first = std::min(first, row.at->si), last = std::max(last, row.at->si);
      within = {std::max(within.low, first), std::min(within.high, last)};
      return within.low <= within.high ? std::optional(within) : std::nullopt;
    }
    for (const double kelvin : {within.high, within.low, std::clamp(zero_celsius, within.low, within.high)})
      if (speaks_at(kelvin)) return Interval{reach(kelvin, within.low), reach(kelvin, within.high)};
    return std::nullopt;
  }

  enum class End : std::uint8_t { low, high };
  std::optional<double> outermost(Interval kelvin, End end) {
    constexpr double narrow = 1e-9;
    const auto band = model_interval(model, kelvin, taken, between);
    if (band && !band->overlaps(ohm)) return std::nullopt;
    if (--left < 0 || kelvin.width() <= narrow) return end == End::low ? kelvin.low : kelvin.high;
    const Interval colder = {kelvin.low, kelvin.middle()}, hotter = {kelvin.middle(), kelvin.high};
    const auto found = outermost(end == End::low ? colder : hotter, end);
    return found ? found : outermost(end == End::low ? hotter : colder, end);
  }
};

}

std::optional<Interval> model_temperatures(const Resistance_model& model, Interval ohm, Interval within,
                                           Taken taken, Between_rows between) {
  if (!model.kind) return std::nullopt;
  Backwards search{model, ohm, taken, between};
  const auto kelvin = search.spoken_of(within);
  if (!kelvin) return std::nullopt;
  const auto low = search.outermost(*kelvin, Backwards::End::low);
  if (!low) return std::nullopt;
  const auto high = search.outermost(*kelvin, Backwards::End::high);
  return Interval{*low, high.value_or(*low)};
}

double resistance_between(Known_resistance one, Known_resistance other, double kelvin) {
  const bool falls = (one.ohm > other.ohm) == (one.kelvin < other.kelvin);
  const auto along = [falls](double t) { return falls ? 1 / t : std::log(t); };
  const double share = (along(kelvin) - along(one.kelvin)) / (along(other.kelvin) - along(one.kelvin));
  return one.ohm * std::pow(other.ohm / one.ohm, share);
}

static std::optional<double> nominal_between_rows(const Resistance_model& model, double kelvin) {
  const Table_row* below = nullptr;
  const Table_row* above = nullptr;
  for (const Table_row& row : model.rows) {
    if (!row.at || !(row.at->si > 0) || !row.nominal || !(row.nominal->si > 0)) continue;
    if (row.at->si <= kelvin && (below == nullptr || row.at->si > below->at->si)) below = &row;
    if (row.at->si >= kelvin && (above == nullptr || row.at->si < above->at->si)) above = &row;
  }
  if (below == nullptr || above == nullptr) return std::nullopt;
  if (below->at->si == above->at->si) return below->nominal->si;
  return resistance_between({below->at->si, below->nominal->si}, {above->at->si, above->nominal->si}, kelvin);
}

std::optional<double> nominal_resistance(const Resistance_model& model, double kelvin) {
  if (model.kind && *model.kind == Model_kind::table) return nominal_between_rows(model, kelvin);
  const auto band = model_interval(model, {kelvin, kelvin}, Taken::nominally);
  if (!band) return std::nullopt;
  return band->middle();
}

}
