// What a test calls healthy, at a temperature.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "ohmlore/bands.h"
#include "ohmlore/judge.h"

namespace ohmlore {

/// The limits of one test. `x` is what they hang on: the kelvin of the part, or the ohm of its twin.
struct Expected {
  const Resolved_component* component = nullptr; ///< never null
  std::optional<Resistance_model> model; ///< of exactly the two contacts; empty where none speaks of them
  Between_rows between = Between_rows::monotone;
  bool varies = false; ///< with the temperature
  Limit_basis basis = Limit_basis::manufacturing;
  std::string words, manufacturing_words;
  Value<Tolerance> service;        ///< absolute or relative, around the nominal
  std::optional<Interval> stated;  ///< limits that the test itself states, in ohm
  std::optional<double> stated_at; ///< kelvin at which they hold; they are carried to others by the model
  /// Of a table: where its rows reach, in kelvin; of a sensor without a model, where its test states limits.
  /// Of a part that is no thermometer, a little beyond is as its end.
  std::optional<Interval> rows_reach;
  /// The model is that of one part, and the test reads more than it: for the course over temperature only.
  bool part_of_it = false;
  /// In the place of the model, of a circuit whose parts are all known: see circuit_band.
  std::function<std::optional<Interval>(double kelvin, bool beside)> circuit;
  double times = 1;                 ///< what the test reads, by what the model or the circuit says
  std::vector<std::string> remarks; ///< what to know of these limits

  /// In ohm, a limit may be infinite. Empty where nothing is known there.
  std::optional<Interval> service_at(double kelvin) const;
  std::optional<Interval> manufacturing_at(double kelvin) const;
  std::optional<double> nominal_at(double kelvin) const;
  /// Empty where the model has limits alone, of which `nominal_at` takes the middle.
  std::optional<double> stated_nominal_at(double kelvin) const;
  /// Whether the model says what is nominal there: rows of limits alone do not, and the nominal is then the
  /// middle of what they allow.
  bool has_course(double kelvin) const;
  /// The same beside a temperature of which the model speaks, for what is uncertain around it: where its rows
  /// end it goes on as it does there, and where there is only one, as usual sensors do.
  std::optional<Interval> service_beside(double kelvin) const;
  std::optional<Interval> manufacturing_beside(double kelvin) const;
  std::optional<double> nominal_beside(double kelvin) const;
  /// The service limit is that of sensors which state none: no part is beyond it that is as it was made.
  bool is_assumed() const { return basis == Limit_basis::policy || basis == Limit_basis::practice; }
  /// The kelvin at which the nominal curve reads this; empty where it does nowhere in the part's range.
  std::optional<double> kelvin_of(double ohm) const;
  Interval kelvin_range() const; ///< where the model is asked

private:
  double asked_at(double kelvin) const;
};

/// The limits of a test, forward or with its leads exchanged. Empty where none can be given: `problem` says
/// why. A `pair` has none without its twin (see twin_limits).
std::optional<Expected> expected_of(const Resolved& resolved, const Test& test, bool reversed,
                                    std::string& problem);
/// What a component itself should read between the probes of a test, whatever the test expects.
std::optional<Expected> model_expectation(const Resolved& resolved, const Resolved_component& component,
                                          const Test& test);

/// How much the nominal changes around there, in ohm per kelvin, from `step` below to `step` above; 0 where
/// that is not known.
double slope_at(const Expected& expected, double kelvin, double step);

/// What is doubtful of the limits between these temperatures, as its curve says it; each once.
std::vector<std::string> doubts_at(const Expected& expected, Interval kelvin);

/// Whether a temperature sensor has a model that says so.
bool is_temperature_sensor(const Resolved_component& component, const Resistance_model& model);

/// "5 %", "3 K", "+10 % -5 %"
std::string described(const Tolerance& tolerance);

}
