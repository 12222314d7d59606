#include "ohmlore/bands.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmlore {

Interval written_interval(const Quantity& value) {
  return Interval{value.si, value.si} + Interval{-value.half_digit, value.half_digit};
}

Interval toleranced_interval(const Quantity& nominal, const Value<Tolerance>& tolerance) {
  if (!tolerance) return written_interval(nominal);
  const Interval middle{nominal.si, nominal.si};
  // The decimal limits were rounded once each when they were read.
  const Interval minus = widened({tolerance->minus, tolerance->minus}, 1);
  const Interval plus = widened({tolerance->plus, tolerance->plus}, 1);
  if (tolerance->relative()) {
    const Interval one{1, 1};
    return hull(middle * (one - minus), middle * (one + plus));
  }
  return hull(middle - minus, middle + plus);
}

static std::optional<Interval> limits(const Value<Quantity>& nominal, const Value<Tolerance>& tolerance,
                                      const Value<Quantity>& min, const Value<Quantity>& max) {
  if (min && max) {
    if (min->si > max->si) return std::nullopt;
    return Interval{min->si, max->si};
  }
  if (nominal) return toleranced_interval(*nominal, tolerance);
  return std::nullopt;
}

std::optional<Interval> row_interval(const Table_row& row) {
  return limits(row.nominal, row.tolerance, row.min, row.max);
}

std::optional<Interval> expected_interval(const Expectation& expectation) {
  if (!expectation.kind || *expectation.kind != Expectation_kind::band) return std::nullopt;
  return limits(expectation.nominal, expectation.tolerance, expectation.min, expectation.max);
}

Interval kelvin_interval(const Range& at) {
  return {std::min(at.low.si, at.high.si), std::max(at.low.si, at.high.si)};
}

static std::array<double, 6> coefficients_of(const Resistance_model& model) {
  return {model.a1->si, model.a2->si, model.a3->si, model.a4->si, model.a5->si, model.a6->si};
}

static double k_of(const Resistance_model& model) {
  if (model.k) return model.k->si;
  return model.metal && *model.metal == Metal::aluminium ? aluminium_k : copper_k;
}

static Rtd_class physics_class(Tolerance_class c) { return static_cast<Rtd_class>(c); }
static_assert(static_cast<int>(Tolerance_class::AA) == static_cast<int>(Rtd_class::aa) &&
              static_cast<int>(Tolerance_class::C) == static_cast<int>(Rtd_class::c));

// All resistances that a monotone curve through the rows may reach within `kelvin`.
static std::optional<Interval> table_interval(const Resistance_model& model, Interval kelvin) {
  std::optional<Interval> reached;
  const Table_row* below = nullptr;
  const Table_row* above = nullptr;
  const auto take = [&](const Table_row& row) {
    if (const auto band = row_interval(row)) reached = reached ? hull(*reached, *band) : *band;
  };
  for (const Table_row& row : model.rows) {
    if (!row.at || !row_interval(row)) continue;
    if (row.at->si <= kelvin.low && (below == nullptr || row.at->si > below->at->si)) below = &row;
    if (row.at->si >= kelvin.high && (above == nullptr || row.at->si < above->at->si)) above = &row;
    if (kelvin.contains(row.at->si)) take(row);
  }
  if (below == nullptr || above == nullptr) return std::nullopt;
  take(*below);
  take(*above);
  return reached;
}

std::optional<Interval> model_interval(const Resistance_model& model, Interval kelvin) {
  if (!model.kind) return std::nullopt;
  switch (*model.kind) {
  case Model_kind::beta: {
    if (!model.resistance || !model.at || !model.b_value) return std::nullopt;
    const Interval r = toleranced_interval(*model.resistance, model.tolerance);
    const Interval b = model.b_tolerance ? toleranced_interval(*model.b_value, model.b_tolerance)
                                         : Interval{model.b_value->si, model.b_value->si};
    return beta_resistance(kelvin, r, kelvin_interval(*model.at), b);
  }
  case Model_kind::steinhart_hart: {
    if (!model.a || !model.b || !model.c) return std::nullopt;
    const Steinhart_hart curve{model.a->si, model.b->si, model.c->si};
    const auto hot = steinhart_hart_resistance(curve, kelvin.high);
    const auto cold = steinhart_hart_resistance(curve, kelvin.low);
    if (!hot || !cold) return std::nullopt;
    // The curve is solved to full double precision; 8 ulp is twice what its solver states.
    Interval nominal = widened({std::min(*hot, *cold), std::max(*hot, *cold)}, 8);
    if (!model.tolerance) return nominal;
    Quantity low, high;
    low.si = nominal.low;
    high.si = nominal.high;
    return hull(toleranced_interval(low, model.tolerance), toleranced_interval(high, model.tolerance));
  }
  case Model_kind::table: return table_interval(model, kelvin);
  case Model_kind::iec_60751: {
    if (!model.r0) return std::nullopt;
    Interval celsius = celsius_of(kelvin);
    if (model.tolerance_class) {
      const auto off = [&](double t) {
        return rtd_class_tolerance(physics_class(*model.tolerance_class), t);
      };
      const double worst = std::max(off(celsius.low), off(celsius.high));
      celsius = celsius + Interval{-worst, worst};
    }
    return platinum_resistance(celsius, {model.r0->si, model.r0->si});
  }
  case Model_kind::polynomial: {
    if (!model.r0) return std::nullopt;
    const auto coefficients = coefficients_of(model);
    return polynomial_resistance(celsius_of(kelvin), toleranced_interval(*model.r0, model.tolerance),
                                 coefficients);
  }
  case Model_kind::copper: {
    if (!model.resistance || !model.at) return std::nullopt;
    return copper_resistance(celsius_of(kelvin), toleranced_interval(*model.resistance, model.tolerance),
                             celsius_of(kelvin_interval(*model.at)), k_of(model));
  }
  case Model_kind::fixed:
    if (!model.resistance) return std::nullopt;
    return toleranced_interval(*model.resistance, model.tolerance);
  case Model_kind::power: {
    if (!model.voltage || !model.power || model.power->si <= 0) return std::nullopt;
    const Interval ohm =
        resistance_from_power({model.voltage->si, model.voltage->si}, {model.power->si, model.power->si});
    if (!model.tolerance) return ohm;
    Quantity nominal;
    nominal.si = ohm.middle();
    return hull(ohm, toleranced_interval(nominal, model.tolerance));
  }
  case Model_kind::open:
  case Model_kind::closed: return std::nullopt;
  }
  return std::nullopt;
}

std::optional<double> nominal_resistance(const Resistance_model& model, double kelvin) {
  if (!model.kind) return std::nullopt;
  if (*model.kind == Model_kind::table) {
    const Table_row* below = nullptr;
    const Table_row* above = nullptr;
    for (const Table_row& row : model.rows) {
      if (!row.at || !row.nominal) continue;
      if (row.at->si <= kelvin && (below == nullptr || row.at->si > below->at->si)) below = &row;
      if (row.at->si >= kelvin && (above == nullptr || row.at->si < above->at->si)) above = &row;
    }
    if (below == nullptr || above == nullptr || below->nominal->si <= 0 || above->nominal->si <= 0)
      return std::nullopt;
    if (below == above) return below->nominal->si;
    // Straight in ln R over 1/T, as thermistor tables are interpolated (EPCOS, "Standardized R/T
    // characteristics").
    const double share = (1 / kelvin - 1 / below->at->si) / (1 / above->at->si - 1 / below->at->si);
    return std::exp(std::log(below->nominal->si) + share * std::log(above->nominal->si / below->nominal->si));
  }
  Resistance_model bare = model; // without its tolerances
  bare.tolerance = {};
  bare.b_tolerance = {};
  bare.tolerance_class = {};
  for (Value<Quantity>* value : {&bare.resistance, &bare.r0, &bare.b_value}) value->value.half_digit = 0;
  if (bare.at && !bare.at->single) return std::nullopt;
  const auto band = model_interval(bare, {kelvin, kelvin});
  if (!band) return std::nullopt;
  return band->middle();
}

}
