// What a resistance model states at one temperature, for rules that compare two models, or one with itself.
#pragma once

#include <algorithm>
#include <optional>

#include "lint/measured.h"
#include "lint/rule.h"

namespace ohmlore::rules {

/// Temperatures in kelvin that a model names. Of a platinum or polynomial curve 0 °C, where R0 holds.
inline std::vector<double> named_temperatures(const Resistance_model& model) {
  std::vector<double> found;
  for (const Value<Range>* at : {&model.at, &model.b_between}) {
    if (!*at) continue;
    found.push_back((*at)->low.si);
    found.push_back((*at)->high.si);
  }
  if (model.r0) found.push_back(zero_celsius);
  for (const Table_row& row : model.rows)
    if (row.at) found.push_back(row.at->si);
  return found;
}

/// Whether a model says how far parts may be off; at half of its last digit a nominal alone does not end.
inline bool states_tolerances(const Resistance_model& model) {
  if (*model.kind == Model_kind::iec_60751) return bool(model.tolerance_class);
  if (*model.kind != Model_kind::table) return bool(model.tolerance);
  return std::all_of(model.rows.begin(), model.rows.end(),
                     [](const Table_row& row) { return row.tolerance || (row.min && row.max); });
}

/// Whether no part lies outside of what a model gives at a temperature: of a thermistor with one B away from
/// its reference that of B must be stated too. Of a Steinhart-Hart curve nothing says through which
/// temperatures it goes: laid through 25, 50 and 85 °C of published tables it is up to 5 % off at -40 °C.
inline bool bounds_parts(const Resistance_model& model, Interval kelvin) {
  if (*model.kind == Model_kind::steinhart_hart) return false;
  const bool by_b = *model.kind == Model_kind::beta && model.at &&
                    !kelvin_interval(*model.at, Taken::generously).contains(kelvin);
  return states_tolerances(model) && (!by_b || model.b_tolerance);
}

/// The band at a temperature; nothing where the model does not speak of it, as a `fixed` one outside of its
/// `at`, or copper's line of a metal whose k is not known.
inline std::optional<Interval> stated_band(const Resistance_model& model, Interval kelvin, Taken taken) {
  if (model.kind && *model.kind == Model_kind::fixed && model.at &&
      !kelvin_interval(*model.at).contains(kelvin))
    return std::nullopt;
  if (!model.kind || !speaks_of(model, kelvin)) return std::nullopt;
  return model_interval(model, kelvin, taken);
}
inline std::optional<Interval> stated_band(const Resistance_model& model, double kelvin, Taken taken) {
  return stated_band(model, Interval{kelvin, kelvin}, taken);
}

/// A point of a curve, or a row: all that a part may have there, and what a message shows of it.
struct Point {
  double kelvin = 0;
  Interval shown, ohm;
};
/// Empty where the model does not speak of that temperature.
inline std::optional<Point> point_at(const Resistance_model& model, double kelvin) {
  const auto ohm = model_interval(model, {kelvin, kelvin}, Taken::generously);
  if (!ohm) return std::nullopt;
  return Point{kelvin, model_interval(model, {kelvin, kelvin}).value_or(*ohm), *ohm};
}

}
